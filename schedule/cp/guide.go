package cp

import "ripeby/schedule/cp/kernel"

// guide turns a plan into values for the kernel's variables: the search begins
// near it. It gives false when the plan does not fit the slots.
func (k *asked) guide(s *ledger) ([]int32, bool) {
	values := make([]int32, k.k.Vars())
	for x := range values {
		values[x] = k.k.Min(kernel.Var(x))
	}
	taken := map[*slot]bool{}
	jobs := append([]*Job(nil), s.jobs...)
	sortJobs(jobs)
	for _, j := range jobs {
		sl := k.slotFor(j, taken)
		if sl == nil {
			return nil, false
		}
		taken[sl] = true
		k.guideSlot(values, sl, j)
	}
	for d := range k.short {
		values[k.short[d]] = int32(s.unmet[d])
	}
	for i, st := range k.stock {
		for x, d := range st.reach {
			values[st.give[x]] = int32(unitsFor(s.stocks[i].Shares, d))
		}
		values[st.leave.rank] = st.leave.at(s.stocks[i].End)
	}
	cost := s.cost()
	for p := range k.cost {
		values[k.cost[p]] = k.value(cost, p)
	}
	return values, true
}

// slotFor is the first free slot that a job can stand in.
func (k *asked) slotFor(j *Job, taken map[*slot]bool) *slot {
	for _, sl := range k.slots {
		if taken[sl] || sl.begun != j.Begun || sl.family != j.Family {
			continue
		}
		if j.Begun >= 0 || sl.due == j.End {
			return sl
		}
	}
	return nil
}

func (k *asked) guideSlot(values []int32, sl *slot, j *Job) {
	values[sl.here] = 1
	if j.Begun < 0 {
		values[sl.size] = int32(j.Mode)
		values[sl.amount] = int32(sl.modes[j.Mode].Amount / k.unit[3])
		values[sl.early] = k.last - k.g.down(j.Starts[0])
	}
	values[sl.bother] = int32(j.Bother)
	mode := k.s.modeOf(j)
	for i := sl.fixed; i < sl.acts(); i++ {
		values[sl.start[i]] = k.g.down(j.Starts[i])
		if x := sl.done[i].X; x != sl.start[i] {
			values[x] = k.g.down(j.Starts[i]) + k.g.long(mode.Acts[i].Work) - sl.done[i].Add
		}
	}
	k.picks(sl, j, func(l kernel.Lit, taken bool) { k.want(values, l, taken) })
	for x, d := range sl.reach {
		values[sl.give[x]] = int32(unitsFor(j.Shares, d))
	}
}

// pin lists what holds the statement to the plan that values from guide stand for,
// at no more than its cost; what follows from a plan is left to the kernel.
func (k *asked) pin(values []int32) []kernel.Lit {
	var out []kernel.Lit
	fix := func(xs ...kernel.Var) {
		for _, x := range xs {
			out = append(out, x.Ge(values[x]), x.Le(values[x]))
		}
	}
	each := func(lits []kernel.Lit) {
		for _, l := range lits {
			if l != k.yes {
				fix(l.B.Var())
			}
		}
	}
	for _, sl := range k.slots {
		fix(sl.here)
		if values[sl.here] == 0 {
			continue
		}
		fix(sl.size)
		fix(sl.start[sl.fixed:]...)
		fix(sl.give...)
		for i := range sl.who {
			each(sl.who[i])
		}
		for _, list := range sl.pools {
			for _, c := range list {
				each([]kernel.Lit{c.lit})
			}
		}
		for _, ls := range sl.spaces {
			each(ls)
		}
		for _, d := range sl.draws {
			each([]kernel.Lit{d.lit})
		}
	}
	for _, st := range k.stock {
		fix(st.give...)
	}
	for _, o := range k.over {
		out = append(out, o.none())
	}
	for p := range k.cost {
		out = append(out, k.cost[p].Le(values[k.cost[p]]))
	}
	return out
}

// picks tells of every literal for a worker, pool, space or intake of a slot whether the
// job takes it.
func (k *asked) picks(sl *slot, j *Job, tell func(l kernel.Lit, taken bool)) {
	mode := k.s.modeOf(j)
	for i := sl.fixed; i < sl.acts(); i++ {
		for w, l := range sl.who[i] {
			tell(l, mode.Acts[i].Workers[w] == j.Workers[i])
		}
	}
	for r := range mode.Runs {
		for _, c := range sl.pools[r] {
			tell(c.lit, mode.Runs[r].Choices[j.Choices[r]].Pool == c.pool)
		}
	}
	for r := range mode.Stays {
		for x, l := range sl.spaces[r] {
			tell(l, mode.Stays[r].Spaces[x] == j.Stays[r].Space)
		}
	}
	for _, d := range sl.draws {
		tell(d.lit, d.intake == j.Intake)
	}
}

func unitsFor(shares []Share, demand int) int {
	n := 0
	for _, sh := range shares {
		if sh.Demand == demand {
			n += sh.Units
		}
	}
	return n
}
