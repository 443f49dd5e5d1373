package cold

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"ripeby/calendar/layout"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// Options says what is shown of the cold places, and how. The zero value shows
// all of them for a terminal of 80 columns without colour.
type Options struct {
	At     resources.Moment // of a map or a picture
	In     string           // only this shelf, or this cold place; "" for all
	Width  int              // columns; 0 for layout.Width, and none below layout.Narrowest
	Colour bool             // only for a terminal; nothing is guessed from the writer
}

// errNothing is returned where there is no plan to show.
var errNothing = errors.New("cold places: no problem or no plan given")

// part is what is looked at by itself: a shelf, or a place that is counted in
// boxes.
type part struct {
	place *resources.ColdPlace // a counted one; of a shelf, its place with this shelf alone
	shelf *resources.Shelf     // nil for a counted place
	fill  coldroom.Fill
}

// page is what a plan stands in the cold, ready to be shown. The same problem
// and plan give the same bytes.
type page struct {
	layout.Page
	pen     words.Pen
	p       *schedule.Problem
	plan    *schedule.Plan
	zone    *time.Location
	o       *coldroom.Occupancy
	opt     Options
	last    resources.Moment // the end of the plan's last stay with an end
	emptied bool             // nothing stands there after it
	letters map[int]string   // of stays, while a map is shown
}

func newPage(p *schedule.Problem, plan *schedule.Plan, opt Options) (*page, error) {
	if p == nil || plan == nil {
		return nil, errNothing
	}
	zone, err := words.Zone(p)
	if err != nil {
		return nil, fmt.Errorf("cold places: %w", err)
	}
	g := &page{p: p, plan: plan, zone: zone, o: coldroom.Of(p, plan), opt: opt}
	g.last, g.emptied = lastOf(plan, g.o.Stays)
	g.Page, g.pen = layout.NewPage(opt.Width, opt.Colour), words.Pen{Zone: zone, Most: words.NameMost}
	return g, nil
}

// parts lists the shelves and counted places of the kitchen in its order.
func (g *page) parts() []part {
	var out []part
	for i := range g.p.Kitchen.Cold {
		place := &g.p.Kitchen.Cold[i]
		if !place.Measured() {
			if g.wanted(place.Name, "") {
				here := func(s schedule.Standing) bool { return s.Place == place.Name && s.Shelf == "" }
				out = append(out, part{place: place, fill: g.o.Fill(place, here)})
			}
			continue
		}
		for k := range place.Shelves {
			shelf := &place.Shelves[k]
			if !g.wanted(place.Name, shelf.Name) {
				continue
			}
			alone := &resources.ColdPlace{Name: place.Name, Temperature: place.Temperature, Shelves: place.Shelves[k : k+1], Taken: place.Taken}
			here := func(s schedule.Standing) bool { return s.Place == place.Name && s.Shelf == shelf.Name }
			out = append(out, part{alone, shelf, g.o.Fill(alone, here)})
		}
	}
	return out
}

// wanted reports whether a shelf, or a place where shelf is "", is to be shown.
func (g *page) wanted(place, shelf string) bool {
	return g.opt.In == "" || g.opt.In == place || shelf != "" && g.opt.In == shelf
}

// name is the part's name, in the folder's words.
func (c *part) name(pen *words.Pen) string {
	if c.shelf == nil {
		return pen.Name(c.place.Name)
	}
	return pen.Name(c.place.Name) + ", " + pen.Name(c.shelf.Name)
}

// shelfName is the name of the shelf as a standing has it.
func (c *part) shelfName() string {
	if c.shelf == nil {
		return ""
	}
	return c.shelf.Name
}

// closings are the times at which the part is taken.
func (c *part) closings() []resources.Span { return resources.Merge(coldroom.Closings(c.place)) }

// horizon is the time from the plan's start to the end of the last stay of which
// the plan knows an end, in whole local days.
func (g *page) horizon() resources.Span {
	first, last := g.plan.From.DateIn(g.zone), (max(g.last, g.plan.From+1) - 1).DateIn(g.zone)
	return resources.Span{From: first.Start(g.zone), Until: last.AddDays(1).Start(g.zone)}
}

// lastOf is the end of the last stay of which a plan knows an end, and whether each
// has one.
func lastOf(plan *schedule.Plan, stays []coldroom.Stay) (last resources.Moment, all bool) {
	last, all = plan.From, true
	for _, s := range stays {
		if s.Span.Until < coldroom.Forever {
			last = max(last, s.Span.Until)
		} else {
			all = false
		}
	}
	return last, all
}

// notes writes what there is to mind about what was shown of a span: what is missing
// in it, and further lines, of which empty ones are left out.
func (g *page) notes(span resources.Span, further ...string) {
	for i, l := range g.noteLines(span, further...) {
		if i == 0 {
			g.Gap()
		}
		g.Para("- ", l)
	}
}

// noteLines are those lines.
func (g *page) noteLines(span resources.Span, further ...string) []string {
	lines := further
	switch {
	case span.Until <= g.last:
	case g.emptied:
		lines = append(lines, fmt.Sprintf("The plan has nothing in the cold after %s.", words.Stamp(g.last, g.zone)))
	default:
		lines = append(lines, fmt.Sprintf("Nothing in the cold changes by the plan after %s.", words.Stamp(g.last, g.zone)))
	}
	for _, w := range g.plan.Warnings {
		if w.Code == "boxes-do-not-fit" {
			lines = append(lines, g.pen.Text(w.Text)+" They are not shown here.")
		}
	}
	for _, name := range g.o.Elsewhere(span) {
		lines = append(lines, fmt.Sprintf("Boxes of the plan stand at %s, which the kitchen folder does not have; they are not shown here.", g.pen.Name(name)))
	}
	if g.pen.Cut {
		lines = append(lines, cutNote)
	}
	return slices.DeleteFunc(lines, func(l string) bool { return l == "" })
}

// cutNote says that names were shortened.
const cutNote = "Long names are shortened here (...). plan.json holds them whole."

// daysOf lists the local days of a span.
func (g *page) daysOf(span resources.Span) []resources.Date { return resources.Days(span, g.zone) }

// Names lists the names that [Options] may have for In: each cold place, and
// after it its shelves. A name that comes twice is listed once.
func Names(k *resources.Kitchen) []string {
	var names []string
	add := func(name string) {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, c := range k.Cold {
		add(c.Name)
		for _, s := range c.Shelves {
			add(s.Name)
		}
	}
	return names
}
