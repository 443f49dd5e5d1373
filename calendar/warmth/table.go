package warmth

import (
	"strconv"

	"ripeby/calendar/layout"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule/readings"
)

// days is a line a local day: what the picture shows, for who does not see it.
func (s said) days() layout.Table {
	t := layout.Table{Heads: []string{"Day", "Least", "Greatest", "Readings", "Missing", "By hand"}}
	for _, d := range resources.Days(s.Span, s.zone) {
		day := d.Span(s.zone)
		row := []string{words.Day(d), "", "", "", "", ""}
		if all := readings.Within(day, s.All()); len(all) > 0 {
			row[1], row[2], row[3] = words.Degrees(readings.Coldest(all).Is), words.Degrees(readings.Warmest(all).Is), strconv.Itoa(len(all))
		}
		none := resources.Minutes(0)
		for _, gap := range resources.Intersect(s.Gaps, []resources.Span{day}) {
			none += gap.Until.Sub(gap.From)
		}
		if none > 0 {
			row[4] = words.Length(none)
		}
		if told := readings.Within(day, s.Told); len(told) > 0 {
			row[5] = between(told)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
