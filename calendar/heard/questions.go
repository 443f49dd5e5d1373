package heard

import (
	"cmp"
	"slices"

	"ripeby/calendar/said"
	"ripeby/calendar/week"
	"ripeby/resources"
)

// askedWithin is how long ago work may lie that is asked about.
const askedWithin = 7 * resources.Day

// passed are the jobs of the plan in force that should be done by now, and of which nobody spoke.
func (b *Beside) passed(jobs []week.Job) (all []said.Question) {
	for _, j := range jobs {
		of := b.Plan.Batch(j.Batch)
		if of == nil || of.Stage(j.Stage) == nil || j.Look || j.Begun {
			continue
		}
		// That it is not yet says nothing of the time that was planned since.
		if w, _, _ := b.last(j); w == nil || w.NotYet == j.Stage && w.At < j.Start {
			all = append(all, said.Question{Batch: of.ID, Cheese: of.Cheese, Stage: j.Stage, Start: j.Start, Ends: j.Until, Who: j.Who})
		}
	}
	return all
}

// IsAsked reports whether a job is one of those that are to be answered.
func IsAsked(j week.Job, of []said.Question) bool {
	return j.Stage != "" && !j.Look && slices.ContainsFunc(of, func(q said.Question) bool { return q.Batch == j.Batch && q.Stage == j.Stage })
}

// settled reports whether what was said of a batch answers a question: that the stage or a later one is
// done or begun, or that the batch is lost.
func (b *Beside) settled(q *said.Question) bool {
	at := b.stage(q.Batch, q.Stage)
	return slices.ContainsFunc(b.Told.Lately, func(w said.Word) bool {
		return w.Batch == q.Batch && (w.Lost || q.Carried == "" && max(b.stage(q.Batch, w.Did), b.stage(q.Batch, w.Began)) >= max(at, 0))
	})
}

// Questions are all that is to be answered, the oldest first: what is over by now. Who writes is asked also of
// the jobs of the plan in force that have passed since the kitchen was last asked what it said.
func (b *Beside) Questions(jobs []week.Job, writes bool) []said.Question {
	if b.Told == nil {
		return nil
	}
	all := slices.Clone(b.Told.Answer)
	if writes {
		for _, q := range b.passed(jobs) {
			if !slices.ContainsFunc(all, func(o said.Question) bool { return o.Batch == q.Batch && o.Stage == q.Stage }) {
				all = append(all, q)
			}
		}
	}
	all = slices.DeleteFunc(all, func(q said.Question) bool {
		return q.Ends > b.Now || q.Start < b.Now.Add(-askedWithin) || b.settled(&q)
	})
	slices.SortStableFunc(all, func(a, c said.Question) int { return cmp.Compare(a.Start, c.Start) })
	return all
}
