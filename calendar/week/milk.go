package week

import (
	"fmt"
	"strings"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// milkWithin gives the jobs whose moments lie in the span.
func milkWithin(jobs []schedule.MilkJob, span resources.Span) []schedule.MilkJob {
	var in []schedule.MilkJob
	for _, j := range jobs {
		if span.From <= j.At && j.At < span.Until {
			in = append(in, j)
		}
	}
	return in
}

// milkRow is the row of milk to order or to collect.
func milkRow(j *schedule.MilkJob) row {
	r := row{kind: rowCollect, at: j.At, what: j.Supply, litres: j.Litres, milk: j}
	if j.Order {
		r.kind = rowOrder
	}
	if len(j.Draws) == 1 {
		r.batch = j.Draws[0].Batch
	}
	return r
}

// milkCells fills in what the cells of such a row say in their own way: of an order for
// which collection it is, and that it cannot be later; and which batches draw how much,
// where one batch does not draw it all.
func (n *cellPen) milkCells(c []string, r *row) {
	var where []string
	c[colWhat] = "Collect " + n.Name(r.what)
	if r.kind == rowOrder {
		c[colWhat] = "Order " + n.Name(r.what)
		c[colBy] = words.Clock(r.at, n.Zone)
		where = append(where, "to collect "+words.Stamp(r.milk.Collect, n.Zone)+n.inAll(r.milk))
	}
	if len(r.milk.Draws) > 1 {
		where = append(where, "for "+n.draws(r.milk))
	}
	if r.milk.Assumed {
		where = append(where, words.TakenAsOrdered)
	}
	c[colWhere] = strings.Join(where, "; ")
}

// draws says what each batch draws.
func (n *cellPen) draws(j *schedule.MilkJob) string {
	var to []string
	for _, d := range j.Draws {
		to = append(to, n.Name(d.Batch)+" "+words.Litres(d.Litres))
	}
	return strings.Join(to, ", ")
}

// inAll says how much comes with an order, where some comes without it.
func (n *cellPen) inAll(j *schedule.MilkJob) string {
	if j.Known == 0 {
		return ""
	}
	return ", " + words.Litres(j.Litres+j.Known) + " in all"
}

// milkTexts are the week's orders and collections.
func (s *oneWeek) milkTexts(n *cellPen) []string {
	var lines []string
	for i := range s.milk {
		j := &s.milk[i]
		if j.Order {
			lines = append(lines, fmt.Sprintf("Order by %s: %s %s, to collect %s%s.", words.Stamp(j.At, n.Zone),
				words.Litres(j.Litres), n.Name(j.Supply), words.Stamp(j.Collect, n.Zone), n.inAll(j)))
			continue
		}
		verb := "Collect"
		if j.Collect < s.plan.From {
			verb = "Was due"
		}
		line := fmt.Sprintf("%s %s: %s %s, for %s.", verb, words.Stamp(j.At, n.Zone),
			words.Litres(j.Litres), n.Name(j.Supply), n.draws(j))
		if j.Known > 0 {
			line += fmt.Sprintf(" %s: %s.", words.MilkKnown(j.By), words.Litres(j.Known))
		}
		if j.Assumed {
			line += " This is " + words.TakenAsOrdered + "."
		}
		lines = append(lines, line)
	}
	return lines
}
