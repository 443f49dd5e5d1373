package week

import (
	"strings"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/dose"
)

// much writes an amount, its number and its unit held together. It is printable already; with a space before it its
// number begins no list.
func (n *cellPen) much(text string) string {
	if n.Escape != nil {
		return n.Escape(" " + text)[1:]
	}
	return text
}

// dose is what goes in, of which strength and from which packet.
func (n *cellPen) dose(d *schedule.Dose) string { return words.DoseLine(d, n.Name, n.much) }

// doses are all that go in at a piece of work; "" for none.
func (n *cellPen) doses(all []schedule.Dose) string {
	var parts []string
	for i := range all {
		parts = append(parts, n.dose(&all[i]))
	}
	return strings.Join(parts, "; ")
}

// inHouse is what the work of the week takes, by when, and of which packets. What was taken before the plan begins is
// no longer to be had.
func (s *oneWeek) inHouse(n *cellPen) []string {
	var lines []string
	span := resources.Span{From: max(s.span.From, s.plan.From), Until: s.span.Until}
	for _, sum := range dose.Sums(s.plan, span) {
		much := words.Sum(sum.Amount, sum.Unit)
		if sum.Unit == resources.Percent {
			much = "by the weight of the curd"
		}
		line := n.Name(sum.What) + ": " + n.much(much) + ", for " + words.Count(sum.Batches, "batch", "batches") + ", by " + words.Stamp(sum.First, n.Zone)
		for i, lot := range sum.Lots {
			line += []string{"; packet ", ", "}[min(i, 1)] + n.Name(lot)
		}
		lines = append(lines, line+".")
	}
	if len(lines) > 0 {
		lines = append(lines, words.DosesAreYours)
	}
	for _, w := range s.plan.Warnings { // this week's are under what to watch; to buy the next there must be time
		if (w.Code == dose.WarnEmpty || w.Code == dose.WarnPast) && s.span.Until <= w.At && w.At < s.span.Until.Add(7*resources.Day) {
			lines = append(lines, n.Text(w.Text))
		}
	}
	return lines
}
