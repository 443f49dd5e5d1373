package ical

import (
	"fmt"
	"strings"

	"ripeby/calendar/note"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// targetEvents gives one event per target, at the moment at which it leaves.
// It has no length and does not make anybody busy.
func targetEvents(plan *schedule.Plan, w wording) []event {
	editions := map[string]schedule.WantResult{}
	for _, r := range plan.Targets {
		editions[r.Target] = r
	}
	var events []event
	for _, n := range note.OfTargets(plan) {
		edition := editions[n.Target]
		events = append(events, event{
			uid:   uidOf("target", n.Target),
			start: n.By, end: n.By,
			sequence: edition.Sequence, revised: stampOf(plan, edition.Revised),
			summary:     w.targetSummary(n),
			description: w.targetText(n),
			categories:  []string{"Target"},
			colour:      targetColour,
		})
	}
	return events
}

// targetSummary tells how much leaves, and how much is missing.
func (w wording) targetSummary(n note.Target) string {
	met, short := 0, 0
	for _, want := range n.Wants {
		met += want.Met
		short += want.Short
	}
	s := fmt.Sprintf("Target: %s, %s", clean(n.Target), w.pieces(met))
	if short > 0 {
		s += fmt.Sprintf(", %d short", short)
	}
	return s
}

// targetText is a line for each want, with where its pieces come from, and a line
// for what is short.
func (w wording) targetText(n note.Target) []string {
	lines := []string{"Leaves the kitchen, packed, at " + w.moment(n.By)}
	for _, want := range n.Wants {
		promised := ""
		if want.Promised {
			promised = ", promised"
		}
		line := fmt.Sprintf("%s: %d of %d%s", clean(want.Cheese), want.Met, want.Wanted, promised)
		if from := w.sources(want.From); from != "" {
			line += " (" + from + ")"
		}
		lines = append(lines, line)
		if want.Short > 0 {
			missing := fmt.Sprintf("Missing: %s of %s", w.pieces(want.Short), clean(want.Cheese))
			if because := clean(want.Because); because != "" {
				missing += ". " + words.Capital(because) // a sentence of its own
			}
			lines = append(lines, missing)
		}
	}
	return lines
}

// sources lists batches and stock with the pieces that each gives.
func (w wording) sources(from []note.Source) string {
	var parts []string
	for _, s := range from {
		name := "batch " + clean(s.Batch)
		if s.Batch == "" {
			name = "stock"
			if s.Packed != resources.Moment(0) {
				name += " packed " + w.moment(s.Packed)
			}
		}
		parts = append(parts, fmt.Sprintf("%d from %s", s.Pieces, name))
	}
	return strings.Join(parts, ", ")
}
