package feed

import (
	"net/url"

	"ripeby/calendar/drawings"
	"ripeby/calendar/list"
	"ripeby/calendar/served"
	"ripeby/calendar/warmth"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/readings"
)

// What a phone needs to have the page at hand as a thing of its own (Web Application Manifest, W3C), and
// which pages it keeps for when the kitchen has no network. It keeps them over https or on this machine
// alone: browsers let nobody else keep pages (Secure Contexts, W3C).

const (
	manifestAt = "manifest.webmanifest"
	keepAt     = "keep.json"
)

// keptDays is for how many days from today on pages are kept on a phone.
const keptDays = 8

// keptMost is how many pages are kept at most; what is wanted last is left out.
const keptMost = 120

// manifest describes the page to a phone.
func (v *View) manifest() *served.Answer {
	type icon struct {
		Src     string `json:"src"`
		Sizes   string `json:"sizes"`
		Type    string `json:"type"`
		Purpose string `json:"purpose,omitempty"`
	}
	name := v.Kitchen
	if name == "" {
		name = "Kitchen"
	}
	short := name
	if v.Writer != "" {
		short = v.Writer + ", " + name
	}
	return served.JSON("application/manifest+json", struct {
		ID      string `json:"id"`
		Name    string `json:"name"`
		Short   string `json:"short_name"`
		Start   string `json:"start_url"`
		Scope   string `json:"scope"`
		Display string `json:"display"`
		Ground  string `json:"background_color"`
		Theme   string `json:"theme_color"`
		Icons   []icon `json:"icons"`
	}{v.Root, name, short, v.Root, v.Root, "standalone", "#faf8f3", "#0f5257", []icon{
		{"/assets/icon-192.png", "192x192", "image/png", ""},
		{"/assets/icon-512.png", "512x512", "image/png", ""},
		{"/assets/icon-512.png", "512x512", "image/png", "maskable"}, // its edge is empty, so that it may be cut round
		{"/assets/wheel.svg", "any", "image/svg+xml", ""},
	}})
}

// keepList says which pages are kept on a phone: what there is on the first screen of each part, the coming
// days' weeks and cold places, and the sheet of each batch that is under way then. It is another whenever
// the plan, the day, or what was said is.
func (s *Server) keepList(b *board, v *View) *served.Answer {
	pages := []string{""}
	if v.Plan != nil {
		for _, p := range append(v.Parts(), v.MoreParts()...) {
			if p.At != "" && p.At != "calendars" && p.At != askingAt { // neither the keys of calendars nor what is asked
				pages = append(pages, p.At)
			}
		}
		pages = append(pages, "batches.svg")
		until := v.today().AddDays(keptDays).Start(v.Problem.Kitchen.Zone)
		for i := range v.Plan.Batches {
			if under := &v.Plan.Batches[i]; inUse(under, v.moment(), until) {
				pages = append(pages, "batch/"+url.PathEscape(under.ID))
			}
		}
		for _, t := range list.Coming(v.Problem, v.Plan, nil, v.today()) {
			if t.By < until { // a market is often without network
				pages = append(pages, "list/"+t.Key)
			}
		}
		pages = append(pages, "week/"+v.today().AddDays(7).String())
		for d := range keptDays {
			pages = append(pages, "cold/"+v.today().AddDays(d).String())
		}
		if rooms, _ := warmth.Show(v.Problem, s.opt.Warmth, readings.Room, v.moment()); len(rooms) > 0 {
			pages = append(pages, rooms[0].To) // a cold place's is on its page
		}
		for _, when := range []string{drawings.Present, v.today().String(), v.today().AddDays(1).String()} {
			for i := range v.Problem.Kitchen.Cold {
				path := "cold/" + when + "/" + url.PathEscape(v.Problem.Kitchen.Cold[i].Name)
				if _, ok := segments("/" + path); ok {
					pages = append(pages, path)
				}
			}
		}
	}
	of, heard := "", 0
	if b.made != nil {
		of = b.made.Print
	}
	if v.Told != nil {
		heard = v.Told.Last
	}
	return served.JSON("application/json", struct {
		Of    string   `json:"of"`
		Day   string   `json:"day"`
		Heard int      `json:"heard"`
		Pages []string `json:"pages"`
	}{of, v.Now.Format("2006-01-02"), heard, pages[:min(len(pages), keptMost)]})
}

// inUse reports whether a batch is under way at some time from a moment until another.
func inUse(b *schedule.Batch, from, until resources.Moment) bool {
	first, last := b.Stages[0].Start, b.Stages[len(b.Stages)-1]
	return first < until && last.Start.Add(last.Work) >= from
}
