package config

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// page is one file of the folder while it is read.
type page struct {
	loader *loader
	file   string
	root   *yaml.Node // nil when the file holds nothing
}

// faultAt adds a fault at a node's place; a nil node is the file as a whole.
func (p *page) faultAt(n *yaml.Node, f Fault) {
	f.File = p.file
	if n != nil {
		f.Line, f.Column = n.Line, n.Column
	}
	p.loader.fault(f)
}

// parse makes the tree of nodes; false after a fault. Whatever order the checks
// come in, none takes longer than a walk over the file.
func (p *page) parse(text []byte) bool {
	text, ok := p.decodable(text)
	if !ok {
		return false
	}
	doc, second, err := documents(text)
	if err != nil {
		p.notYAML(err, text)
		return false
	}
	if second {
		p.faultAt(nil, Fault{What: "this file holds more than one YAML document; take out the line ---, or make two files of it"})
		return false
	}
	if doc == nil || len(doc.Content) == 0 {
		return true
	}
	s := survey{page: p, seen: map[*yaml.Node]extent{}, open: map[*yaml.Node]bool{}}
	e := s.measure(doc.Content[0], 1)
	if s.broken {
		return false
	}
	if e.nodes > MaxNodes {
		p.faultAt(nil, Fault{What: fmt.Sprintf("with its aliases (*name) written out, this file has more than the limit of %d values", MaxNodes)})
		return false
	}
	if root := doc.Content[0]; !null(root) {
		p.root = root
	}
	return true
}

// decodable takes off a byte order mark and refuses what is not UTF-8.
func (p *page) decodable(text []byte) ([]byte, bool) {
	if bytes.HasPrefix(text, []byte{0xff, 0xfe}) || bytes.HasPrefix(text, []byte{0xfe, 0xff}) {
		p.faultAt(nil, Fault{What: "this file is written as UTF-16; save it as UTF-8"})
		return nil, false
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	for rest, line, column := text, 1, 1; len(rest) > 0; {
		r, n := utf8.DecodeRune(rest)
		if r == utf8.RuneError && n == 1 {
			p.loader.fault(Fault{File: p.file, Line: line, Column: column,
				What: fmt.Sprintf("the byte 0x%02x is not UTF-8; save the file as UTF-8", rest[0])})
			return nil, false
		}
		if column++; r == '\n' {
			line, column = line+1, 1
		}
		rest = rest[n:]
	}
	return text, true
}

// documents decodes the first document and says whether there is a second. A
// panic of the library becomes an error: whatever a file holds, it is the file
// that is wrong.
func documents(text []byte) (doc *yaml.Node, second bool, err error) {
	defer func() {
		if r := recover(); r != nil {
			doc, second, err = nil, false, fmt.Errorf("yaml: %v", r)
		}
	}()
	dec := yaml.NewDecoder(bytes.NewReader(text))
	var first, next yaml.Node
	if err := dec.Decode(&first); err != nil {
		if errors.Is(err, io.EOF) {
			return nil, false, nil
		}
		return nil, false, err
	}
	switch err := dec.Decode(&next); {
	case errors.Is(err, io.EOF):
		return &first, false, nil
	case err != nil:
		return nil, false, err
	}
	return &first, true, nil
}

// notYAML turns the library's complaint into a fault.
func (p *page) notYAML(err error, text []byte) {
	why, line := strings.TrimPrefix(oneLine(err.Error()), "yaml: "), 0
	if m := regexp.MustCompile(`^(?:unmarshal errors: )?line (\d+): (.*)$`).FindStringSubmatch(why); m != nil {
		line, _ = strconv.Atoi(m[1])
		why = m[2]
	}
	if m := regexp.MustCompile(`^unknown anchor '([^']+)' referenced$`).FindStringSubmatch(why); m != nil {
		line = bytes.Count(text[:max(0, bytes.Index(text, []byte("*"+m[1])))], []byte("\n")) + 1
		why = "nothing above has the anchor &" + m[1] + " that *" + m[1] + " stands for"
	}
	hint := ""
	switch {
	case tabIndented(text, line):
		hint = "; lines are indented with spaces, never with tabs"
	case strings.Contains(why, "mapping values are not allowed"):
		hint = `; check how far the line is indented, and put text that contains ": " in quotes`
	case strings.Contains(why, "did not find expected ',' or"):
		hint = "; a bracket is not closed, or a comma is missing"
	case strings.Contains(why, "unexpected end of stream"):
		hint = "; a quotation mark is opened and never closed"
	case strings.Contains(why, "did not find expected"), strings.Contains(why, "could not find expected"):
		hint = "; check how far the line and those above it are indented"
	case strings.Contains(why, "cannot start any token"):
		hint = `; put text that starts with a sign such as @, % or a backtick in quotes`
	}
	p.loader.fault(Fault{File: p.file, Line: line, What: "this is not YAML: " + clipLong(why) + hint})
}

// tabIndented reports whether the line, or one next to it, is indented with a tab.
func tabIndented(text []byte, line int) bool {
	lines := bytes.Split(text, []byte("\n"))
	for i := max(0, line-2); i < min(len(lines), line+1); i++ {
		indent := lines[i][:len(lines[i])-len(bytes.TrimLeft(lines[i], " \t"))]
		if bytes.ContainsRune(indent, '\t') {
			return true
		}
	}
	return false
}

// clipLong keeps a library's text within a line or two.
func clipLong(text string) string {
	const most = 200
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}
