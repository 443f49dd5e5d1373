package rules_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/cmd/cpbench/rules"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/kernel/oracle"
)

// costOf is what values cost, by the definition.
func costOf(costs []rules.Excess, v []int32) int32 {
	sum := int32(0)
	for _, c := range costs {
		sum += c.Weight * max(0, oracle.ValueOf(c.At, v)-c.Over)
	}
	return sum
}

// randomCosts gives costs of being above and below random values.
func randomCosts(r *rand.Rand, vars int) []rules.Excess {
	var out []rules.Excess
	for x := range kernel.Var(vars) {
		at := r.Int32N(7)
		if r.IntN(4) > 0 {
			out = append(out, rules.Excess{At: x.Up(), Over: at, Weight: 1 + r.Int32N(4)})
		}
		if r.IntN(4) > 0 {
			out = append(out, rules.Excess{At: x.Down(), Over: -at, Weight: 1 + r.Int32N(4)})
		}
	}
	return out
}

// each calls f with every assignment of n values from 0 to high.
func each(n int, high int32, f func([]int32)) {
	v := make([]int32, n)
	for {
		f(v)
		k := 0
		for ; k < n && v[k] == high; k++ {
			v[k] = 0
		}
		if k == n {
			return
		}
		v[k]++
	}
}

const high, mostTotal = 6, 12

// spending makes a model of three variables whose costs are at most a fourth, and of
// clauses over all of them.
func spending(r *rand.Rand) (m *oracle.Model, total kernel.Var) {
	m = &oracle.Model{}
	for range 3 {
		m.Variable(0, high)
	}
	total = m.Variable(0, mostTotal)
	costs := randomCosts(r, 3)
	m.Add(oracle.Rule{
		Text:  fmt.Sprintf("costs %+v <= x%d", costs, total),
		Add:   func(s *kernel.Solver) { rules.AddExcesses(s, costs, total) },
		Holds: func(v []int32) bool { return costOf(costs, v) <= v[total] },
	})
	for range 6 {
		m.Clause(kernel.Var(r.IntN(4)).Ge(r.Int32N(9)), kernel.Var(r.IntN(3)).Le(r.Int32N(7)), kernel.Var(r.IntN(3)).Ge(r.Int32N(7)))
	}
	return m, total
}

// TestExcessesStepsHold checks each reason and conflict of searches for the least
// total against all solutions that are less than what was found.
func TestExcessesStepsHold(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(600) {
		m, total := spending(rand.New(rand.NewPCG(seed, 1)))
		all := m.Solutions()
		want, got := int32(-1), int32(-1)
		for _, v := range all {
			if want < 0 || v[total] < want {
				want = v[total]
			}
		}
		s := m.Solver()
		m.Audit(t, seed, s, &all, &seen)
		st := s.Minimize(context.Background(), total, 1_000_000, func(v int32) {
			got = v
			all = slices.DeleteFunc(all, func(o []int32) bool { return o[total] >= v }) // it is asked for less
		})
		seen.Conflicts += int(s.Counted.Conflicts)
		if got != want || (st == kernel.Impossible) != (want < 0) || st == kernel.Unknown {
			t.Fatalf("seed %d: got %v, least %d, want %d", seed, st, got, want)
		}
	}
	if seen.Implied < 1000 || seen.Conflicts < 100 {
		t.Errorf("got %d steps and %d conflicts: too few to mean much", seen.Implied, seen.Conflicts)
	}
}

// TestLiftFindsTheLeast compares with trying all, over tasks that share a thing.
func TestLiftFindsTheLeast(t *testing.T) {
	cores, impossible := 0, 0
	for seed := range uint64(1500) {
		r := rand.New(rand.NewPCG(seed, 2))
		n, most := 4, int32(5)
		s := kernel.New()
		var tasks []rules.Interval
		for range n {
			tasks = append(tasks, rules.Interval{Start: s.NewVar(0, most), Length: 1 + r.Int32N(3), Demand: 1 + r.Int32N(3)})
		}
		rules.AddTimetable(s, tasks, 3)
		from, to, lag := r.IntN(n), r.IntN(n), r.Int32N(5)-2
		s.AddArc(tasks[from].Start, tasks[to].Start, lag)
		costs := randomCosts(r, n)
		want := int32(-1)
		each(n, most, func(v []int32) {
			if c := costOf(costs, v); v[to] >= v[from]+lag && together(tasks, v) <= 3 && (want < 0 || c < want) {
				want = c
			}
		})
		got := int32(-1)
		l := rules.NewLift(s, costs, func(v int32) { got = v })
		l.First = 0 // from below at once: above, such models are done in no time
		st := l.Minimize(context.Background(), 10_000_000)
		if want < 0 {
			impossible++
		}
		if got != want || (st == kernel.Impossible) != (want < 0) || st == kernel.Unknown {
			t.Fatalf("seed %d: got %v, least %d, want %d", seed, st, got, want)
		}
		if st == kernel.Solved && l.Least() != want {
			t.Fatalf("seed %d: got bound %d, want %d", seed, l.Least(), want)
		}
		cores += l.Cores
	}
	if cores < 1000 || impossible < 20 {
		t.Errorf("got %d cores and %d impossible models: too few to mean much", cores, impossible)
	}
}

// TestLiftTwice: the same work gives the same answer by the same steps.
func TestLiftTwice(t *testing.T) {
	for seed := range uint64(100) {
		var counted [2]kernel.Counters
		var found [2][]int32
		for i := range counted {
			r := rand.New(rand.NewPCG(seed, 3))
			s := kernel.New()
			var tasks []rules.Interval
			for range 8 {
				tasks = append(tasks, rules.Interval{Start: s.NewVar(0, 20), Length: 1 + r.Int32N(5), Demand: 1 + r.Int32N(3)})
			}
			rules.AddTimetable(s, tasks, 3)
			l := rules.NewLift(s, randomCosts(r, 8), func(v int32) { found[i] = append(found[i], v) })
			l.First = 1000
			l.Minimize(context.Background(), 200_000)
			counted[i] = s.Counted
		}
		if counted[0] != counted[1] || !slices.Equal(found[0], found[1]) {
			t.Fatalf("seed %d: got %+v %v, then %+v %v", seed, counted[0], found[0], counted[1], found[1])
		}
	}
}

// together is the most that runs at one moment.
func together(tasks []rules.Interval, v []int32) int32 {
	most := int32(0)
	for moment := range int32(10) {
		sum := int32(0)
		for i, one := range tasks {
			if v[i] <= moment && moment < v[i]+one.Length {
				sum += one.Demand
			}
		}
		most = max(most, sum)
	}
	return most
}
