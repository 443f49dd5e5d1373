package cp

import "ripeby/schedule/cp/global"

// addCosts adds the six parts of the cost as sums over what there may be.
func (k *asked) addCosts() {
	var parts [6][]global.Term
	most := [6]int64{}
	put := func(part int, t global.Term, high int64) {
		parts[part] = append(parts[part], t)
		most[part] += t.Times * high
	}
	for d := range k.m.Demands {
		dm := &k.m.Demands[d]
		part := 1
		if dm.Promised {
			part = 0
		}
		if dm.Value > 0 {
			put(part, global.Term{View: k.short[d].Up(), Times: dm.Value / k.unit[part]}, int64(dm.Units))
		}
	}
	horizon := k.last
	for _, sl := range k.slots {
		if sl.begun < 0 {
			put(2, global.Term{View: sl.here.Up(), Times: 1}, 1)
			k.addAmount(sl)
			k.addEarly(sl, horizon)
			put(3, global.Term{View: sl.amount.Up(), Times: 1}, int64(k.k.Max(sl.amount)))
			put(5, global.Term{View: sl.early.Up(), Times: 1}, int64(horizon))
		}
		put(4, global.Term{View: sl.bother.Up(), Times: 1}, plenty)
	}
	for _, o := range k.over {
		put(2, global.Term{View: o.jobs.Up(), Times: 1}, int64(k.k.Max(o.jobs)))
		put(3, global.Term{View: o.amount.Up(), Times: 1}, int64(k.k.Max(o.amount)))
	}
	k.early = int64(k.g.tick(horizon) - k.m.From)
	for p := range parts {
		k.cost[p] = k.k.NewVar(0, int32(min(most[p], 1<<30)))
		global.AddLinear(k.k, append(k.bySubtotals(parts[p]), global.Term{View: k.cost[p].Down(), Times: 1}), 0)
	}
	global.AddLinear(k.k, append(k.jobs, global.Term{View: k.cost[2].Down(), Times: 1}), 0)
}

// units are what the parts count in: the greatest number that divides all that
// each may be.
func (k *asked) units() [6]int64 {
	u := [6]int64{2: 1, 4: 1, 5: int64(k.m.Step)}
	for d := range k.m.Demands {
		part := 1
		if k.m.Demands[d].Promised {
			part = 0
		}
		u[part] = gcd(u[part], k.m.Demands[d].Value)
	}
	for f := range k.m.Families {
		for m := range k.m.Families[f].Modes {
			u[3] = gcd(u[3], k.m.Families[f].Modes[m].Amount)
		}
	}
	for p := range u {
		u[p] = max(u[p], 1)
	}
	return u
}

// addAmount adds a job's amount, 0 while it is not made.
func (k *asked) addAmount(sl *slot) {
	last := len(sl.modes) - 1
	sl.amount = k.k.NewVar(0, int32(sl.modes[last].Amount/k.unit[3]))
	for m, mode := range sl.modes {
		k.k.AddClause(sl.present().Not(), sl.size.Le(int32(m)-1), sl.amount.Ge(int32(mode.Amount/k.unit[3])))
	}
}

// addEarly adds how many steps before everything's end a job starts, 0 while it is
// not made.
func (k *asked) addEarly(sl *slot, horizon int32) {
	sl.early = k.k.NewVar(0, horizon)
	global.AddLinear(k.k, []global.Term{{View: sl.early.Down(), Times: 1}, {View: sl.start[0].Down(), Times: 1}}, -int64(horizon), sl.present())
}

// value is a part of a cost as the kernel counts it.
func (k *asked) value(c Cost, part int) int32 {
	v := c.parts()[part]
	if part == 5 {
		// early = sum of (horizon - start), in steps: each job's start is on the grid.
		return int32((v + c.Jobs*k.early) / k.unit[5])
	}
	return int32(v / k.unit[part])
}

// lifted is what the kernel counts of a part as the cost does, for so many jobs.
func (k *asked) lifted(part int, v int32, jobs int64) int64 {
	if part == 5 {
		return int64(v)*k.unit[5] - jobs*k.early
	}
	return int64(v) * k.unit[part]
}
