package ical

import (
	"fmt"

	"ripeby/calendar/note"
	"ripeby/calendar/words"
	"ripeby/schedule"
)

// milkEvents gives one event per order of milk, at the last moment at which it can be
// made, and one per collection, at the moment at which it is ready. They have no length
// and make nobody busy; orders have an alarm. They are nobody's alone, so everybody's
// calendar has them.
func milkEvents(p *schedule.Problem, plan *schedule.Plan, w wording) []event {
	var events []event
	for _, j := range schedule.MilkOf(p, plan) {
		n := note.OfMilk(plan, j)
		kind := "collect"
		if n.Order {
			kind = "order"
		}
		events = append(events, event{
			uid:   uidOf(kind, n.Supply, w.day(n.Collect)),
			start: n.At, end: n.At,
			sequence: j.Sequence, revised: stampOf(plan, j.Revised),
			summary:     w.milkSummary(n),
			description: w.milkText(n),
			categories:  []string{"Milk"},
			colour:      milkColour,
			alarm:       n.Order,
		})
	}
	return events
}

// milkSummary tells what to do, of which milk, and how much.
func (w wording) milkSummary(n note.Milk) string {
	do := "Collect"
	if n.Order {
		do = "Order"
	}
	return fmt.Sprintf("%s milk: %s, %s", do, clean(n.Supply), w.litres(n.Litres))
}

// milkText tells by when, for which collection, and which batches it is for.
func (w wording) milkText(n note.Milk) []string {
	var lines []string
	switch known := n.Known; {
	case n.Order:
		lines = append(lines, fmt.Sprintf("Order %s at this moment or before, to collect %s", w.litres(n.Litres), w.moment(n.Collect)))
		if known > 0 {
			lines = append(lines, fmt.Sprintf("%s in all, with the %s that come already", w.litres(n.Litres+known), w.litres(known)))
		}
	default:
		lines = append(lines, "Ready from then on: "+w.litres(n.Litres))
		if known > 0 {
			lines = append(lines, words.MilkKnown(n.By)+": "+w.litres(known))
		}
		if n.Assumed {
			lines = append(lines, words.Capital(words.TakenAsOrdered)+": nobody has said whether it was")
		}
	}
	for _, d := range n.Draws {
		lines = append(lines, fmt.Sprintf("For batch %s, %s: %s", clean(d.Batch), clean(d.Cheese), w.litres(d.Litres)))
	}
	return lines
}
