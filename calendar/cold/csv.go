package cold

import (
	"io"
	"strconv"
	"strings"
	"time"

	"ripeby/calendar/spreadsheet"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// csvHeads are the columns of [CSV]. Columns are only ever added, at the end. Days are YYYY-MM-DD,
// moments RFC 3339 with the kitchen's offset.
var csvHeads = []string{"day", "place", "shelf", "at", "boxes", "boxes_most", "floor_percent", "text"}

// CSV writes [Table] for a spreadsheet: a row for each day and each shelf or counted place, as it is
// at the fullest moment of the day, whatever the width.
func CSV(w io.Writer, p *schedule.Problem, plan *schedule.Plan, opt Options) error {
	g, err := newPage(p, plan, opt)
	if err != nil {
		return err
	}
	since := g.since()
	parts := g.parts()
	var records []map[string]string
	for _, d := range g.daysOf(g.horizon()) {
		for i := range parts {
			day := resources.Intersect([]resources.Span{d.Span(g.zone)}, []resources.Span{since})
			if len(day) > 0 {
				records = append(records, parts[i].record(d, day[0], g.zone))
			}
		}
	}
	return spreadsheet.Records(w, csvHeads, records)
}

// mapHeads are the columns of [MapCSV]. Columns are only ever added, at the end. What is measured is in whole
// or decimal centimetres, from the shelf's front left corner.
var mapHeads = []string{"at", "place", "shelf", "left_cm", "front_cm", "width_cm", "depth_cm", "boxes", "box", "batch", "cheese", "until"}

// MapCSV writes [Map] for a spreadsheet: a row for each pile of boxes, front to back and left to right, of a
// counted place for all boxes of a batch there, whatever the width.
func MapCSV(w io.Writer, p *schedule.Problem, plan *schedule.Plan, opt Options) error {
	g, err := newPage(p, plan, opt)
	if err != nil {
		return err
	}
	at := func(m resources.Moment) string { return m.In(g.zone).Format(time.RFC3339) }
	cm := func(l resources.Micrometres) string { return strings.TrimSuffix(resources.FormatLength(l), " cm") }
	var records []map[string]string
	parts := g.parts()
	for i := range parts {
		c := &parts[i]
		for _, pile := range g.o.Piles(c.place.Name, c.shelfName(), opt.At) {
			stay := &g.o.Stays[pile.Stay]
			r := map[string]string{"at": at(opt.At), "place": c.place.Name, "shelf": c.shelfName(), "boxes": strconv.Itoa(pile.Boxes), "box": stay.Kind,
				"batch": stay.Batch, "cheese": stay.Cheese}
			if stay.Span.Until != coldroom.Forever {
				r["until"] = at(stay.Span.Until)
			}
			if c.shelf != nil {
				r["left_cm"], r["front_cm"], r["width_cm"], r["depth_cm"] = cm(pile.X), cm(pile.Y), cm(pile.Width), cm(pile.Depth)
			}
			records = append(records, r)
		}
	}
	return spreadsheet.Records(w, mapHeads, records)
}

// record is what a part holds at the fullest moment of a day.
func (c *part) record(d resources.Date, day resources.Span, zone *time.Location) map[string]string {
	most := c.fill.Tightest(day)
	r := map[string]string{"day": d.String(), "place": c.place.Name, "shelf": c.shelfName(),
		"at": most.From.In(zone).Format(time.RFC3339), "boxes": strconv.Itoa(most.Boxes)}
	switch {
	case c.shelf == nil:
		r["boxes_most"] = strconv.FormatInt(most.Open, 10)
	case most.Open > 0:
		r["floor_percent"] = strconv.Itoa(c.fill.Percent(most))
	}
	whole := len(resources.Subtract([]resources.Span{day}, c.closings())) == 0
	switch {
	case c.fill.Over(most):
		r["text"] = words.TooFull
	case whole:
		r["text"] = "taken"
	case len(resources.Intersect([]resources.Span{day}, c.closings())) > 0:
		r["text"] = "taken in part"
	}
	return r
}
