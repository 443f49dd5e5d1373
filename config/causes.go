package config

import (
	"fmt"
	"regexp"
	"strings"
)

// keyOf is the key that a line begins with, after the dashes of a list; "" for none.
func keyOf(line string) string {
	m := regexp.MustCompile(`^\s*(?:- +)*([^\s"'\[\]{},#][^\[\]{},]*?):(?:\s|$)`).FindStringSubmatch(line)
	if m == nil {
		return ""
	}
	return m[1]
}

// glued gives where a line has a key whose colon has no space after it, and the line
// with that space. The colon of a time of day is none of these.
func glued(line string) (colon int, better string) {
	m := regexp.MustCompile(`^\s*(?:- +)*[^\s"'\[\]{},#:][^"'\[\]{},:]*(:)[^\s:]`).FindStringSubmatchIndex(line)
	if m == nil || strings.ContainsRune("0123456789", rune(line[m[2]-1])) {
		return 0, ""
	}
	return m[2], strings.TrimSpace(line[:m[3]] + " " + line[m[3]:])
}

// above gives the offset and the text of the last line above an offset that says
// anything.
func above(text []byte, at int) (from int, line string) {
	for from = lineStart(text, at); from > 0; {
		end := from - 1
		from = lineStart(text, end)
		line = string(text[from:end])
		if said := strings.TrimSpace(line); said != "" && said[0] != '#' {
			return from, strings.TrimRight(line, "\r")
		}
	}
	return 0, ""
}

// colonFlaw: a colon where no key can end. Either the line has one already, or the
// line above is incomplete, or this line stands too far to the right.
func colonFlaw(text []byte, at int, why string) (flaw, bool) {
	if !strings.Contains(why, "mapping values are not allowed") {
		return flaw{}, false
	}
	from := lineStart(text, at)
	line := strings.TrimRight(string(text[from:lineEnd(text, at)]), " \t")
	if key := keyOf(line); key != "" && strings.Index(line, key+":")+len(key) < at-from {
		head := strings.Index(line, key+":") + len(key) + 1
		rest := strings.TrimSpace(line[head:])
		return flaw{at, "a second colon in one line", fmt.Sprintf("%s: \"%s\"", key, clip(strings.ReplaceAll(rest, `"`, `\"`)))}, true
	}
	up, before := above(text, at)
	if colon, better := glued(before); colon > 0 {
		return flaw{up + colon + 1, "a space is missing after the colon", clip(better)}, true
	}
	if said := strings.TrimSpace(before); strings.HasPrefix(said, "-") && !strings.HasPrefix(said, "- ") {
		return flaw{up + indentOf(before) + 1, "a space is missing after the dash", clip("- " + said[1:])}, true
	}
	if keyOf(before) == "" {
		return flaw{up + indentOf(before), "this line has no colon", "a key, a colon, a space and a value"}, true
	}
	return flaw{from + indentOf(line), "this line is indented further than the one above, which has its value", "it with as many spaces as that one"}, true
}

// keyFlaw: a line among keys that has no colon with a space after it.
func keyFlaw(text []byte, at int, why string) (flaw, bool) {
	if !strings.Contains(why, "could not find expected ':'") {
		return flaw{}, false
	}
	from := lineStart(text, at)
	line := string(text[from:lineEnd(text, at)])
	if colon, better := glued(line); colon > 0 {
		return flaw{from + colon + 1, "a space is missing after the colon", clip(better)}, true
	}
	return flaw{from + indentOf(line), "this line has no colon", "a key, a colon, a space and a value"}, true
}

// indentFlaw: a line that fits nothing above it.
func indentFlaw(text []byte, at int, why string) (flaw, bool) {
	from := lineStart(text, at)
	line := string(text[from:lineEnd(text, at)])
	first := from + indentOf(line)
	dash := strings.HasPrefix(line[indentOf(line):], "-")
	switch {
	case strings.Contains(why, "block sequence entries are not allowed") && at > first:
		return flaw{at, "a list cannot begin after a key in its line", "it in the lines below, each with a dash, or in [ ]"}, true
	case at != first && keyOf(line) == "":
		return flaw{}, false
	case strings.Contains(why, "did not find expected '-' indicator") && !dash:
		return flaw{first, "this line stands where the list's next dash is wanted", "as many spaces as the entry's other keys have, or none more than the list's own key"}, true
	case strings.Contains(why, "did not find expected key") && dash:
		return flaw{first, "this dash stands among keys", "it with as many spaces as the list's other dashes"}, true
	case strings.Contains(why, "did not find expected key"):
		return flaw{first, "this line is indented like none of those that it could go on from", "it with as many spaces as the keys beside it"}, true
	}
	return flaw{}, false
}

// signFlaw: a text that begins with a sign that YAML keeps for itself, or a backslash
// that stands for nothing.
func signFlaw(text []byte, at int, why string) (flaw, bool) {
	value := strings.TrimSpace(string(text[at:lineEnd(text, at)]))
	switch {
	case value == "":
		return flaw{}, false
	case strings.Contains(why, "cannot start any token"):
		return flaw{at, fmt.Sprintf("text cannot begin with %.1s", value), fmt.Sprintf("it in quotation marks, as in \"%s\"", clip(strings.ReplaceAll(value, `"`, `\"`)))}, true
	case strings.Contains(why, "did not find expected node content"):
		return flaw{at, fmt.Sprintf("nothing stands before this %.1s", value), "a value, or the text in quotation marks"}, true
	case strings.Contains(why, "unknown escape character"):
		return flaw{at, "this backslash stands for nothing that is known", `two of them, or the text between ' and '`}, true
	}
	return flaw{}, false
}
