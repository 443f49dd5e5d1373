package feed

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"net/http"
	"path"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

//go:embed assets
var assets embed.FS

// pages are the templates and the files that pages are drawn with, read once.
type pages struct {
	templates *template.Template
	assets    map[string]*asset // by name: an address is never the name of a file
}

// asset is a file that pages load. Its time of change is not known; its tag is.
type asset struct {
	text []byte
	kind string
	tag  string
}

// kinds are the files that are served, by their ends; templates are not.
var kinds = map[string]string{
	".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".svg": "image/svg+xml", ".png": "image/png", ".webmanifest": "application/manifest+json",
}

func newPages() *pages {
	p := &pages{assets: map[string]*asset{}}
	p.templates = template.Must(template.New("").Funcs(template.FuncMap{
		"local": func(m resources.Moment, v *View) string {
			return m.In(v.Problem.Kitchen.Zone).Format("Mon 2 Jan 15:04")
		},
		"clock": func(t time.Time) string { return t.Format("Mon 2 Jan 2006 15:04") },
	}).ParseFS(assets, "assets/*.html"))
	entries, err := assets.ReadDir("assets")
	if err != nil {
		panic("the pages are not in the program: " + err.Error()) // only a broken build can say so
	}
	for _, e := range entries {
		kind, served := kinds[path.Ext(e.Name())]
		text, err := assets.ReadFile("assets/" + e.Name())
		if served && err == nil {
			p.assets[e.Name()] = &asset{text, kind, tagOf(text)}
		}
	}
	return p
}

// asset answers for a file that pages load.
func (p *pages) asset(w http.ResponseWriter, r *http.Request, name string) {
	a := p.assets[name]
	if a == nil {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	h := w.Header()
	h.Set("Content-Type", a.kind)
	h.Set("Cache-Control", "no-cache")
	h.Set("ETag", a.tag)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(a.text))
}

// page answers for the page and what is below it.
func (s *Server) page(w http.ResponseWriter, r *http.Request, token string, rest []string) {
	b := s.board.Load()
	a, ok := s.known(w, b, token)
	if !ok {
		return
	}
	v := s.view(b)
	v.Root = a.Path()
	switch {
	case a.Kind != Page:
		refuse(w, http.StatusNotFound, notFound)
	case len(rest) == 0:
		if err := v.withFeeds(s, b); err != nil {
			panic(err) // an address is always short enough for a QR code
		}
		s.draw(w, r, "page.html", v)
	case len(rest) == 2 && rest[0] == "batch" && v.batch(rest[1]) != nil:
		v.Batch = v.batch(rest[1])
		s.draw(w, r, "sheet.html", v)
	default:
		refuse(w, http.StatusNotFound, notFound)
	}
}

// sheetOfFeed answers for the sheet of a batch that a calendar names. Somebody's own
// calendar leads to the batches that they have work with, and to no others.
func (s *Server) sheetOfFeed(w http.ResponseWriter, r *http.Request, token, id string) {
	b := s.board.Load()
	a, ok := s.known(w, b, token)
	if !ok {
		return
	}
	v := s.view(b)
	v.Batch = v.batch(id)
	if a.Kind == Page || v.Batch == nil || a.Kind == OnePerson && !works(v.Batch, a.Person) {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	s.draw(w, r, "sheet.html", v)
}

func works(b *schedule.Batch, person string) bool {
	for _, t := range b.Stages {
		if t.Work > 0 && t.Who == person {
			return true
		}
	}
	return false
}

// draw answers with a page, whole or not at all.
func (s *Server) draw(w http.ResponseWriter, r *http.Request, name string, v *View) {
	var out bytes.Buffer
	if err := s.pages.templates.ExecuteTemplate(&out, name, v); err != nil {
		panic(fmt.Errorf("drawing %s: %w", name, err))
	}
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Cache-Control", mayKeep)
	h.Set("ETag", tagOf(out.Bytes()))
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(out.Bytes()))
}
