package follows

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule/needs"
	"ripeby/schedule/record"
	"ripeby/schedule/settime"
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
			over := x.starts[i-1].Add(x.works[i-1])
			hold := needs.HoldAt(x.recipe, i-1, &f.p.Kitchen, over)
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
			f.toBeAnswered(x, t, start, false)
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
		switch {
		case t.Work == 0:
			continue
		case since < f.p.From && t.Start >= x.since && !f.notYetAt(x, i, f.p.From.Add(-1)): // nobody looks again from now on
			f.toBeAnswered(x, t, since, true)
		}
		return
	}
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
		if start < f.lookFrom(x, stage, e) {
			return true
		}
	}
	return false
}

// defaultLook is how long after a look that found the hold not over the next one is, where
// nobody said, and the recipe does not say when it is ready.
const defaultLook = 2 * resources.Hour

// lookFrom is from when on the hold before a stage is looked at again of which an entry says that it is not over:
// after so long as was said, else when half of those are ready that are not yet, by its recipe and the room.
func (f *follower) lookFrom(x *batch, stage int, e *record.Entry) resources.Moment {
	if e.Batch.Look.Given || stage == 0 || stage > len(x.starts) {
		return e.At.Add(e.Batch.Look.Or(defaultLook))
	}
	began := x.starts[stage-1].Add(x.works[stage-1])
	hold := x.recipe.Stages[stage-1].Hold
	if left, ok := settime.Left(hold, f.p.Kitchen.RoomOn(began.DateIn(f.p.Kitchen.Zone)), e.At.Sub(began)); ok {
		return e.At.Add(left)
	}
	return e.At.Add(defaultLook)
}
