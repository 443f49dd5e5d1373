package statement

import (
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// addCosts adds the parts of the cost as sums over what there may be, which are stated when they are
// summed up.
func (k *Statement) addCosts() {
	var parts [problem.CostParts][]global.Term
	most := [problem.CostParts]int64{}
	put := func(part int, t global.Term, high int64) {
		parts[part] = append(parts[part], t)
		most[part] += t.Times * high
	}
	for d := range k.Model.Demands {
		dm := &k.Model.Demands[d]
		if part := dm.Part(); dm.Value > 0 {
			put(part, global.Term{View: k.Short[d].Up(), Times: dm.Value / k.unit[part]}, int64(dm.Units))
		}
	}
	horizon := k.last
	for _, sl := range k.Slots {
		if sl.Begun < 0 {
			put(problem.PartJobs, global.Term{View: sl.Here.Up(), Times: 1}, 1)
			k.addAmount(sl)
			k.addEarly(sl, horizon)
			put(problem.PartAmount, global.Term{View: sl.Amount.Up(), Times: 1}, int64(k.Kernel.Max(sl.Amount)))
			put(problem.PartEarly, global.Term{View: sl.Early.Up(), Times: 1}, int64(horizon))
		}
		put(problem.PartPenalty, global.Term{View: sl.Penalty.Up(), Times: 1}, plenty)
		k.put(problem.PartPenalty, sum{nothing: []kernel.Lit{sl.Present(), sl.Penalty.Le(0)}})
		if sl.left != k.Zero {
			put(problem.PartStuck, global.Term{View: sl.left.Up(), Times: 1}, 1)
		}
		if sl.Late != k.Zero {
			put(problem.PartLate, global.Term{View: sl.Late.Up(), Times: 1}, plenty)
		}
	}
	if k.Model.Calm() {
		k.addTold(put)
	}
	for _, o := range k.Over {
		put(problem.PartJobs, global.Term{View: o.Jobs.Up(), Times: 1}, int64(k.Kernel.Max(o.Jobs)))
		put(problem.PartAmount, global.Term{View: o.Amount.Up(), Times: 1}, int64(k.Kernel.Max(o.Amount)))
		penalty, latest := o.least()
		put(problem.PartPenalty, global.Term{View: o.Jobs.Up(), Times: int64(penalty)}, int64(k.Kernel.Max(o.Jobs)))
		put(problem.PartEarly, global.Term{View: o.Jobs.Up(), Times: int64(max(horizon-latest, 0))}, int64(k.Kernel.Max(o.Jobs)))
	}
	k.early = int64(k.Grid.Tick(horizon) - k.Model.From)
	for b := range k.Model.Begun {
		if k.Model.Begun[b].Left != nil {
			put(problem.PartStuck, global.Term{View: k.Yes.B, Times: 1}, 1)
		}
	}
	for p := range parts {
		k.Cost[p] = k.Kernel.NewVar(0, int32(min(most[p], 1<<30)))
		k.put(p, sum{terms: append(k.bySubtotals(p, parts[p]), global.Term{View: k.Cost[p].Down(), Times: 1})})
	}
	k.put(problem.PartJobs, sum{terms: append(k.jobs, global.Term{View: k.Cost[problem.PartJobs].Down(), Times: 1})})
}

// units are what the parts count in: the greatest number that divides all that
// each may be.
func (k *Statement) units() [problem.CostParts]int64 {
	u := [problem.CostParts]int64{problem.PartStuck: 1, problem.PartLate: 1, problem.PartJobs: 1, problem.PartPenalty: 1, problem.PartEarly: int64(k.Model.Step)}
	for d := range k.Model.Demands {
		part := k.Model.Demands[d].Part()
		u[part] = problem.GCD(u[part], k.Model.Demands[d].Value)
	}
	for f := range k.Model.Families {
		for m := range k.Model.Families[f].Modes {
			u[problem.PartAmount] = problem.GCD(u[problem.PartAmount], k.Model.Families[f].Modes[m].Amount)
		}
	}
	for p := range u {
		u[p] = max(u[p], 1)
	}
	return u
}

// addAmount adds a job's amount, 0 while it is not made.
func (k *Statement) addAmount(sl *Slot) {
	last := len(sl.Modes) - 1
	sl.Amount = k.Kernel.NewVar(0, int32(sl.Modes[last].Amount/k.unit[problem.PartAmount]))
	for m, mode := range sl.Modes {
		k.Kernel.AddClause(sl.Present().Not(), sl.Size.Le(int32(m)-1), sl.Amount.Ge(int32(mode.Amount/k.unit[problem.PartAmount])))
	}
}

// addEarly adds how many steps before everything's end a job starts, 0 while it is
// not made.
func (k *Statement) addEarly(sl *Slot, horizon int32) {
	sl.Early = k.Kernel.NewVar(0, horizon)
	k.put(problem.PartEarly, sum{[]global.Term{{View: sl.Early.Down(), Times: 1}, {View: sl.Start[0].Down(), Times: 1}}, -int64(horizon), []kernel.Lit{sl.Present()}, []kernel.Lit{sl.Present(), sl.Early.Le(0)}})
}

// Value is a part of a cost as the kernel counts it.
func (k *Statement) Value(c problem.Cost, part int) int32 {
	v := c.Parts()[part]
	if part == problem.PartEarly {
		// early = sum of (horizon - start), in steps: each job's start is on the grid.
		return int32((v + c.Jobs*k.early) / k.unit[problem.PartEarly])
	}
	return int32(v / k.unit[part])
}

// Lifted is what the kernel counts of a part as the cost does, for so many jobs.
func (k *Statement) Lifted(part int, v int32, jobs int64) int64 {
	if part == problem.PartEarly {
		return int64(v)*k.unit[problem.PartEarly] - jobs*k.early
	}
	return int64(v) * k.unit[part]
}
