package follows

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// Somebody looked, and the hold was not over: it is looked at again. The look is the earliest
// moment on the grid, so long after, in the hours of a person who may do the stage that comes, and
// the hold lasts until then at the least:
//
//	hold      ├──── least ── best ─────── most ┤
//	not yet                       ×   look
//	then      ├─────────── least = best ┤ ── most ──┤      as much give after it as before
//
// No more than that follows of the cheese: what a slow set means is the maker's to judge.

// asked is a look that somebody asked for.
type asked struct {
	x       *batch
	running int // the stage whose hold runs
	from    resources.Moment
	at      resources.Moment // when
}

// lookLong is how long a look takes, and lookWithin how far ahead somebody's hours are sought.
const (
	lookLong   = resources.Minutes(5)
	lookWithin = 21 * resources.Day
)

// looks finds the looks that are asked for, and bends the holds that run. Looks of one person queue
// by the moment asked for, then by id.
func (f *follower) looks(batches []*batch) {
	var list []asked
	for _, x := range batches {
		if a, ok := f.askedFor(x); ok {
			list = append(list, a)
		}
	}
	slices.SortStableFunc(list, func(a, b asked) int {
		if c := cmp.Compare(a.from, b.from); c != 0 {
			return c
		}
		return cmp.Compare(a.x.id, b.x.id)
	})
	free := f.freeHours(batches)
	for _, a := range list {
		l, ok := f.lookFor(a, free)
		if !ok {
			continue // nobody who may is ever there: the stage comes when it can
		}
		began := a.x.starts[a.running].Add(a.x.works[a.running])
		f.p.Held = append(f.p.Held, schedule.Held{Batch: a.x.id, Stage: a.running, Hold: f.heldSo(a.x.recipe.Stages[a.running].Hold, began, l.Start.Sub(began))})
		if l.Start >= f.p.From {
			f.p.Looks = append(f.p.Looks, l)
			f.note("look", l.Start, "%s is not ready to %s yet: %s looks again %s, and the work comes after that.", l.Batch, l.Stage, l.Who, f.when(l.Start))
		}
	}
	slices.SortStableFunc(f.p.Looks, func(a, b schedule.Look) int { return cmp.Compare(a.Start, b.Start) })
}

// heldSo is a hold that began at a moment and lasts so long at the least, by its recipe's limits as
// they are for the room on that day.
func (f *follower) heldSo(written *schedule.Hold, began resources.Moment, held resources.Minutes) schedule.Hold {
	var h schedule.Hold
	if written != nil {
		h = written.In(needs.RoomAt(&f.p.Kitchen, began))
	}
	best := h.Best
	if !h.HasBest {
		best = h.Least
	}
	give := h.Most - best
	out := schedule.Hold{Least: max(h.Least, held), HasBest: h.HasBest, AsIs: true}
	best = max(best, out.Least)
	out.Most = max(h.Most, best+give)
	if h.HasBest {
		out.Best = best
	}
	return out
}

// askedFor is the look that a batch asks for: the last one at the stage that comes next.
func (f *follower) askedFor(x *batch) (asked, bool) {
	k := len(x.starts) - 1
	if x.recipe == nil || k < 0 || k+1 >= len(x.recipe.Stages) {
		return asked{}, false
	}
	e := x.entries.NotYet(x.recipe.Stages[k+1].Name).Latest()
	if e == nil || e.At < x.starts[k] {
		return asked{}, false
	}
	return asked{x, k, f.lookFrom(x, k+1, e), e.At}, true
}

// lookFor is the earliest moment at which somebody who may do the stage can look; of several at one
// moment the first listed. It takes that time from what is free.
func (f *follower) lookFor(a asked, free [][]resources.Span) (schedule.Look, bool) {
	step := f.p.Kitchen.Step
	long := resources.CeilLength(lookLong, step)
	next := &a.x.recipe.Stages[a.running+1]
	best, who := resources.Moment(-1), -1
	for _, i := range needs.Who(next, &f.p.Kitchen) {
		for _, s := range free[i] {
			m := resources.CeilTo(max(s.From, a.from), step)
			if m.Add(long) <= s.Until && (who < 0 || m < best) {
				best, who = m, i
			}
		}
	}
	if who < 0 {
		return schedule.Look{}, false
	}
	free[who] = resources.Subtract(free[who], []resources.Span{{From: best, Until: best.Add(long)}})
	return schedule.Look{Batch: a.x.id, Stage: next.Name, Start: best, Minutes: long, Who: f.p.Kitchen.People[who].Name, Asked: a.at}, true
}

// freeHours are each person's hours about the planning start without their rounds and the work that
// they have begun.
func (f *follower) freeHours(batches []*batch) [][]resources.Span {
	k := &f.p.Kitchen
	within := resources.Span{From: f.p.From.Add(-lookWithin), Until: f.p.From.Add(lookWithin)}
	taken := make([][]resources.Span, len(k.People))
	for _, r := range k.Rounds(within) {
		taken[r.Person] = append(taken[r.Person], r.Span)
	}
	for _, x := range batches {
		for i := range x.starts {
			who := k.PersonNumber(x.batch.Stages[i].Who)
			if who >= 0 && x.works[i] > 0 {
				taken[who] = append(taken[who], resources.Span{From: x.starts[i], Until: x.starts[i].Add(x.works[i])})
			}
		}
	}
	out := make([][]resources.Span, len(k.People))
	for i := range k.People {
		out[i] = resources.Subtract(k.People[i].Windows(within, k.Zone), taken[i])
	}
	return out
}
