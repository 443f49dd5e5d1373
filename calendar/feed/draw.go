package feed

import (
	"bytes"
	"fmt"
	"ripeby/calendar/edition"
	"ripeby/calendar/served"
)

// drawMade draws a page of what could be made; an error is a fault of ripeby.
func (s *Server) drawMade(name string, v *View, err error) *served.Answer {
	if err != nil {
		panic(fmt.Errorf("drawing %s: %w", name, err))
	}
	return s.draw(name, v)
}

// draw draws a page, whole or not at all.
func (s *Server) draw(name string, v *View) *served.Answer {
	var out bytes.Buffer
	if err := s.pages.templates.ExecuteTemplate(&out, name, v); err != nil {
		panic(fmt.Errorf("drawing %s: %w", name, err))
	}
	return &served.Answer{Kind: "text/html; charset=utf-8", Tag: edition.TagOf(out.Bytes()), Text: out.Bytes()}
}
