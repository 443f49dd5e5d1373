package ical

import (
	"fmt"
	"strings"

	"ripeby/calendar/note"
	"ripeby/calendar/words"
	"ripeby/schedule"
)

// workEvents gives one event per piece of hands-on work. Work that has begun
// keeps its event as long as its batch is in the plan, so that a subscriber's
// calendar keeps its past.
func workEvents(plan *schedule.Plan, w wording, opt Options) []event {
	var events []event
	cautions := note.CautionsOf(plan, w.zone)
	for k := range plan.Batches {
		b := &plan.Batches[k]
		for i := range b.Stages {
			t := &b.Stages[i]
			if t.Work <= 0 || opt.Person != "" && t.Who != opt.Person {
				continue
			}
			events = append(events, workEvent(plan, b, i, w, opt, &cautions))
		}
	}
	return events
}

// workEvent is what is told of the work of stage i of a batch.
func workEvent(plan *schedule.Plan, b *schedule.Batch, i int, w wording, opt Options, cautions *note.Cautions) event {
	t, n := &b.Stages[i], note.OfTask(plan, b, i)
	return event{
		uid:   uidOf("work", b.ID, t.Stage),
		start: t.Start, end: t.Start.Add(t.Work),
		sequence: max(t.Revision, t.Sequence), revised: stampOf(plan, t.RevisedText, t.Revised),
		summary:     w.workSummary(n),
		description: append(w.workText(n), w.cautions(cautions.Of(b.ID, t.Stage, opt.Person != ""))...),
		location:    w.place(n.At),
		categories:  []string{"Work", b.Cheese},
		colour:      workColour,
		sheet:       opt.sheetOf(b.ID),
		busy:        true,
		who:         t.Who,
		alarm:       !t.Begun, // what has begun, or is done, needs nobody called
	}
}

// workSummary is the line that a phone shows: the stage, the cheese, how much.
// Milk is measured when the work starts, pieces are counted from then on.
func (w wording) workSummary(n note.Task) string {
	much := w.pieces(n.Pieces)
	if n.First {
		much = w.litres(n.Litres)
	}
	return fmt.Sprintf("%s: %s, %s", words.Capital(clean(n.Stage)), clean(n.Cheese), much)
}

// workText is what the event tells when it is opened, one line a fact.
func (w wording) workText(n note.Task) []string {
	lines := []string{
		fmt.Sprintf("%s of hands-on work: %s", w.length(n.Work), clean(n.Stage)),
		fmt.Sprintf("Batch %s, %s: %s of milk, %s", clean(n.Batch), clean(n.Cheese), w.litres(n.Litres), w.spare(n.Pieces, n.Spare)),
	}
	if n.Overdue != 0 {
		lines = append(lines, "Overdue: it was to begin "+w.moment(n.Overdue))
	}
	if n.Who != "" {
		lines = append(lines, "Who: "+clean(n.Who))
	}
	if n.Milk != nil {
		lines = append(lines, fmt.Sprintf("Milk: %s, collected %s", clean(n.Milk.Supply), w.moment(n.Milk.Collect)))
	}
	for _, d := range n.Needs {
		lines = append(lines, "Goes in: "+w.dose(d))
	}
	if len(n.Measures) > 0 {
		lines = append(lines, "Measure: "+clean(strings.Join(n.Measures, ", ")))
	}
	if len(n.Take) > 0 {
		lines = append(lines, "Take: "+w.kit(n.Take))
	}
	lines = append(lines, "Where: "+w.placeAndShelves(n.At, n.Boxes))
	switch {
	case n.Begun:
	case n.SlipUntil > n.Start:
		lines = append(lines, fmt.Sprintf("May start as late as %s (%s later)", w.moment(n.SlipUntil), w.length(n.SlipUntil.Sub(n.Start))))
	case n.Critical:
		lines = append(lines, "May not begin later, or a target breaks")
	default:
		lines = append(lines, "May not start later than this")
	}
	for _, r := range n.Then {
		lines = append(lines, fmt.Sprintf("Then %s: hold %s, until %s, %s",
			clean(r.Stage), w.length(r.Hold), w.moment(r.Ends), w.placeAndShelves(r.At, r.Boxes)))
	}
	if len(n.Clean) > 0 {
		lines = append(lines, "Wash afterwards: "+w.kit(n.Clean))
	}
	for _, s := range n.For {
		line := fmt.Sprintf("For %s, %s: %s", clean(s.Target), w.moment(s.By), w.pieces(s.Pieces))
		if s.Promised > 0 {
			line += fmt.Sprintf(" (%d promised)", s.Promised)
		}
		lines = append(lines, line)
	}
	return lines
}

// cautions are what is to be minded on the day, told with its first work.
func (w wording) cautions(all []note.Caution) (lines []string) {
	for _, c := range all {
		names := make([]string, len(c.Cheeses))
		for i, cheese := range c.Cheeses {
			names[i] = clean(cheese)
		}
		lines = append(lines, "Caution, "+strings.Join(names, ", ")+": "+strings.TrimSpace(cleanLines(c.Text)))
	}
	if len(lines) > 0 {
		lines = append(lines, "These are usual cautions for today, not limits that make a cheese safe. Local rules come first.")
	}
	return lines
}
