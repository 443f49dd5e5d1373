package follows

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/record"
)

// silent goes on after the last stage that was said with what nobody spoke of: it was as planned,
// as far as that can have been. What cannot have been has not begun, nor has what follows on it.
func (f *follower) silent(x *batch) {
	if f.p.Kitchen.UnsaidWaits {
		f.waits(x)
		return
	}
	for i := len(x.starts); i < x.planned && i < len(x.recipe.Stages); i++ {
		t := &x.batch.Stages[i]
		start := t.Start
		if t.Start >= f.p.From || t.Start < x.since { // begun.yaml would have it
			return
		}
		if i > 0 {
			hold, over := needs.HoldOf(x.recipe, i-1, f.p.Kitchen.Step), x.starts[i-1].Add(x.works[i-1])
			if hold.Most == 0 {
				start = over
			}
			if start >= f.p.From && start > over || start.Sub(over) < hold.Least {
				return
			}
		} else if !f.hadMilk(x) {
			f.note("make-without-milk", start, "The make of %s was planned for %s, but its milk did not come: it is planned anew.", x.id, f.when(start))
			return
		}
		if t.Work > 0 && f.away(t.Who, start, start.Add(t.Work)) {
			f.note("work-while-away", start, "The %s of %s was planned for %s by %s, who was away: it is taken not to have been done.", t.Stage, x.id, f.when(start), t.Who)
			return
		}
		if f.notYetAt(x, i, start) {
			return
		}
		x.starts, x.works = append(x.starts, start), append(x.works, t.Work)
		if t.Work > 0 && start >= f.p.From.Add(-answerWithin) && !x.past {
			f.out.Unanswered = append(f.out.Unanswered, Unanswered{Batch: x.id, Cheese: x.batch.Cheese, Stage: t.Stage, Start: start, Work: t.Work, Who: t.Who})
		}
	}
}

// waits notes the next work of a batch that should have begun, where silence is no assent: it is overdue.
func (f *follower) waits(x *batch) {
	for i := len(x.starts); i < x.planned && i < len(x.recipe.Stages) && !x.past; i++ {
		t := &x.batch.Stages[i]
		since := t.Start
		if t.Overdue != 0 {
			since = t.Overdue
		}
		later := func(e *record.Entry) bool { return e.At.Add(e.Batch.Look.Or(defaultLook)) >= f.p.From }
		switch {
		case t.Work == 0:
			continue
		case since < f.p.From && t.Start >= x.since && !slices.ContainsFunc(x.entries.NotYet(t.Stage), later):
			f.out.Unanswered = append(f.out.Unanswered, Unanswered{Batch: x.id, Cheese: x.batch.Cheese, Stage: t.Stage, Start: since, Work: t.Work, Who: t.Who, Waits: true})
		}
		return
	}
}

// answerWithin is how long ago work may lie that is still to be answered.
const answerWithin = 7 * resources.Day

// answersShown is how many pieces of work that are to be answered are named.
const answersShown = 6

// carriesToAnswer lists what is taken to have been carried out of a closed place, of batches of which nobody
// has said since where they stand.
func (f *follower) carriesToAnswer(batches []*batch) {
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
			first = "; of a batch that is planned no more by its cheese, as one off the plan"
		}
		f.note("overdue", list[0].Start, "Nobody said that this began, and so it is taken not to have (unsaid: waits): %s. It is overdue. Say what was done: ripeby record%s.", schedule.Listed(names), first)
		return
	}
	f.note("to-answer", list[0].Start, "Nobody said how this went, and it is taken as done as planned: %s. Say how it was: ripeby record%s.", schedule.Listed(names), carried)
}

// away reports whether somebody was away in some of a stretch.
func (f *follower) away(who string, from, until resources.Moment) bool {
	k := &f.p.Kitchen
	i := k.PersonNumber(who)
	return i >= 0 && slices.ContainsFunc(k.People[i].Away, resources.Span{From: from, Until: until}.Overlaps)
}

// notYetAt reports whether somebody looked for a stage after it was to begin, or asked for a look
// before which it was not to, and found that the hold was not over.
func (f *follower) notYetAt(x *batch, stage int, start resources.Moment) bool {
	for _, e := range x.entries.NotYet(x.recipe.Stages[stage].Name) {
		if start < e.At.Add(e.Batch.Look.Or(defaultLook)) {
			return true
		}
	}
	return false
}

// defaultLook is how long after a look that found the hold not over the next one is, where
// nobody said.
const defaultLook = 2 * resources.Hour
