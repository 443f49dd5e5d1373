package feed

import (
	"bytes"
	"fmt"
	"ripeby/calendar/edition"
)

// drawMade draws a page of what could be made; an error is a fault of ripeby.
func (s *Server) drawMade(name string, v *View, err error) *answer {
	if err != nil {
		panic(fmt.Errorf("drawing %s: %w", name, err))
	}
	return s.draw(name, v)
}

// draw draws a page, whole or not at all.
func (s *Server) draw(name string, v *View) *answer {
	var out bytes.Buffer
	if err := s.pages.templates.ExecuteTemplate(&out, name, v); err != nil {
		panic(fmt.Errorf("drawing %s: %w", name, err))
	}
	return &answer{kind: "text/html; charset=utf-8", tag: edition.TagOf(out.Bytes()), text: out.Bytes()}
}

// drawing is a picture, or a page, with a style sheet of its own.
func drawing(kind string, text []byte) *answer {
	return &answer{kind: kind, tag: edition.TagOf(text), text: text, policy: edition.PolicyOf(text)}
}
