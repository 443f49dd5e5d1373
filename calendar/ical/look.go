package ical

import (
	"fmt"
	"strconv"

	"ripeby/calendar/words"
	"ripeby/schedule"
)

// lookEvents gives one event per look that was asked for. A look at another moment, or by somebody
// else, is another event.
func lookEvents(plan *schedule.Plan, w wording, opt Options) []event {
	var events []event
	for _, l := range plan.Looks {
		if opt.Person != "" && l.Who != opt.Person {
			continue
		}
		cheese := ""
		if b := plan.Batch(l.Batch); b != nil {
			cheese = b.Cheese
		}
		events = append(events, event{
			uid:   uidOf("look", l.Batch, l.Stage, strconv.FormatInt(int64(l.Start), 10), l.Who),
			start: l.Start, end: l.Start.Add(l.Minutes),
			revised: l.Asked,
			summary: words.Capital(words.Look(clean(l.Stage), clean(cheese))),
			description: []string{
				fmt.Sprintf("Batch %s was not ready to %s at %s: look again", clean(l.Batch), clean(l.Stage), w.moment(l.Asked)),
				"Who: " + clean(l.Who),
			},
			categories: []string{"Look"},
			colour:     roundColour,
			busy:       true,
			who:        l.Who,
			alarm:      true,
		})
	}
	return events
}
