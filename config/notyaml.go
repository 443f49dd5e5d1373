package config

import (
	"bytes"
	"fmt"
	"regexp"
	"sort"
	"strings"
	"unicode/utf8"
)

// The library says what it does not understand, but without a column and with a line
// that may lie far above. Where it stopped is found by reading beginnings of the file;
// what a maker most likely meant, by looking there for the usual causes: first for
// quotation marks and brackets (punctuation.go), then for what a line begins with
// and for its colons (causes.go).

// flaw is the likely cause of a refusal.
type flaw struct {
	at   int    // offset in the text
	what string // in the maker's words
	want string // how to write it; "" when what says it
}

// notYAML turns the library's complaint into a fault with a place.
func (p *page) notYAML(err error, text []byte) {
	at := refusedAt(text, err)
	f := flawOf(p.file, text, at, complaint(err))
	one := Fault{File: p.file, What: "this is not YAML: " + f.what, Want: f.want}
	one.Line, one.Column = place(text, f.at)
	p.loader.fault(one)
}

// complaint is what the library says, without its line.
func complaint(err error) string {
	why := strings.TrimPrefix(oneLine(err.Error()), "yaml: ")
	return regexp.MustCompile(`^(unmarshal errors: )?(line \d+: )?`).ReplaceAllString(why, "")
}

// refusedAt is the offset of the character at which the text is refused: the last one
// of its shortest beginning that meets the very same complaint. A beginning that is
// too short is complained of in other words, or is YAML.
//
// Cost: as many readings of the text as its length has binary digits, 20 at most.
func refusedAt(text []byte, err error) int {
	n := sort.Search(len(text), func(n int) bool {
		_, _, other := documents(text[:n])
		return other != nil && other.Error() == err.Error()
	})
	n = max(n-1, 0)
	for n > 0 && !utf8.RuneStart(text[n]) {
		n--
	}
	return n
}

// place counts the line and the column of an offset, from 1, with YAML's line ends.
func place(text []byte, at int) (line, column int) {
	line, column = 1, 1
	for i := 0; i < at; {
		r, n := utf8.DecodeRune(text[i:])
		switch {
		case r == '\r' && i+1 < len(text) && text[i+1] == '\n':
			// counted with the line feed
		case strings.ContainsRune("\r\n\u0085\u2028\u2029", r):
			line, column = line+1, 1
		default:
			column++
		}
		i += n
	}
	return line, column
}

// flawOf is the likely cause of a complaint about what stands at an offset. One in
// the punctuation comes first where it does not lie below; within brackets the
// library stops at the bracket or anywhere after it.
func flawOf(file string, text []byte, at int, why string) flaw {
	if f, ok := tabFlaw(text, at); ok {
		return f
	}
	if f, ok := punctuation(text); ok && (f.at <= lineEnd(text, at) || strings.Contains(why, "did not find expected ','")) {
		return f
	}
	for _, cause := range []func([]byte, int, string) (flaw, bool){colonFlaw, keyFlaw, indentFlaw, signFlaw, anchorFlaw} {
		if f, ok := cause(text, at, why); ok {
			return f
		}
	}
	return flaw{at, clipLong(why), "keys and values, as in " + exampleOf(file)}
}

// lineStart and lineEnd are where the line of an offset begins and ends.
func lineStart(text []byte, at int) int {
	return bytes.LastIndexAny(text[:min(at, len(text))], "\r\n") + 1
}

func lineEnd(text []byte, at int) int {
	if n := bytes.IndexAny(text[at:], "\r\n"); n >= 0 {
		return at + n
	}
	return len(text)
}

// indentOf counts the spaces and tabs before a line's first character.
func indentOf(line string) int { return len(line) - len(strings.TrimLeft(line, " \t")) }

// tabFlaw: the line is indented with a tab. YAML takes only spaces there.
func tabFlaw(text []byte, at int) (flaw, bool) {
	from := lineStart(text, at)
	line := string(text[from:lineEnd(text, at)])
	tab := strings.IndexByte(line[:indentOf(line)], '\t')
	if tab < 0 {
		return flaw{}, false
	}
	return flaw{from + tab, "this line is indented with a tab", "spaces in its place"}, true
}

// anchorFlaw: an alias of something that is nowhere above.
func anchorFlaw(text []byte, at int, why string) (flaw, bool) {
	m := regexp.MustCompile(`^unknown anchor '([^']+)' referenced$`).FindStringSubmatch(why)
	if m == nil {
		return flaw{}, false
	}
	star := bytes.LastIndexByte(text[:at+1], '*')
	return flaw{max(star, 0), fmt.Sprintf("nothing above has the anchor &%[1]s that *%[1]s stands for", m[1]), "what it stands for in its place, or quotation marks round it"}, true
}

// exampleOf is the least that a file of the folder may hold.
func exampleOf(file string) string {
	switch file {
	case kitchenFile:
		return "kitchen: {timezone: Europe/Dublin}"
	case targetsFile:
		return "targets: []"
	case begunFile:
		return "begun: []"
	}
	return "name: Quick curd"
}
