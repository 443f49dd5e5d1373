package planner

import (
	"ripeby/resources"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// What has begun may run late. Of stages that nobody is there for, which come by themselves, only
// the last hold before the next work does, and only when those before it are as long as they may
// be: else somebody would be late for what needs nobody.

// longestBefore is how long the holds of stages from to last-1 can be together, the first counted
// from a moment that is phase minutes past the grid, on which it ends, and what they cost then.
func (c *chain) longestBefore(from, last, phase, step int) (long int, cost int32) {
	for i := from; i < last; i++ {
		h := c.holds[i].longest()
		if i == from {
			h -= (phase + h) % step
		}
		long, cost = long+h, cost+c.holds[i].bother(h)
	}
	return long, cost
}

// lateFrom is how late the holds before the last are when they are so long: that of the first, if
// it cannot end in time.
func (c *chain) lateFrom(from, last, phase, step int) int32 {
	if from == last {
		return 0
	}
	h := c.holds[from].longest()
	return c.late(from, h-(phase+h)%step)
}

// late is how late a stage's hold of so many minutes is, as the engine counts it: what can end in
// time does, so of plans that are equally late the one with fewer holds past their most is better.
// A tenth counts as more than all the holds that there are, and each that is past its most as one.
func (c *chain) late(stage, minutes int) int32 {
	h := c.holds[stage]
	if resources.Minutes(minutes) <= h.Most {
		return 0
	}
	return int32(h.Late(resources.Minutes(minutes)))*c.lateUnit + 1
}

// pastOf gives how late the holds of stages from to last are, of which past minutes of an
// activity's lag come before, and what they cost, when they go on longer than they may.
func (c *chain) pastOf(from, last, past, phase, step int) *problem.Beyond {
	before, cost := c.longestBefore(from, last, phase, step)
	late, h := c.lateFrom(from, last, phase, step), c.holds[last]
	return &problem.Beyond{Of: func(lag int) (int32, int32) {
		long := lag - past - before
		return late + c.late(last, long), cost + h.bother(long)
	}}
}

// countLate has all that is under way count lateness alike.
func (pl *Stated) countLate() {
	pl.lateUnit = 1
	for _, u := range pl.under {
		pl.lateUnit += int32(len(u.recipe.Stages))
	}
	for _, c := range pl.chains {
		c.lateUnit = pl.lateUnit
	}
	for _, u := range pl.under {
		u.chain.lateUnit = pl.lateUnit
	}
}

// lateOf is the engine's lateness in tenths.
func (pl *Stated) lateOf(c problem.Cost) int64 { return c.Late / int64(pl.lateUnit) }

// latest are the latest starts of the activities of a batch under way: the next stage to come begins
// within the patience, or when the hold that runs is over at the latest; each later one no
// longer after it than the stages between take.
func (pl *Stated) latest(u *underWay, m *problem.Mode) []int {
	c, n := u.chain, len(u.starts)
	at := pl.p.From.Add(needs.Patience)
	if n > 0 {
		at = max(at, u.starts[n-1].Add(pl.workUnderWay(u, n-1)+c.holds[n-1].Most))
	}
	out := make([]int, len(c.acts))
	for i := n; i < len(c.recipe.Stages); i++ {
		a := c.actOf[i]
		if c.acts[a].first == i {
			out[a] = pl.clock.tick(at)
			at = at.Add(resources.Minutes(m.Acts[a].Work))
		}
		at = at.Add(c.holds[i].Most)
	}
	return out
}
