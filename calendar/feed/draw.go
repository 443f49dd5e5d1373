package feed

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
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

// drawing is a picture. It brings a style sheet of its own, which its own policy lets
// through by what it is and nothing else.
func drawing(svg []byte) *answer { return styled("image/svg+xml", svg) }

// styled is a picture or a page with a style sheet of its own.
func styled(kind string, text []byte) *answer {
	style := ""
	if _, rest, found := bytes.Cut(text, []byte("<style>")); found {
		sheet, _, _ := bytes.Cut(rest, []byte("</style>"))
		sum := sha256.Sum256(sheet)
		style = "; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	return &answer{kind: kind, tag: edition.TagOf(text), text: text,
		policy: "default-src 'none'" + style + "; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"}
}
