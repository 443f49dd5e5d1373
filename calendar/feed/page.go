package feed

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"path"
	"slices"
	"strings"
	"sync"
	"time"

	"ripeby/calendar/edition"
	"ripeby/calendar/icon"
	"ripeby/calendar/served"
	"ripeby/calendar/standing"
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

// icons are the page's sign as pictures, by name, drawn when the first is asked for.
var icons = sync.OnceValue(func() map[string]*asset {
	all := map[string]*asset{}
	for _, side := range []int{180, 192, 512} {
		text := icon.PNG(side)
		all[fmt.Sprintf("icon-%d.png", side)] = &asset{text, kinds[".png"], edition.TagOf(text)}
	}
	return all
})

// templateWords are what templates are written with.
func templateWords() template.FuncMap {
	return template.FuncMap{
		"clock":   func(t time.Time) string { return t.Format("Mon 2 Jan 2006 15:04") },
		"name":    words.Printable,
		"counted": schedule.Counted,
		"next":    func(d resources.Date, days int) resources.Date { return d.AddDays(days) },
		"dated":   func(d resources.Date) string { return d.Start(time.UTC).In(time.UTC).Format("Mon 2 Jan 2006") },
		"weekday": func(d resources.Date) string { return d.Start(time.UTC).In(time.UTC).Format("Mon") },
		"card":    func(root, class string, j JobView) jobCard { return jobCard{j, root, class} },
		"rows":    func(v *View, batches []week.BatchShown) batchRows { return batchRows{v, batches} },
		"lined":   func(v *View, l week.FoldedLine) weekLine { return weekLine{l, v.Root} },
		"daily":   func(v *View, d week.FoldedDay) weekDay { return weekDay{d, v} },
		"placed":  placed,
		"changed": func(v *View, of []standing.Change) changedRows { return changedRows{v, of} },
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
	Of []standing.Change
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

// placeLink is a name that leads to the sheet of a place, To "" where that has a name that cannot stand in an
// address.
type placeLink struct{ To, Name string }

func placed(v *View, to, name string) placeLink {
	l := placeLink{Name: name}
	if _, ok := segments("/" + to); ok {
		l.To = v.Root + to
	}
	return l
}

// weekDay and weekLine are a day of a week, and a line of it, as they are drawn.
type weekDay struct {
	week.FoldedDay
	View *View
}

type weekLine struct {
	week.FoldedLine
	Root string
}

// To leads from a line to a batch's sheet.
func (l weekLine) To(batch, text string) batchLink { return batchLink{l.Root, batch, text} }

// To leads from the card to a batch's sheet.
func (c jobCard) To(batch, text string) batchLink { return batchLink{c.Root, batch, text} }

// part is one of the page's parts: its address below the page's, its name, and which parts it leads on to.
type part struct {
	At, Name string
	On       []part
}

// Parts are the parts that every page leads to.
func (v *View) Parts() []part {
	parts := []part{{At: "", Name: "Now"}, {At: "week", Name: "Week"}, {At: "batches", Name: "Batches"}, {At: "cold", Name: "Cold"}}
	if v.Asks {
		parts = append(parts, part{At: askingAt, Name: "Ask"})
	}
	return append(parts, part{At: "more", Name: "More", On: v.MoreParts()})
}

// MoreParts are the parts that More leads to.
func (v *View) MoreParts() []part {
	parts := []part{{At: "calendars", Name: "Calendars for your phone"}, {At: "status", Name: "How the plan stands"}, {At: "changes", Name: "What changed"}, {At: "list", Name: "What to take along"}}
	if v.Writer != "" {
		parts = append(parts, part{At: "tell", Name: "Away, closed, market"})
	}
	return parts
}

// IsAt reports whether a part is the one that is shown, or leads on to it.
func (v *View) IsAt(p part) bool {
	return p.At == v.Part || slices.ContainsFunc(p.On, v.IsAt)
}

// asset answers for a file that pages load.
func (p *pages) asset(w http.ResponseWriter, r *http.Request, name string) {
	a := p.assets[name]
	if a == nil && strings.HasSuffix(name, ".png") {
		a = icons()[name]
	}
	if a == nil {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	h := w.Header()
	h.Set("Content-Type", a.kind)
	h.Set("Cache-Control", "no-cache")
	h.Set("ETag", a.tag)
	http.ServeContent(w, served.Whole(r), "", time.Time{}, bytes.NewReader(a.text))
}
