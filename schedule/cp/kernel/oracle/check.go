package oracle

import (
	"context"
	"math/rand/v2"
	"slices"

	"ripeby/schedule/cp/kernel"
)

// budget is far more than any tiny model needs.
const budget = 1 << 40

// listed is the most solutions that a search is asked to list one by one.
const listed = 40

// Check holds the model against trying everything: bounds keep every solution, fixed
// values are decided, a whole search finds each solution once, and every step of it
// is implied.
func (m *Model) Check(t T, seed uint64, r *rand.Rand, seen *Tally) {
	all := m.Solutions()
	m.checkBounds(t, seed, all, seen)
	for range 4 {
		v := make([]int32, len(m.Low))
		for i := range v {
			v[i] = m.Low[i] + int32(r.IntN(int(m.High[i]-m.Low[i])+1))
		}
		m.checkFixed(t, seed, v, seen)
	}
	if len(all) > 0 {
		m.checkFixed(t, seed, all[r.IntN(len(all))], seen)
	}
	m.checkSearch(t, seed, r, all, seen)
}

func (m *Model) checkBounds(t T, seed uint64, all [][]int32, seen *Tally) {
	s := m.Solver()
	m.Audit(t, seed, s, &all, seen)
	if st := s.Search(context.Background(), 0); st == kernel.Impossible {
		seen.Refused++
		if len(all) > 0 {
			t.Fatalf("seed %d: refused, but %v is a solution\n%v", seed, all[0], m)
		}
		return
	}
	for i := range m.Low {
		x := kernel.Var(i)
		if s.Min(x) > m.Low[i] || s.Max(x) < m.High[i] {
			seen.Narrowed++
		}
		for _, v := range all {
			if v[i] < s.Min(x) || v[i] > s.Max(x) {
				t.Fatalf("seed %d: x%d got [%d, %d], which loses %v\n%v", seed, i, s.Min(x), s.Max(x), v, m)
			}
		}
	}
}

func (m *Model) checkFixed(t T, seed uint64, v []int32, seen *Tally) {
	fixed := &Model{v, v, m.Rules}
	want := fixed.Holds(v)
	if !want {
		seen.Wrong++
	}
	if got := fixed.Solver().Search(context.Background(), 0) != kernel.Impossible; got != want {
		t.Fatalf("seed %d: with all fixed at %v got %v, want %v\n%v", seed, v, got, want, m)
	}
}

// checkSearch lists the solutions, each forbidden once found, branching at random.
func (m *Model) checkSearch(t T, seed uint64, r *rand.Rand, all [][]int32, seen *Tally) {
	s := m.Solver()
	m.Audit(t, seed, s, &all, seen)
	s.Branch(func(s *kernel.Solver) (kernel.Lit, bool) { return anyOpen(r, s) })
	defer func() { seen.Conflicts += int(s.Counted.Conflicts) }()
	for n := 0; ; n++ {
		st := s.Search(context.Background(), budget)
		if st == kernel.Unknown || (st == kernel.Solved) != (len(all) > 0) {
			t.Fatalf("seed %d: got %v, want one of %d solutions\n%v", seed, st, len(all), m)
		}
		if st == kernel.Impossible {
			return
		}
		v := m.Values(s)
		if !m.Holds(v) {
			t.Fatalf("seed %d: %v breaks the model\n%v", seed, v, m)
		}
		k := slices.IndexFunc(all, func(o []int32) bool { return slices.Equal(o, v) })
		if k < 0 {
			t.Fatalf("seed %d: %v found twice\n%v", seed, v, m)
		}
		seen.Solved++
		if n == listed {
			return
		}
		all = slices.Delete(all, k, k+1)
		var other []kernel.Lit
		for i, w := range v {
			other = append(other, kernel.Var(i).Ge(w+1), kernel.Var(i).Le(w-1))
		}
		s.AddClause(other...)
	}
}

// anyOpen is some literal that splits what is open.
func anyOpen(r *rand.Rand, s *kernel.Solver) (kernel.Lit, bool) {
	from := r.IntN(s.Vars())
	for i := range s.Vars() {
		x := kernel.Var((from + i) % s.Vars())
		if low, high := s.Min(x), s.Max(x); low < high {
			v := low + 1 + int32(r.IntN(int(high-low)))
			if r.IntN(2) == 0 {
				return x.Ge(v), true
			}
			return x.Le(v - 1), true
		}
	}
	return kernel.Lit{}, false
}
