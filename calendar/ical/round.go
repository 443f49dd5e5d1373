package ical

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/calendar/note"
	"ripeby/calendar/words"
	"ripeby/schedule"
)

// roundEvents gives one event per round of the plan.
func roundEvents(plan *schedule.Plan, w wording, opt Options) []event {
	var events []event
	for i := range plan.Rounds {
		r := &plan.Rounds[i]
		if opt.Person != "" && r.Who != opt.Person {
			continue
		}
		n := note.OfRound(plan, i)
		events = append(events, event{
			uid:   uidOf("round", w.day(r.Start)),
			start: r.Start, end: r.Start.Add(r.Minutes),
			sequence: r.Sequence, revised: stampOf(plan, r.Revised),
			summary:     w.roundSummary(n),
			description: w.roundText(n),
			location:    w.roundPlaces(n),
			categories:  []string{"Round"},
			colour:      roundColour,
			busy:        true,
			who:         r.Who,
			alarm:       true,
		})
	}
	return events
}

// roundSummary names each kind of care that is due once.
func (w wording) roundSummary(n note.Round) string {
	var kinds []string
	for _, j := range n.Jobs {
		if do := clean(j.Do); !slices.Contains(kinds, do) {
			kinds = append(kinds, do)
		}
	}
	if len(kinds) == 0 {
		return "Round: look at what is ripening"
	}
	return "Round: " + strings.Join(kinds, ", ")
}

// roundText is one line a job, then who does it.
func (w wording) roundText(n note.Round) []string {
	lines := []string{w.length(n.Minutes) + " for what is ripening"}
	for _, j := range n.Jobs {
		line := fmt.Sprintf("%s batch %s", words.Capital(clean(j.Do)), clean(j.Batch))
		if j.Cheese != "" {
			line += fmt.Sprintf(", %s, %s", clean(j.Cheese), w.pieces(j.Pieces))
		}
		if j.At != "" {
			line += ", " + w.place(j.At)
		}
		lines = append(lines, fmt.Sprintf("%s: %s", line, w.length(j.Hands)))
	}
	if len(n.Jobs) == 0 {
		lines = append(lines, "No care is due today")
	}
	if n.Who != "" {
		lines = append(lines, "Who: "+clean(n.Who))
	}
	return lines
}

// roundPlaces names each place that the round goes to once.
func (w wording) roundPlaces(n note.Round) string {
	var places []string
	for _, j := range n.Jobs {
		if j.At != "" && !slices.Contains(places, w.place(j.At)) {
			places = append(places, w.place(j.At))
		}
	}
	return strings.Join(places, ", ")
}
