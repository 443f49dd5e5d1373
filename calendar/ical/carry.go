package ical

import (
	"fmt"
	"strconv"
	"time"

	"ripeby/calendar/note"
	"ripeby/calendar/words"
	"ripeby/schedule"
)

// carryEvents gives one event per carry out of a closed place.
func carryEvents(plan *schedule.Plan, w wording, opt Options) []event {
	var events []event
	for i := range plan.Carries {
		c, n := &plan.Carries[i], note.OfCarry(plan, i)
		if opt.Person != "" && c.Who != opt.Person {
			continue
		}
		e := event{
			start: n.Start, end: n.Start.Add(n.Minutes),
			sequence: c.Sequence, revised: stampOf(plan, c.Revised),
			summary:    words.Capital(words.Carry(clean(n.Cheese), clean(n.To))),
			location:   w.place(n.To),
			categories: []string{"Carry", n.Cheese},
			colour:     coldColour,
			busy:       true,
			who:        c.Who,
			alarm:      true,
		}
		what := fmt.Sprintf("Batch %s, %s: %s", clean(n.Batch), clean(n.Cheese), w.pieces(n.Pieces))
		if n.Batch == "" {
			e.uid = uidOf("carry", n.Cheese, n.Packed.In(time.UTC).Format(time.RFC3339), n.From, strconv.Itoa(n.Like))
			what = fmt.Sprintf("Stock, %s: %s, packed %s", clean(n.Cheese), w.pieces(n.Pieces), w.moment(n.Packed))
		} else {
			e.uid = uidOf("carry", n.Batch, n.Stage, n.From)
			e.sheet = opt.sheetOf(n.Batch)
		}
		e.description = []string{what, "From: " + w.place(n.From) + ", which is closed", "To: " + w.placeAndShelves(n.To, n.Boxes), "Who: " + clean(n.Who)}
		events = append(events, e)
	}
	return events
}
