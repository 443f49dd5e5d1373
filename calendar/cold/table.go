package cold

import (
	"fmt"
	"io"
	"strings"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// Table writes how full each shelf and each counted place is at the fullest
// moment of each day of a plan, from its start until the last box has gone; and
// when each is fullest of all. Where the columns do not fit the width, they follow
// in groups, one under the other.
func Table(w io.Writer, p *schedule.Problem, plan *schedule.Plan, opt Options) error {
	g, err := newPage(p, plan, opt)
	if err != nil {
		return err
	}
	parts, days := g.parts(), g.daysOf(g.horizon())
	g.Heading(fmt.Sprintf("%s, cold places from %s to %s", g.pen.Name(p.Kitchen.Name),
		words.Day(days[0]), words.Midnight(days[len(days)-1]).Format("Mon 2 Jan 2006")))
	if len(parts) == 0 {
		g.Para("", "The kitchen has no cold place.")
		g.notes(resources.Span{From: plan.From, Until: g.last})
		return g.Finish(w)
	}
	since := g.since()
	g.Para("", g.tableTitle(parts)+" "+g.tightest(parts, since))
	heads, rows := g.fillCells(parts, days, since)
	floors := []int{dayFloor}
	for range parts {
		floors = append(floors, partFloor)
	}
	for len(heads) > 1 {
		n := len(heads)
		widths, fit := g.Columns(heads, rows, floors)
		for ; !fit; widths, fit = g.Columns(heads[:n], leftOf(rows, n), floors[:n]) {
			n--
		}
		g.Gap()
		if err := g.Table(heads[:n], leftOf(rows, n), widths); err != nil {
			return err
		}
		heads, rows = append(heads[:1:1], heads[n:]...), without(rows, n)
		floors = append(floors[:1:1], floors[n:]...)
	}
	g.notes(resources.Span{From: since.From, Until: g.last})
	return g.Finish(w)
}

// since is the time that the table is about. What stood before the plan's start is
// not all known to it.
func (g *page) since() resources.Span {
	span := g.horizon()
	return resources.Span{From: max(span.From, g.plan.From), Until: span.Until}
}

// fillCells gives the table's heads and rows: one a day, and at last when each part
// is fullest of all.
func (g *page) fillCells(parts []part, days []resources.Date, since resources.Span) (heads []string, rows [][]string) {
	heads = []string{"Day"}
	rows = make([][]string, len(days)+1)
	for i, d := range days {
		rows[i] = []string{words.Day(d)}
	}
	rows[len(days)] = []string{"Fullest"}
	for i := range parts {
		c := &parts[i]
		heads = append(heads, c.name(&g.pen))
		for k, d := range days {
			rows[k] = append(rows[k], c.cell(resources.Intersect([]resources.Span{d.Span(g.zone)}, []resources.Span{since})))
		}
		fullest := "-"
		if most := c.fill.Tightest(since); most.Boxes > 0 {
			fullest = words.Stamp(most.From, g.zone)
		}
		rows[len(days)] = append(rows[len(days)], fullest)
	}
	return heads, rows
}

// Least widths of columns: "Mon 22 Feb", and "12, 100 %". At the narrowest width
// two of them fit.
const (
	dayFloor  = 10
	partFloor = 9
)

// leftOf is the first n cells of each row.
func leftOf(rows [][]string, n int) [][]string {
	out := make([][]string, len(rows))
	for i, r := range rows {
		out[i] = r[:n]
	}
	return out
}

// without is each row without its second to n-th cells.
func without(rows [][]string, n int) [][]string {
	out := make([][]string, len(rows))
	for i, r := range rows {
		out[i] = append(r[:1:1], r[n:]...)
	}
	return out
}

// tableTitle says what the cells are.
func (g *page) tableTitle(parts []part) string {
	measured, counted := false, false
	for _, c := range parts {
		measured, counted = measured || c.shelf != nil, counted || c.shelf == nil
	}
	switch {
	case measured && counted:
		return "Boxes at the fullest moment of each day, and the share of a shelf's floor under them, or of how many a place holds."
	case measured:
		return "Boxes at the fullest moment of each day, and the share of the shelf's floor under them."
	}
	return "Boxes at the fullest moment of each day, of how many the place holds."
}

// tightest names the fullest moment of all, the first of equal ones.
func (g *page) tightest(parts []part, span resources.Span) string {
	var best *part
	var most coldroom.FillStep
	for i := range parts {
		s := parts[i].fill.Tightest(span)
		if s.Boxes > 0 && (best == nil || parts[i].fill.FullerThan(s, &best.fill, most)) {
			best, most = &parts[i], s
		}
	}
	if best == nil {
		return "Nothing stands there."
	}
	return fmt.Sprintf("Tightest: %s, %s, %s.", best.name(&g.pen), words.Fill(&best.fill, most), words.Stamp(most.From, g.zone))
}

// cell is what a part holds on a day: none of it where the day is over before the
// plan begins.
func (c *part) cell(day []resources.Span) string {
	if len(day) == 0 {
		return ""
	}
	most := c.fill.Tightest(day[0])
	taken := len(resources.Intersect(day, c.closings())) > 0
	whole := len(resources.Subtract(day, c.closings())) == 0
	var parts []string
	switch {
	case most.Boxes == 0 && whole:
		return "taken"
	case most.Boxes == 0:
		parts = append(parts, "empty")
	case c.shelf == nil:
		parts = append(parts, fmt.Sprintf("%d%sof%s%d", most.Boxes, words.Glue, words.Glue, most.Open))
	case most.Open > 0:
		parts = append(parts, fmt.Sprintf("%d,%s%d%s%%", most.Boxes, words.Glue, c.fill.Percent(most), words.Glue))
	default:
		parts = append(parts, words.Count(most.Boxes, "box", "boxes"))
	}
	if c.fill.Over(most) {
		parts = append(parts, words.TooFull)
	}
	switch {
	case whole:
		parts = append(parts, "taken")
	case taken:
		parts = append(parts, "taken in part")
	}
	return strings.Join(parts, ", ")
}
