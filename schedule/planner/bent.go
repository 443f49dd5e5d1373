package planner

import (
	"maps"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// chainOf is the chain that a job follows: its recipe's, or, when it is under way,
// the recipe's bent to what is known of its running stage.
func (pl *Stated) chainOf(j *problem.Job) *chain {
	if j.Begun >= 0 {
		return pl.under[j.Begun].chain
	}
	return pl.chains[j.Family]
}

// chainUnderWay bends a recipe's chain to a batch under way. A running hold that
// stages without work follow cannot end before the planning start, since those are
// still to come, nor off the grid, however it began. Stages without a hold may run late: then their boxes stand in the cold.
func (pl *Stated) chainUnderWay(u *underWay) *chain {
	c := *pl.chains[u.family]
	k := len(u.starts) - 1
	if k < 0 {
		return &c
	}
	c.recipe = u.recipe
	done := u.starts[k].Add(pl.workUnderWay(u, k))
	if h := needs.HoldAt(u.recipe, k, &pl.p.Kitchen, done); h != c.holds[k].Hold { // as a look found it, or the room is
		c.holds = append([]hold(nil), c.holds...)
		c.holds[k].Hold = h
	}
	if c.spells[k] != nil {
		c.spells = maps.Clone(c.spells)
		delete(c.spells, k)
	}
	if c.acts[c.actOf[k]].last > k {
		c.holds = append([]hold(nil), c.holds...)
		c.holds[k].soonest = resources.CeilTo(max(pl.p.From, done.Add(c.holds[k].Least)), pl.p.Kitchen.Step).Sub(done)
	}
	for i := k; i < len(u.recipe.Stages)-1; i++ {
		if c.acts[c.actOf[i]].last == i || i == k {
			c.standWhereLate(i, &pl.p.Kitchen)
		}
	}
	return &c
}

// standWhereLate has the boxes of a stage without a hold stand where it is, if they do not
// already.
func (c *chain) standWhereLate(i int, k *resources.Kitchen) {
	st := &c.recipe.Stages[i]
	box := needs.BoxOf(c.recipe, st)
	if st.At.Kind == schedule.AtRoom || box == nil || c.holds[i].Most > 0 {
		return
	}
	at := 0
	for at < len(c.stays) && c.stays[at].stage < i {
		at++
	}
	if at > 0 && c.stays[at-1].last >= c.actOf[i] || at < len(c.stays) && c.stays[at].stage == i {
		return
	}
	own := stay{c.actOf[i], c.actOf[i], i, box, needs.Places(k, st.At)}
	c.stays = append(append(append([]stay(nil), c.stays[:at]...), own), c.stays[at:]...)
}

// endedNowOf is the bother of a batch's holds that were over by the planning start, but not
// before it, and how late they were: they still count, and nothing can be done about them.
func (pl *Stated) endedNowOf(u *underWay) (bother, late int64) {
	for i := 0; i+1 < len(u.starts); i++ {
		if next := u.starts[i+1]; next >= pl.p.From {
			gap := next.Sub(u.starts[i])
			work := min(gap, pl.workUnderWay(u, i))
			long, h := gap-work, pl.chains[u.family].at(i, u.starts[i].Add(work)).holds[i]
			bother, late = bother+int64(h.bother(int(long))), late+h.Late(long)
		}
	}
	return bother, late
}
