package strips

import (
	"fmt"
	"time"

	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Lengths of the picture, in tenths of a pixel.
const (
	px        = svg.Px
	gutter    = 210 * px // where names stand, left of the days
	chartWide = 780 * px // the days, at least
	dayWide   = 3 * px   // one day, at least: a long plan makes the picture wider
	rightEdge = 28 * px
	rowHigh   = 34 * px // one batch
	barHigh   = 16 * px // its strip
	looseMost = 40      // with more batches than this, strips that do not meet share a row
	placeHigh = 74 * px // one cold place
	fillHigh  = 46 * px // its area at full
)

// picture is the picture under construction.
type picture struct {
	svg.Pen
	p      *schedule.Problem
	plan   *schedule.Plan
	zone   *time.Location
	span   resources.Span // of the whole days that are shown
	days   []resources.Date
	part   bool // these are some days of a plan, and not all
	left   int  // where the days begin: right of the names, or at the edge where these stand over their strips
	width  int  // of the chart
	y      int  // how far down the picture has come
	stages []string
	places []string // where stages are, in the order in which they come up; the room is first
}

// Draw draws a plan as an SVG: a strip a batch against days, its stages as
// segments, with a mark where its pieces leave; below, how full each cold place
// is at the fullest moment of each day. It stands alone, follows the reader's
// light or dark scheme, and tells stages apart by pattern and not by colour alone.
// The same problem and plan give the same bytes. A plan without batches, stock or
// targets gives a picture that says so.
func Draw(p *schedule.Problem, plan *schedule.Plan) []byte {
	zone, err := words.Zone(p)
	if err != nil {
		zone = time.UTC
	}
	d := &picture{p: p, plan: plan, zone: zone, places: []string{"room"}, left: gutter}
	d.span = spanOf(plan, zone)
	d.days = resources.Days(d.span, zone)
	d.width = max(chartWide, len(d.days)*dayWide)
	return d.draw()
}

// draw draws all parts, one below the other.
func (d *picture) draw() []byte {
	d.collectNames()
	d.header()
	d.axis()
	d.batches()
	d.fills()
	d.legend()
	return d.finish()
}

// spanOf is the whole local days from the first thing shown to the last.
func spanOf(plan *schedule.Plan, zone *time.Location) resources.Span {
	from, until := plan.From, plan.From.Add(1)
	reach := func(a, b resources.Moment) {
		from, until = min(from, a), max(until, b)
	}
	for i := range plan.Batches {
		for _, t := range plan.Batches[i].Stages {
			reach(t.Start, t.Ends)
		}
	}
	for _, s := range plan.Stock {
		reach(s.Packed, s.Ends)
	}
	for _, t := range plan.Targets {
		reach(t.By, t.By.Add(1))
	}
	first, last := from.DateIn(zone), until.Add(-1).DateIn(zone)
	return resources.Span{From: first.Start(zone), Until: last.AddDays(1).Start(zone)}
}

// collectNames lists stages and places in the order in which they come up: each
// stage has a pattern of its own and each place a colour.
func (d *picture) collectNames() {
	add := func(list []string, name string) []string {
		for _, s := range list {
			if s == name {
				return list
			}
		}
		return append(list, name)
	}
	for i := range d.plan.Batches {
		for _, t := range d.plan.Batches[i].Stages {
			d.stages = add(d.stages, t.Stage)
			d.places = add(d.places, t.At)
		}
	}
}

// x is where a moment is, in tenths of a pixel.
func (d *picture) x(m resources.Moment) int {
	m = min(max(m, d.span.From), d.span.Until)
	return d.left + int(int64(m.Sub(d.span.From))*int64(d.width)/int64(d.span.Length()))
}

// full is the picture's whole width.
func (d *picture) full() int { return d.left + d.width + d.edge() }

// right is the chart's right edge.
func (d *picture) right() int { return d.left + d.width }

// narrow reports whether names stand over their strips, for want of room beside them.
func (d *picture) narrow() bool { return d.left < gutter }

// edge is what is left free on the right.
func (d *picture) edge() int {
	if d.narrow() {
		return d.left
	}
	return rightEdge
}

// header writes the title in words.
func (d *picture) header() {
	first, last := d.days[0], d.days[len(d.days)-1]
	if d.narrow() { // the page around it says the rest
		d.Text(d.left, 14*px, "s", "", words.Midnight(first).Format("Mon 2 Jan")+" to "+words.Midnight(last).Format("Mon 2 Jan 2006"))
		d.y = 16 * px
		return
	}
	d.Text(12*px, 26*px, "h", "", d.p.Kitchen.Name)
	d.Text(12*px, 44*px, "s", "", fmt.Sprintf("%s to %s: %s", words.Midnight(first).Format("2 Jan 2006"),
		words.Midnight(last).Format("2 Jan 2006"), d.outcome()))
	d.y = 58 * px
}

// Outcome is a plan in one sentence, without its end.
func Outcome(plan *schedule.Plan) string { return (&picture{plan: plan}).outcome() }

// outcome is the plan in one sentence.
func (d *picture) outcome() string {
	wanted, met := 0, 0
	for _, t := range d.plan.Targets {
		wanted += t.Wanted
		met += t.Met
	}
	s := words.Count(len(d.plan.Batches), "batch", "batches")
	if len(d.plan.Batches) == 0 {
		s = "no batches"
	}
	if wanted > 0 {
		s += fmt.Sprintf(", %d of %s ready in time", met, words.Count(wanted, "piece", "pieces"))
	}
	return words.Unglue(s)
}

// finish makes a page of what was drawn.
func (d *picture) finish() []byte {
	return d.Page(d.p.Kitchen.Name+": batches against days", d.description(), d.full(), d.y+10*px, len(d.places))
}

// description is the picture in words, for those who do not see it.
func (d *picture) description() string {
	s := d.outcome() + "."
	for i := range d.plan.Batches {
		b := &d.plan.Batches[i]
		if len(b.Stages) == 0 {
			continue
		}
		s += fmt.Sprintf(" %s: %s, from %s to %s.", b.ID, d.amount(b),
			words.Stamp(b.Stages[0].Start, d.zone), words.Stamp(b.Stages[len(b.Stages)-1].Ends, d.zone))
	}
	return words.Unglue(s)
}

// amount is a batch's cheese, litres and pieces.
func (d *picture) amount(b *schedule.Batch) string {
	return words.Unglue(fmt.Sprintf("%s, %s, %s", b.Cheese, words.Litres(b.Litres), words.Count(b.Pieces, "piece", "pieces")))
}
