package main

import (
	"context"

	"ripeby/cmd/cpbench/psplib"
	"ripeby/cmd/cpbench/rules"
	"ripeby/schedule/cp/kernel"
)

// solveWanted proves the least cost of missing wanted times within counted work.
func solveWanted(ctx context.Context, in *psplib.Dated, budget int64) answer {
	s := kernel.New()
	a := answer{status: kernel.Impossible}
	starts := make([]kernel.Var, len(in.Lengths))
	var order []kernel.View
	for i := range starts {
		starts[i] = s.NewVar(0, int32(in.Most))
		order = append(order, starts[i].Up())
	}
	s.Prefer(order)
	if !state(s, &in.Instance, starts, false) {
		return a
	}
	var costs []rules.Excess
	for i, d := range in.Dues {
		if d.Late > 0 {
			costs = append(costs, rules.Excess{At: starts[i].Up(), Over: int32(d.At), Weight: int32(d.Late)})
		}
		if d.Early > 0 {
			costs = append(costs, rules.Excess{At: starts[i].Down(), Over: int32(-d.At), Weight: int32(d.Early)})
		}
	}
	l := rules.NewLift(s, costs, func(v int32) {
		a.found, a.value, a.starts = true, int(v), valuesOf(s, starts)
	})
	a.status = l.Minimize(ctx, budget)
	a.bound = int(l.Least())
	a.counted = s.Counted
	return a
}
