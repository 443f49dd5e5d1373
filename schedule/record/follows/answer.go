package follows

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// answerWithin is how long ago work may lie that is still to be answered.
const answerWithin = 7 * resources.Day

// toBeAnswered notes work of which nobody spoke, by when it was to begin.
func (f *follower) toBeAnswered(x *batch, t *schedule.Task, start resources.Moment, waits bool) {
	f.out.Unanswered = append(f.out.Unanswered, Unanswered{Batch: x.id, Cheese: x.batch.Cheese, Stage: t.Stage, Start: start, Work: t.Work, Who: t.Who, Waits: waits})
}

// carriesToAnswer lists what is taken to have been carried out of a closed place, of batches of which nobody
// has said since where they stand; where silence is no assent nothing is taken so.
func (f *follower) carriesToAnswer(batches []*batch) {
	if f.p.Kitchen.UnsaidWaits {
		return
	}
	for _, x := range batches {
		last := len(x.starts) - 1
		if last < 0 || x.lost || x.past {
			continue
		}
		t := &x.batch.Stages[last]
		said := func(e *record.Entry) bool { return e.Batch.Stands.Given && e.At >= t.Carried }
		if t.Carried == 0 || t.Carried < f.p.From.Add(-answerWithin) || slices.ContainsFunc(x.entries, said) {
			continue
		}
		f.out.Unanswered = append(f.out.Unanswered, Unanswered{Batch: x.id, Cheese: x.batch.Cheese, Carried: t.At, Start: t.Carried})
	}
}

// What is what is to be answered: work of a stage, or that the batch was carried.
func (u *Unanswered) What() string {
	if u.Carried != "" {
		return fmt.Sprintf("%s carried to the %s", u.Batch, u.Carried)
	}
	return fmt.Sprintf("%s of %s", u.Stage, u.Batch)
}

// answersShown is how many pieces of work that are to be answered are named.
const answersShown = 6

// toAnswer tells what was taken as planned without a word, or what waits for one.
func (f *follower) toAnswer() {
	list := f.out.Unanswered
	if len(list) == 0 {
		return
	}
	var names []string
	for _, u := range list[:min(len(list), answersShown)] {
		names = append(names, fmt.Sprintf("%s (%s)", u.What(), f.when(u.Start)))
	}
	if more := len(list) - answersShown; more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	carried := ""
	if slices.ContainsFunc(list, func(u Unanswered) bool { return u.Carried != "" }) {
		carried = "; where cheese really stands: ripeby record stands"
	}
	if f.p.Kitchen.UnsaidWaits {
		first := "" // where a make waits its batch may be planned no more, and then its id says nothing
		if slices.ContainsFunc(list, func(u Unanswered) bool { return f.p.Earlier.Batch(u.Batch).Stages[0].Stage == u.Stage }) {
			first = " (where the batch is planned no more, name its cheese, with --litres)"
		}
		f.note("overdue", list[0].Start, "Nobody said that this began, and so it is taken not to have (unsaid: waits): %s. It is overdue. Say what was done: ripeby record%s.", schedule.Listed(names), first)
		return
	}
	f.note("to-answer", list[0].Start, "Nobody said how this went, and it is taken as done as planned: %s. Say how it was: ripeby record%s.", schedule.Listed(names), carried)
}
