package global_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// costOf is what values cost, by the definition.
func costOf(costs []global.Excess, v []int32) int32 {
	sum := int32(0)
	for _, c := range costs {
		x := v[c.At.Var()]
		if c.At&1 == 1 {
			x = -x
		}
		sum += c.Weight * max(0, x-c.Over)
	}
	return sum
}

// randomCosts gives costs of being above and below random values.
func randomCosts(r *rand.Rand, vars int) []global.Excess {
	var out []global.Excess
	for x := range kernel.Var(vars) {
		at := r.Int32N(7)
		if r.IntN(4) > 0 {
			out = append(out, global.Excess{At: x.Up(), Over: at, Weight: 1 + r.Int32N(4)})
		}
		if r.IntN(4) > 0 {
			out = append(out, global.Excess{At: x.Down(), Over: -at, Weight: 1 + r.Int32N(4)})
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

// spentModel is three variables whose costs are at most a total, and clauses.
type spentModel struct {
	costs   []global.Excess
	total   kernel.Var
	clauses [][]kernel.Lit
}

const high, mostTotal = 6, 12

func randomSpent(r *rand.Rand) *spentModel {
	m := &spentModel{costs: randomCosts(r, 3), total: 3}
	for range 6 {
		m.clauses = append(m.clauses, []kernel.Lit{
			kernel.Var(r.IntN(4)).Ge(r.Int32N(9)), kernel.Var(r.IntN(3)).Le(r.Int32N(7)), kernel.Var(r.IntN(3)).Ge(r.Int32N(7))})
	}
	return m
}

func (m *spentModel) solver() *kernel.Solver {
	s := kernel.New()
	for range 3 {
		s.NewVar(0, high)
	}
	s.NewVar(0, mostTotal)
	global.AddExcesses(s, m.costs, m.total)
	for _, c := range m.clauses {
		s.AddClause(c...)
	}
	return s
}

// holds reports whether a literal holds of three values and a total.
func holds(l kernel.Lit, v []int32) bool {
	x := v[l.B.Var()]
	if l.B&1 == 1 {
		x = -x
	}
	return x >= l.V
}

// solutions gives all values with their totals that the model allows.
func (m *spentModel) solutions() [][]int32 {
	var out [][]int32
	each(3, high, func(v []int32) {
		for sum := costOf(m.costs, v); sum <= mostTotal; sum++ {
			one := append(slices.Clone(v), sum)
			if !slices.ContainsFunc(m.clauses, func(c []kernel.Lit) bool {
				return !slices.ContainsFunc(c, func(l kernel.Lit) bool { return holds(l, one) })
			}) {
				out = append(out, one)
			}
		}
	})
	return out
}

// TestExcessesStepsHold checks each reason and conflict of searches for the least
// total against all solutions within the bounds that hold with no decision.
func TestExcessesStepsHold(t *testing.T) {
	steps, fails := 0, 0
	for seed := range uint64(600) {
		m := randomSpent(rand.New(rand.NewPCG(seed, 1)))
		s, all := m.solver(), m.solutions()
		got := int32(-1)
		check := func(l kernel.Lit, premises []kernel.Lit) {
			for x := range kernel.Var(4) {
				premises = append(premises, x.Ge(s.Root(x.Up())), x.Le(-s.Root(x.Down())))
			}
			for _, v := range all {
				if got >= 0 && v[m.total] >= got {
					continue // it was asked for less
				}
				if !holds(l, v) && !slices.ContainsFunc(premises, func(p kernel.Lit) bool { return !holds(p, v) }) {
					t.Fatalf("seed %d: %v does not follow from %v: %v", seed, l, premises, v)
				}
			}
		}
		s.SetAudit(&kernel.Audit{
			Implied:  func(l kernel.Lit, p []kernel.Lit) { steps++; check(l, slices.Clone(p)) },
			Conflict: func(p []kernel.Lit) { fails++; check(m.total.Ge(mostTotal+1), slices.Clone(p)) },
		})
		st := s.Minimize(context.Background(), m.total, 1_000_000, func(v int32) { got = v })
		want := int32(-1)
		for _, v := range all {
			if want < 0 || v[m.total] < want {
				want = v[m.total]
			}
		}
		if got != want || (st == kernel.Impossible) != (want < 0) || st == kernel.Unknown {
			t.Fatalf("seed %d: got %v, least %d, want %d", seed, st, got, want)
		}
	}
	if steps < 1000 || fails < 100 {
		t.Errorf("got %d steps and %d conflicts: too few to mean much", steps, fails)
	}
}

// TestLiftFindsTheLeast compares with trying all, over tasks that share a thing.
func TestLiftFindsTheLeast(t *testing.T) {
	cores, impossible := 0, 0
	for seed := range uint64(1500) {
		r := rand.New(rand.NewPCG(seed, 2))
		n, most := 4, int32(5)
		s := kernel.New()
		var tasks []global.Interval
		for range n {
			tasks = append(tasks, global.Interval{Start: s.NewVar(0, most), Length: 1 + r.Int32N(3), Demand: 1 + r.Int32N(3)})
		}
		global.AddTimetable(s, tasks, 3)
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
		l := global.NewLift(s, costs, func(v int32) { got = v })
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
			var tasks []global.Interval
			for range 8 {
				tasks = append(tasks, global.Interval{Start: s.NewVar(0, 20), Length: 1 + r.Int32N(5), Demand: 1 + r.Int32N(3)})
			}
			global.AddTimetable(s, tasks, 3)
			l := global.NewLift(s, randomCosts(r, 8), func(v int32) { found[i] = append(found[i], v) })
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
func together(tasks []global.Interval, v []int32) int32 {
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
