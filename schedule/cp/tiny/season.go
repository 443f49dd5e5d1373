package tiny

import (
	"math/rand/v2"

	"ripeby/schedule/cp/problem"
)

// Season is an invented kitchen with n deliveries: two makers with day limits, two
// pots, moulds, one counted and one measured store, three kinds of chain.
func Season(seed uint64, n int) *problem.Model {
	r := rand.New(rand.NewPCG(seed, 1))
	const day = 24 * 12 // ticks of five minutes
	m := &problem.Model{Step: 1, Horizon: day * (12 + n), FitFloor: LinePacking}
	for w := 0; w < 2; w++ {
		var wk problem.Worker
		for d := 0; d*day < m.Horizon; d++ {
			wk.Windows = append(wk.Windows, problem.Span{From: d*day + 84, Until: d*day + 216})
			wk.Avoid = append(wk.Avoid, problem.Span{From: d*day + 192, Until: d*day + 216})
			wk.Days = append(wk.Days, problem.Day{From: d * day, Until: (d + 1) * day, Limit: 60 + 24*w})
		}
		m.Workers = append(m.Workers, wk)
	}
	m.Pools = []problem.Pool{{Capacity: 2}, {Capacity: 12}, {Capacity: 1}}
	m.Kinds = []problem.Kind{{Size: problem.Rect{W: 2, D: 1}, Height: 3}}
	m.Spaces = []problem.Space{{Capacity: 6}, {Floors: []problem.Floor{{Size: problem.Rect{W: 7, D: 1}, Height: 7, Closed: nil}, {Size: problem.Rect{W: 5, D: 1}, Height: 4, Closed: nil}}, Closed: []problem.Span{{From: day * 5, Until: day*5 + 30}}}}
	for f := 0; f < 3; f++ {
		fam := problem.Family{Keeps: day * (2 + f), Supply: -1, Serves: 1}
		for k := 1; k <= 3; k++ {
			fam.Modes = append(fam.Modes, seasonMode(f, k, day))
		}
		m.Families = append(m.Families, fam)
	}
	for x := 0; x < n; x++ {
		m.Demands = append(m.Demands, problem.Demand{Family: r.IntN(3), Due: day*(10+r.IntN(n+1)) + 100 + r.IntN(60), Ahead: r.IntN(2) * 12,
			Units: 1 + r.IntN(5), Value: int64(1 + r.IntN(9)), Promised: r.IntN(4) == 0})
	}
	return m
}

func seasonMode(f, k, day int) problem.Mode {
	both := []int{0, 1}
	lag := func(least, most, best int) problem.Lag {
		l := problem.Lag{Least: least, Most: most}
		for x := least; x <= most; x++ {
			l.Cost = append(l.Cost, int32(100*max(x-best, best-x)/max(1, most-least)))
		}
		return l
	}
	acts := []problem.Activity{
		{Work: 6 + 2*k, Workers: both, Lag: lag(day/2, day, day*3/4)},
		{Work: 3 + k, Workers: both, Lag: lag(day/2, day+40, day)},
		{Work: 3, Workers: both, Lag: lag(day*(2+f), day*(4+f), day*(3+f))},
		{Work: 2 * k, Workers: []int{f % 2}, Lag: problem.Lag{Most: 5 * day}},
	}
	return problem.Mode{Amount: int64(10 * k), Units: 2 * k, Acts: acts,
		Runs:  []problem.Run{{First: 0, Last: 0, Amount: 1, Choices: []problem.PoolChoice{{Pool: 0, Clean: 6}}}, {First: 1, Last: 1, Amount: 2 * k, Choices: []problem.PoolChoice{{Pool: 1, Clean: 3}}}},
		Stays: []problem.Stay{{First: 2, Last: 2, Kind: 0, Boxes: k, Spaces: []int{1, 0}}, {First: 3, Last: 3, Kind: 0, Boxes: k, Spaces: []int{0, 1}}}}
}
