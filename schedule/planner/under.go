package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// addUnderWay states what has begun: each batch a job of its own, its first
// activities fixed.
func (pl *Stated) addUnderWay() {
	for _, u := range pl.under {
		pl.model.Begun = append(pl.model.Begun, pl.begunOf(u))
	}
}

func (pl *Stated) begunOf(u *underWay) problem.Begun {
	c := u.chain
	sz := u.size()
	k := 0
	if n := len(u.starts); n > 0 {
		k = c.actOf[n-1] + 1
	}
	b := problem.Begun{Family: u.family, Mode: pl.modeUnderWay(u, c, sz, k)}
	if k < len(c.acts) {
		b.Latest = pl.latest(u, &b.Mode)
	}
	for a := 0; a < k; a++ {
		b.Starts = append(b.Starts, pl.clock.tick(u.starts[c.acts[a].first]))
		b.Workers = append(b.Workers, pl.personUnderWay(u, c.acts[a].first))
	}
	b.Choices = make([]int, len(b.Mode.Runs))
	b.Homes = make([]int, len(c.stays))
	for r := range b.Homes {
		b.Homes[r] = -1
		if st := c.stays[r]; st.first < k && k-1 <= st.last {
			b.Homes[r] = pl.homeUnderWay(u, st)
			b.Prefer = pl.stoodUnderWay(u, needs.Boxes(st.box, u.left))
		}
	}
	return b
}

// modeUnderWay is the batch's own chain: pots as they are, the running hold by
// what has passed of it.
func (pl *Stated) modeUnderWay(u *underWay, c *chain, sz needs.Size, k int) problem.Mode {
	lags := pl.lagsOf(u.family)
	m := problem.Mode{Amount: int64(u.litres), Units: u.sellable()}
	if u.left <= 0 {
		m.Units = 0
	}
	for a, ac := range c.acts {
		st := &c.recipe.Stages[ac.first]
		activity := problem.Activity{Work: int(needs.Work(st, sz, pl.clock.step)), Lag: lags[a]}
		if a < k {
			activity.Work = int(pl.workUnderWay(u, ac.first))
		}
		if activity.Work > 0 {
			activity.Workers = needs.Who(st, &pl.p.Kitchen)
		}
		if a == k-1 && a < len(c.acts)-1 {
			activity.Lag = pl.runningLag(u, ac, activity.Work)
		}
		m.Acts = append(m.Acts, activity)
	}
	for _, r := range c.runs {
		choices, amount := pl.poolsFor(c, r, sz)
		if r.first < k && r.Use.Kind == schedule.UsePot {
			choices = pl.potUnderWay(u, r, choices)
		}
		switch { // the recipe or the litres no longer fit the kitchen
		case len(choices) == 0 && r.first < k:
			choices = pl.anyPot()
		case len(choices) == 0:
			choices = pl.noPot()
		}
		m.Runs = append(m.Runs, problem.Run{First: r.first, Last: r.last, Amount: amount, Choices: choices})
	}
	for _, s := range c.stays {
		m.Stays = append(m.Stays, problem.Stay{First: s.first, Last: s.last, Kind: pl.kindOf[s.box.Name],
			Boxes: needs.Boxes(s.box, sz.Pieces), Spaces: s.places})
	}
	return m
}

// running is the stage of an activity that runs, how many minutes of the activity's lag were over
// when its hold began, and how far past the grid that was.
func (pl *Stated) running(u *underWay, ac act, work int) (stage, past, phase int) {
	stage = len(u.starts) - 1
	worked := u.starts[ac.first].Add(resources.Minutes(work))
	done := u.starts[stage]
	if stage == ac.first {
		done = worked
	}
	return stage, int(done.Sub(worked)), pl.clock.phase(pl.clock.tick(done))
}

// potUnderWay is the pot that a batch is in: begun.yaml's, the earlier plan's, or
// the first that is large enough. A recipe that names its pot leaves no choice.
func (pl *Stated) potUnderWay(u *underWay, r run, fit []problem.PoolChoice) []problem.PoolChoice {
	name := r.Use.Name
	if name == "" {
		name = u.pot
	}
	if name == "" && u.earlier != nil && r.First < len(u.earlier.Stages) {
		for _, o := range u.earlier.Stages[r.First].Uses {
			if pl.isPot(o.Thing) {
				name = o.Thing
			}
		}
	}
	if pool, ok := pl.poolNamed(name); ok {
		return []problem.PoolChoice{pool}
	}
	return fit[:min(1, len(fit))]
}

// isPot reports whether a name is that of a pot.
func (pl *Stated) isPot(name string) bool {
	pool, ok := pl.poolOf[name]
	return ok && pl.things[pool].IsPot()
}

// anyPot stands in where a begun batch uses kit that the kitchen no longer has.
func (pl *Stated) anyPot() []problem.PoolChoice {
	if len(pl.model.Pools) == 0 {
		pl.model.Pools = append(pl.model.Pools, problem.Pool{Capacity: problem.Infinite})
	}
	return []problem.PoolChoice{{Pool: 0}}
}

// noPot stands for kit that a batch under way still needs and the kitchen has not:
// there is none of it, so the batch cannot go on.
func (pl *Stated) noPot() []problem.PoolChoice {
	pl.model.Pools = append(pl.model.Pools, problem.Pool{})
	return []problem.PoolChoice{{Pool: len(pl.model.Pools) - 1}}
}

// personUnderWay is who did a begun stage's work: the earlier plan's person, else
// the first who may; -1 for none.
func (pl *Stated) personUnderWay(u *underWay, stage int) int {
	st := &u.recipe.Stages[stage]
	if pl.workUnderWay(u, stage) == 0 {
		return -1
	}
	if u.earlier != nil && stage < len(u.earlier.Stages) {
		if who := pl.p.Kitchen.PersonNumber(u.earlier.Stages[stage].Who); who >= 0 {
			return who
		}
	}
	if w := needs.Who(st, &pl.p.Kitchen); len(w) > 0 {
		return w[0]
	}
	return -1
}

// didIt is the name of who did a begun stage's work: the earlier plan's, though that
// person may be gone from the kitchen or go by another name now.
func (u *underWay) didIt(stage int, now string) string {
	if u.earlier != nil && stage < len(u.earlier.Stages) && u.earlier.Stages[stage].Who != "" {
		return u.earlier.Stages[stage].Who
	}
	return now
}

// homeUnderWay is the place of a running stay: begun.yaml's, the earlier plan's,
// or the first that fits.
func (pl *Stated) homeUnderWay(u *underWay, s stay) int {
	if n := pl.placeNamed(u.at); n >= 0 {
		return n
	}
	// The stage that runs may have been carried elsewhere than where the stay began.
	if running := len(u.starts) - 1; u.earlier != nil && s.stage < len(u.earlier.Stages) {
		if n := pl.placeNamed(u.earlier.Stages[max(s.stage, min(running, len(u.earlier.Stages)-1))].At); n >= 0 {
			return n
		}
	}
	if len(s.places) > 0 {
		return s.places[0]
	}
	return -1
}

// stoodUnderWay is where the boxes of the running stage stood in the earlier plan.
func (pl *Stated) stoodUnderWay(u *underWay, boxes int) []problem.Standing {
	n := len(u.starts) - 1
	if u.earlier == nil || n < 0 || n >= len(u.earlier.Stages) {
		return nil
	}
	return pl.standings(u.earlier.Stages[n].BoxesAt, boxes)
}
