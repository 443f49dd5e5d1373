package main

import (
	"context"

	"ripeby/cmd/cpbench/psplib"
	"ripeby/cmd/cpbench/rules"
	"ripeby/schedule/cp/kernel"
)

// project states an instance to the kernel and gives the starts of its tasks; false when the statement alone is contradictory.
func project(in *psplib.Instance, cal calendar, edge bool) (*kernel.Solver, []kernel.Var, bool) {
	s := kernel.New()
	horizon := in.Horizon(cal.period)
	starts := make([]kernel.Var, len(in.Lengths))
	var order []kernel.View
	for i := range starts {
		starts[i] = s.NewVar(0, int32(horizon))
		order = append(order, starts[i].Up())
	}
	ok := s.AddClause(starts[0].Le(0))
	ok = state(s, in, starts, edge) && ok
	for i, x := range starts {
		if cal.period > 0 && in.Lengths[i] > 0 && in.Demands[i][0] > 0 {
			rules.AddHoles(s, []kernel.Var{x}, shut(cal, in.Lengths[i], horizon))
		}
	}
	s.Prefer(order)
	return s, starts, ok
}

// state states the lags and capacities of an instance; false when they alone are
// contradictory.
func state(s *kernel.Solver, in *psplib.Instance, starts []kernel.Var, edge bool) bool {
	ok := true
	for _, l := range in.Lags {
		ok = ok && s.AddArc(starts[l.From], starts[l.To], int32(l.Least))
	}
	for r, capacity := range in.Capacity {
		var list []rules.Interval
		for i := range starts {
			demand := in.Demands[i][r]
			if demand > 0 && in.Lengths[i] > 0 {
				list = append(list, rules.Interval{Start: starts[i], Length: int32(in.Lengths[i]), Demand: int32(demand)})
				ok = ok && demand <= capacity
			}
		}
		rules.AddTimetable(s, list, int32(capacity))
		if edge {
			rules.AddEdgeFind(s, list, int32(capacity))
		}
	}
	return ok
}

// shut is the starts from which work of a length does not lie in one window.
func shut(cal calendar, length, horizon int) []rules.Hole {
	var out []rules.Hole
	for day := 0; day <= horizon; day += cal.period {
		last := max(day+cal.on-length, day-1)
		out = append(out, rules.Hole{From: int32(last + 1), Until: int32(day + cal.period)})
	}
	return out
}

// solve proves the least makespan of an instance within counted work.
func solve(ctx context.Context, in *psplib.Instance, cal calendar, budget int64, edge bool) answer {
	s, starts, ok := project(in, cal, edge)
	a := answer{status: kernel.Impossible}
	if ok {
		end := starts[len(starts)-1]
		a.status = s.Minimize(ctx, end, budget, func(v int32) {
			a.found, a.value, a.starts = true, int(v), valuesOf(s, starts)
		})
		a.bound = int(s.Min(end))
	}
	a.counted = s.Counted
	return a
}

// valuesOf gives the values of variables in the latest solution.
func valuesOf(s *kernel.Solver, list []kernel.Var) []int {
	var out []int
	for _, x := range list {
		out = append(out, int(s.Value(x)))
	}
	return out
}
