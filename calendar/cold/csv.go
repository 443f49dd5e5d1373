package cold

import (
	"io"
	"strconv"
	"time"

	"ripeby/calendar/spreadsheet"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
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
