package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

// slips writes how early and how late each stage may start. A stage that nobody is
// there for can slip as far as its neighbours allow.
func (pl *Stated) slips(b *schedule.Batch, j *problem.Job) {
	if j.SlipsCut {
		pl.note("slips-cut", 0, "How far the stages of %s (%s) may slip was not told to the end: some may begin sooner or later than the plan says.", b.ID, b.Cheese)
	}
	c := pl.chainOf(j)
	for i := range b.Stages {
		t := &b.Stages[i]
		t.SlipFrom, t.SlipUntil = t.Start, t.Start
		if t.Begun {
			continue
		}
		a := c.actOf[i]
		if c.acts[a].first == i {
			t.SlipFrom = min(t.Start, pl.clock.moment(j.Soonest[a]))
			t.SlipUntil = max(t.Start, pl.clock.moment(j.Slips[a]))
			continue
		}
		pl.slipsBetween(c, b, j, i)
	}
}

// slipsBetween sets the slips of a stage that is not the first of its activity: as far
// as the hold before it and the next activity allow. The holds from it on to the next
// activity change with it; they are within their limits at both ends.
func (pl *Stated) slipsBetween(c *chain, b *schedule.Batch, j *problem.Job, i int) {
	t, before := &b.Stages[i], &b.Stages[i-1]
	worked, step := before.Start.Add(before.Work), pl.clock.step
	c = c.at(i-1, worked)
	first := resources.CeilTo(max(pl.p.From, worked.Add(c.holds[i-1].Least)), step)
	last := resources.FloorTo(worked.Add(c.holds[i-1].Most), step)
	least, most := resources.Minutes(0), resources.Minutes(0)
	for k := i; k <= c.acts[c.actOf[i]].last; k++ {
		least, most = least+c.holds[k].Least, most+c.holds[k].Most
	}
	a := c.actOf[i] + 1 // there is one: the last stage is an activity by itself
	next := pl.clock.moment(j.Slips[a])
	t.SlipUntil = max(t.Start, min(last, next.Add(-least)))
	// The next activity as soon as it may be, or where it is.
	for _, next := range []resources.Moment{pl.clock.moment(j.Soonest[a]), pl.clock.moment(j.Starts[a])} {
		if at := max(first, next.Add(-most)); next.Sub(at) >= least {
			t.SlipFrom = min(t.SlipFrom, at)
		}
	}
}
