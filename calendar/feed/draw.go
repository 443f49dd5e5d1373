package feed

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"net/http"
	"time"
)

// drawMade draws a page of what could be made; an error is a fault of ripeby.
func (s *Server) drawMade(w http.ResponseWriter, r *http.Request, name string, v *View, err error) {
	if err != nil {
		panic(fmt.Errorf("drawing %s: %w", name, err))
	}
	s.draw(w, r, name, v)
}

// draw answers with a page, whole or not at all.
func (s *Server) draw(w http.ResponseWriter, r *http.Request, name string, v *View) {
	var out bytes.Buffer
	if err := s.pages.templates.ExecuteTemplate(&out, name, v); err != nil {
		panic(fmt.Errorf("drawing %s: %w", name, err))
	}
	send(w, r, "text/html; charset=utf-8", out.Bytes())
}

// drawing answers with a picture. It brings a style sheet of its own, which its own
// policy lets through by what it is and nothing else.
func (s *Server) drawing(w http.ResponseWriter, r *http.Request, svg []byte) {
	style := ""
	if _, rest, found := bytes.Cut(svg, []byte("<style>")); found {
		sheet, _, _ := bytes.Cut(rest, []byte("</style>"))
		sum := sha256.Sum256(sheet)
		style = "; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	w.Header().Set("Content-Security-Policy", "default-src 'none'"+style+"; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
	send(w, r, "image/svg+xml", svg)
}

// send answers with bytes that a client may keep but asks about each time.
func send(w http.ResponseWriter, r *http.Request, kind string, text []byte) {
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Cache-Control", mayKeep)
	h.Set("ETag", tagOf(text))
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(text))
}
