package strips

import (
	"slices"
	"time"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Widths of a picture of some days in pixels, and how many days it has: of a phone, with the names over
// their strips, and of a desk, with the names beside them.
const (
	PhoneWide, PhoneDays = 328, 14
	DeskWide, DeskDays   = 968, 28
)

// phoneEdge is what is left free on both sides of a narrow picture.
const phoneEdge = 8 * px

// DrawDays draws so many days of a plan from a day on, in so many pixels, and gives the picture's height
// in pixels. Patterns and colours are those of the whole picture ([Draw]), so that a stage looks the same
// on all days.
func DrawDays(p *schedule.Problem, plan *schedule.Plan, first resources.Date, days, pixels int) (picture []byte, height int) {
	d := daysOf(p, plan, first, days)
	d.left, d.width = gutter, pixels*px-gutter-rightEdge
	if pixels < DeskWide {
		d.left, d.width = phoneEdge, pixels*px-2*phoneEdge
	}
	picture = d.draw()
	return picture, (d.y + 10*px) / px
}

// daysOf is the picture of some days, with what is there on them.
func daysOf(p *schedule.Problem, plan *schedule.Plan, first resources.Date, days int) *picture {
	zone, err := words.Zone(p)
	if err != nil {
		zone = time.UTC
	}
	d := &picture{p: p, plan: plan, zone: zone, places: []string{"room"}, part: true,
		span: resources.Span{From: first.Start(zone), Until: first.AddDays(days).Start(zone)}}
	d.days = resources.Days(d.span, zone)
	d.collectNames()
	of := *plan
	of.Batches = slices.DeleteFunc(slices.Clone(plan.Batches), func(b schedule.Batch) bool {
		return len(b.Stages) == 0 || b.Stages[0].Start >= d.span.Until || b.Stages[len(b.Stages)-1].Ends <= d.span.From
	})
	of.Targets = slices.DeleteFunc(slices.Clone(plan.Targets), func(t schedule.WantResult) bool { return !d.shows(t.By) })
	d.plan = &of
	return d
}

// shows reports whether a moment is in the picture.
func (d *picture) shows(m resources.Moment) bool {
	return !d.part || d.span.From <= m && m < d.span.Until
}

// within reports whether something of a stage is.
func (d *picture) within(t *schedule.Task) bool {
	return !d.part || t.Start < d.span.Until && t.Ends > d.span.From
}

// none says that there are no batches.
func (d *picture) none() string {
	if d.part {
		return "No batches on these days."
	}
	return "No batches in this plan."
}

// Reach is the first and the last day on which a plan has anything to draw.
func Reach(p *schedule.Problem, plan *schedule.Plan) (first, last resources.Date) {
	zone, err := words.Zone(p)
	if err != nil {
		zone = time.UTC
	}
	span := spanOf(plan, zone)
	return span.From.DateIn(zone), (span.Until - 1).DateIn(zone)
}
