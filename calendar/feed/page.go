package feed

import (
	"bytes"
	"embed"
	"html/template"
	"net/http"
	"net/url"
	"path"
	"time"

	"ripeby/calendar/edition"
	"ripeby/calendar/week"
	"ripeby/calendar/words"
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
	p.templates = template.Must(template.New("").Funcs(templateWords()).ParseFS(assets, "assets/*.html"))
	entries, err := assets.ReadDir("assets")
	if err != nil {
		panic("the pages are not in the program: " + err.Error()) // only a broken build can say so
	}
	for _, e := range entries {
		kind, served := kinds[path.Ext(e.Name())]
		text, err := assets.ReadFile("assets/" + e.Name())
		if served && err == nil {
			p.assets[e.Name()] = &asset{text, kind, edition.TagOf(text)}
		}
	}
	return p
}

// templateWords are what templates are written with.
func templateWords() template.FuncMap {
	return template.FuncMap{
		"clock":   func(t time.Time) string { return t.Format("Mon 2 Jan 2006 15:04") },
		"name":    words.Printable,
		"counted": schedule.Counted,
		"parts":   func() []part { return kitchenParts[:] },
		"next":    func(d resources.Date, days int) resources.Date { return d.AddDays(days) },
		"dated":   func(d resources.Date) string { return d.Start(time.UTC).In(time.UTC).Format("Mon 2 Jan 2006") },
		"weekday": func(d resources.Date) string { return d.Start(time.UTC).In(time.UTC).Format("Mon") },
		"card":    func(root, class string, j JobView) jobCard { return jobCard{j, root, class} },
		"rows":    func(v *View, batches []week.BatchShown) batchRows { return batchRows{v, batches} },
		"changed": func(v *View, of []ChangeView) changedRows { return changedRows{v, of} },
		"link":    func(v *View, batch, text string) batchLink { return batchLink{v.Root, batch, text} },
	}
}

// batchRows are batches as a table of them is drawn.
type batchRows struct {
	*View
	Of []week.BatchShown
}

// changedRows are changes as a list of them is drawn.
type changedRows struct {
	*View
	Of []ChangeView
}

// batchLink is a text that leads to a batch's sheet, where there is one to lead to.
type batchLink struct{ Root, Batch, Text string }

// Address leads to the sheet.
func (l batchLink) Address() string { return l.Root + "batch/" + url.PathEscape(l.Batch) }

// jobCard is a job as it is drawn.
type jobCard struct {
	JobView
	Root, Class string
}

// To leads from the card to a batch's sheet.
func (c jobCard) To(batch, text string) batchLink { return batchLink{c.Root, batch, text} }

// part is one of the page's parts: its address below the page's, and its name.
type part struct{ At, Name string }

// kitchenParts are the parts that every page leads to.
var kitchenParts = [...]part{{"", "Now"}, {"week", "Week"}, {"batches", "Batches"}, {"cold", "Cold"}, {askingAt, "Ask"}, {"calendars", "Calendars"}, {"status", "Status"}}

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
	http.ServeContent(w, whole(r), "", time.Time{}, bytes.NewReader(a.text))
}
