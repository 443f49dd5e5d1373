package config

import (
	"bytes"
	"errors"
	"fmt"
	"io"
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
	if second != nil {
		p.faultAt(second, Fault{What: "this file holds more than one YAML document; take out the line ---, or make two files of it"})
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

// documents decodes the first document, and the second where there is one. A panic
// of the library becomes an error: whatever a file holds, it is the file that is
// wrong.
func documents(text []byte) (doc, second *yaml.Node, err error) {
	defer func() {
		if r := recover(); r != nil {
			doc, second, err = nil, nil, fmt.Errorf("yaml: %v", r)
		}
	}()
	dec := yaml.NewDecoder(bytes.NewReader(text))
	var first, next yaml.Node
	if err := dec.Decode(&first); err != nil {
		if errors.Is(err, io.EOF) {
			return nil, nil, nil
		}
		return nil, nil, err
	}
	switch err := dec.Decode(&next); {
	case errors.Is(err, io.EOF):
		return &first, nil, nil
	case err != nil:
		return nil, nil, err
	}
	return &first, &next, nil
}

// clipLong keeps a library's text within a line or two.
func clipLong(text string) string {
	const most = 200
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}
