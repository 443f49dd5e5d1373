package cp

import (
	"context"
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// Two models drawn alike, so that nothing is shared between the two runs.
func TestSolveGivesTheSameAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := uint64(drawInt(t, 1, 1<<20, "seed"))
		budget := int64(drawInt(t, 1, 300_000, "budget"))
		a := Solve(context.Background(), season(seed, 6), Options{Budget: budget})
		b := Solve(context.Background(), season(seed, 6), Options{Budget: budget})
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("twice the same model and budget %d: %+v and %+v", budget, a.Cost, b.Cost)
		}
	})
}

func TestSolveWithMoreBudgetIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := uint64(drawInt(t, 1, 1<<20, "seed"))
		less := int64(drawInt(t, 1, 400_000, "less"))
		more := less + int64(drawInt(t, 1, 400_000, "more"))
		a := Solve(context.Background(), season(seed, 5), Options{Budget: less})
		b := Solve(context.Background(), season(seed, 5), Options{Budget: more})
		if a.Cost.Less(b.Cost) {
			t.Fatalf("seed %d: budget %d gives %+v, %d gives %+v", seed, less, a.Cost, more, b.Cost)
		}
	})
}

// The model is the caller's: solving leaves it as it was.
func TestSolveLeavesTheModelAlone(t *testing.T) {
	for seed := uint64(1); seed < 6; seed++ {
		m, same := season(seed, 8), season(seed, 8)
		r := Solve(context.Background(), m, Options{Budget: 100_000})
		if got, want := fmt.Sprintf("%+v", m.Families), fmt.Sprintf("%+v", same.Families); got != want {
			t.Errorf("seed %d: families changed", seed)
		}
		if !reflect.DeepEqual(m.Workers, same.Workers) || !reflect.DeepEqual(m.Pools, same.Pools) {
			t.Errorf("seed %d: workers or pools changed", seed)
		}
		if f := faultOf(m, r); f != "" {
			t.Errorf("seed %d: %s", seed, f)
		}
	}
}

// season is an invented kitchen with n deliveries: two makers with day limits, two
// pots, moulds, one counted and one measured store, three kinds of chain.
func season(seed uint64, n int) *Model {
	r := rand.New(rand.NewPCG(seed, 1))
	const day = 24 * 12 // ticks of five minutes
	m := &Model{Step: 1, Horizon: day * (12 + n), Packing: linePacking}
	for w := 0; w < 2; w++ {
		var wk Worker
		for d := 0; d*day < m.Horizon; d++ {
			wk.Windows = append(wk.Windows, Span{d*day + 84, d*day + 216})
			wk.Avoid = append(wk.Avoid, Span{d*day + 192, d*day + 216})
			wk.Days = append(wk.Days, Day{d * day, (d + 1) * day, 60 + 24*w})
		}
		m.Workers = append(m.Workers, wk)
	}
	m.Pools = []Pool{{2}, {12}, {1}}
	m.Kinds = []Kind{{Rect{2, 1}, 3}}
	m.Spaces = []Space{{Capacity: 6}, {Floors: []Floor{{Rect{7, 1}, 7, nil}, {Rect{5, 1}, 4, nil}}, Closed: []Span{{day * 5, day*5 + 30}}}}
	for f := 0; f < 3; f++ {
		fam := Family{Keeps: day * (2 + f), Supply: -1, Serves: 1}
		for k := 1; k <= 3; k++ {
			fam.Modes = append(fam.Modes, seasonMode(f, k, day))
		}
		m.Families = append(m.Families, fam)
	}
	for x := 0; x < n; x++ {
		m.Demands = append(m.Demands, Demand{Family: r.IntN(3), Due: day*(10+r.IntN(n+1)) + 100 + r.IntN(60), Ahead: r.IntN(2) * 12,
			Units: 1 + r.IntN(5), Value: int64(1 + r.IntN(9)), Promised: r.IntN(4) == 0})
	}
	return m
}

func seasonMode(f, k, day int) Mode {
	both := []int{0, 1}
	lag := func(least, most, best int) Lag {
		l := Lag{Least: least, Most: most}
		for x := least; x <= most; x++ {
			l.Cost = append(l.Cost, int32(100*max(x-best, best-x)/max(1, most-least)))
		}
		return l
	}
	acts := []Activity{
		{Work: 6 + 2*k, Workers: both, Lag: lag(day/2, day, day*3/4)},
		{Work: 3 + k, Workers: both, Lag: lag(day/2, day+40, day)},
		{Work: 3, Workers: both, Lag: lag(day*(2+f), day*(4+f), day*(3+f))},
		{Work: 2 * k, Workers: []int{f % 2}, Lag: Lag{Most: 5 * day}},
	}
	return Mode{Amount: int64(10 * k), Units: 2 * k, Acts: acts,
		Runs:  []Run{{0, 0, 1, []PoolChoice{{0, 6}}}, {1, 1, 2 * k, []PoolChoice{{1, 3}}}},
		Stays: []Stay{{2, 2, 0, k, []int{1, 0}}, {3, 3, 0, k, []int{0, 1}}}}
}
