package main

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// means says what an entry means for the plan in force: on its way as planned, or what must move.
// "" where there is no plan, or it means nothing for it.
func (k *recordKitchen) means(e *record.Entry) string {
	if k.plan == nil || e.Subject.Kind == record.Nothing || e.Subject.Kind == record.OfPacket {
		return ""
	}
	again := "ripeby plan" + kitchen{folder: k.folder}.as()
	if e.Subject.Kind == record.OfBatch {
		for i := range k.plan.Batches {
			if b := &k.plan.Batches[i]; slices.Contains(b.Names(), e.Subject.Name) {
				return k.meansOfBatch(b, e, again)
			}
		}
	}
	return "The next plan takes it into account: " + again
}

// meansOfBatch is the same of a batch of the plan.
func (k *recordKitchen) meansOfBatch(b *schedule.Batch, e *record.Entry, again string) string {
	facts := &e.Batch
	switch {
	case facts.Lost:
		if n := givenAway(b); n > 0 {
			return fmt.Sprintf("%s were for targets; see what can be made up for: %s", schedule.Counted(n, "piece"), again)
		}
		return "Nothing of it was for a target. Plan without it: " + again
	case facts.NotYet != "":
		return "See who looks again and when, and what moves: " + again
	case facts.Began != "" || facts.Did != "":
		for i := range b.Stages {
			t := &b.Stages[i]
			if t.Stage == facts.Did {
				return k.meansOfTask(b, i, e.At.Add(-t.Work), again)
			}
			if t.Stage == facts.Began {
				return k.meansOfTask(b, i, e.At, again)
			}
		}
	case facts.Pieces.Given:
		if n := givenAway(b) - max(min(facts.Pieces.Value, b.Pieces-b.Spare), 0); n > 0 {
			return fmt.Sprintf("%s fewer than are for targets; see what can be made up for: %s", schedule.Counted(n, "piece"), again)
		}
		return "There are enough of it for all that it is for."
	}
	return "The next plan takes it into account: " + again
}

// givenAway is how many pieces of a batch are for targets.
func givenAway(b *schedule.Batch) int {
	n := 0
	for _, s := range b.For {
		n += s.Pieces
	}
	return n
}

// sameWork is how far work may lie off its planned start and be as planned.
const sameWork resources.Minutes = 10

// meansOfTask is the same of a stage whose work began at a moment.
func (k *recordKitchen) meansOfTask(b *schedule.Batch, i int, began resources.Moment, again string) string {
	t := &b.Stages[i]
	next := ""
	for x := i + 1; x < len(b.Stages); x++ {
		if s := &b.Stages[x]; s.Work > 0 {
			next = fmt.Sprintf(" Next: %s, %s, %s.", s.Stage, moment(s.Start, k.zone), s.Who)
			break
		}
	}
	late := began.Sub(t.Start)
	switch {
	case t.Begun, late <= sameWork && late >= -sameWork:
		return "As planned." + next
	case late < 0:
		return "Sooner than planned; the next plan works out what follows: " + again
	case began <= t.SlipUntil:
		return fmt.Sprintf("Later than planned, but within what it may slip: nothing else has to move. Work out what follows: %s", again)
	}
	return fmt.Sprintf("Later than it may slip (%s): something has to move. See what: %s", moment(t.SlipUntil, k.zone), again)
}
