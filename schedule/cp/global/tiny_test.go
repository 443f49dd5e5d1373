package global_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/schedule/cp/kernel"
)

// tiny is a model with so few values that every assignment can be tried. A rule says
// twice what it means: to the solver, and to holds, which shares nothing with it.
type tiny struct {
	low, high []int32
	rules     []rule
}

// rule is a constraint: its statement and its meaning.
type rule struct {
	text  string
	add   func(s *kernel.Solver)
	holds func(v []int32) bool
}

// budget is far more than any tiny model needs.
const budget = 1 << 40

// variable adds a variable to the model.
func (m *tiny) variable(low, high int32) kernel.Var {
	m.low, m.high = append(m.low, low), append(m.high, high)
	return kernel.Var(len(m.low) - 1)
}

// literal is some literal over the model's variables, seldom one that is decided.
func (m *tiny) literal(r *rand.Rand) kernel.Lit {
	x := r.IntN(len(m.low))
	v := m.low[x] + int32(r.IntN(int(m.high[x]-m.low[x])+2))
	if r.IntN(2) == 0 {
		return kernel.Var(x).Ge(v)
	}
	return kernel.Var(x).Le(v - 1)
}

// clauses adds some clauses, to make conflicts.
func (m *tiny) clauses(r *rand.Rand, most int) {
	for range r.IntN(most + 1) {
		var c []kernel.Lit
		for range 2 + r.IntN(2) {
			c = append(c, m.literal(r))
		}
		m.clause(c...)
	}
}

// clause adds a clause.
func (m *tiny) clause(c ...kernel.Lit) {
	m.rules = append(m.rules, rule{
		text:  fmt.Sprint("clause ", c),
		add:   func(s *kernel.Solver) { s.AddClause(c...) },
		holds: func(v []int32) bool { return slices.ContainsFunc(c, func(l kernel.Lit) bool { return isTrue(l, v) }) },
	})
}

func isTrue(l kernel.Lit, v []int32) bool { return valueOf(l.B, v) >= l.V }

func valueOf(b kernel.View, v []int32) int32 {
	if b%2 == 0 {
		return v[b/2]
	}
	return -v[b/2]
}

func trueAll(lits []kernel.Lit, v []int32) bool {
	return !slices.ContainsFunc(lits, func(l kernel.Lit) bool { return !isTrue(l, v) })
}

func (m *tiny) holds(v []int32) bool {
	for _, r := range m.rules {
		if !r.holds(v) {
			return false
		}
	}
	return true
}

// solutions tries every assignment.
func (m *tiny) solutions() [][]int32 {
	var out [][]int32
	v := slices.Clone(m.low)
	for {
		if m.holds(v) {
			out = append(out, slices.Clone(v))
		}
		i := 0
		for ; i < len(v); i++ {
			if v[i]++; v[i] <= m.high[i] {
				break
			}
			v[i] = m.low[i]
		}
		if i == len(v) {
			return out
		}
	}
}

func (m *tiny) solver() *kernel.Solver {
	s := kernel.New()
	for i := range m.low {
		s.NewVar(m.low[i], m.high[i])
	}
	for _, r := range m.rules {
		r.add(s)
	}
	return s
}

func (m *tiny) String() string {
	out := fmt.Sprintf("low %v high %v", m.low, m.high)
	for _, r := range m.rules {
		out += "\n" + r.text
	}
	return out
}

// tally counts what the checks met, so that a test can tell that it tested something.
type tally struct{ narrowed, refused, conflicts, solved, wrong, implied int }

// listed is the most solutions that a search is asked to list one by one.
const listed = 40

// check holds a model against trying everything: bounds keep every solution, fixed
// values are decided, a whole search finds each solution once, and every step of it
// is implied.
func (m *tiny) check(t *testing.T, seed uint64, r *rand.Rand, seen *tally) {
	t.Helper()
	all := m.solutions()
	m.checkBounds(t, seed, all, seen)
	for range 4 {
		v := make([]int32, len(m.low))
		for i := range v {
			v[i] = m.low[i] + int32(r.IntN(int(m.high[i]-m.low[i])+1))
		}
		m.checkFixed(t, seed, v, seen)
	}
	if len(all) > 0 {
		m.checkFixed(t, seed, all[r.IntN(len(all))], seen)
	}
	m.checkSearch(t, seed, r, all, seen)
}

func (m *tiny) checkBounds(t *testing.T, seed uint64, all [][]int32, seen *tally) {
	t.Helper()
	s := m.solver()
	audit(t, seed, m, s, &all, seen)
	if st := s.Search(context.Background(), 0); st == kernel.Impossible {
		seen.refused++
		if len(all) > 0 {
			t.Fatalf("seed %d: refused, but %v is a solution\n%v", seed, all[0], m)
		}
		return
	}
	for i := range m.low {
		x := kernel.Var(i)
		if s.Min(x) > m.low[i] || s.Max(x) < m.high[i] {
			seen.narrowed++
		}
		for _, v := range all {
			if v[i] < s.Min(x) || v[i] > s.Max(x) {
				t.Fatalf("seed %d: x%d got [%d, %d], which loses %v\n%v", seed, i, s.Min(x), s.Max(x), v, m)
			}
		}
	}
}

func (m *tiny) checkFixed(t *testing.T, seed uint64, v []int32, seen *tally) {
	t.Helper()
	fixed := &tiny{v, v, m.rules}
	want := fixed.holds(v)
	if !want {
		seen.wrong++
	}
	if got := fixed.solver().Search(context.Background(), 0) != kernel.Impossible; got != want {
		t.Fatalf("seed %d: with all fixed at %v got %v, want %v\n%v", seed, v, got, want, m)
	}
}

// checkSearch lists the solutions, each forbidden once found, branching at random.
func (m *tiny) checkSearch(t *testing.T, seed uint64, r *rand.Rand, all [][]int32, seen *tally) {
	t.Helper()
	s := m.solver()
	audit(t, seed, m, s, &all, seen)
	s.Branch(func(s *kernel.Solver) (kernel.Lit, bool) { return anyOpen(r, s) })
	defer func() { seen.conflicts += int(s.Counted.Conflicts) }()
	for n := 0; ; n++ {
		st := s.Search(context.Background(), budget)
		if st == kernel.Unknown || (st == kernel.Solved) != (len(all) > 0) {
			t.Fatalf("seed %d: got %v, want one of %d solutions\n%v", seed, st, len(all), m)
		}
		if st == kernel.Impossible {
			return
		}
		v := make([]int32, len(m.low))
		for i := range v {
			v[i] = s.Value(kernel.Var(i))
		}
		if !m.holds(v) {
			t.Fatalf("seed %d: %v breaks the model\n%v", seed, v, m)
		}
		k := slices.IndexFunc(all, func(o []int32) bool { return slices.Equal(o, v) })
		if k < 0 {
			t.Fatalf("seed %d: %v found twice\n%v", seed, v, m)
		}
		seen.solved++
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

// audit checks every step of s against the solutions that are left.
func audit(t *testing.T, seed uint64, m *tiny, s *kernel.Solver, all *[][]int32, seen *tally) {
	t.Helper()
	within := func(premises []kernel.Lit) {
		for _, p := range premises {
			if !s.True(p) {
				t.Fatalf("seed %d: premise %v of %v is not true when used\n%v", seed, p, premises, m)
			}
		}
	}
	s.SetAudit(&kernel.Audit{
		Implied: func(l kernel.Lit, premises []kernel.Lit) {
			within(premises)
			seen.implied++
			for _, v := range *all {
				if trueAll(premises, v) && !isTrue(l, v) {
					t.Fatalf("seed %d: %v was said to follow from %v, but not in %v\n%v", seed, l, premises, v, m)
				}
			}
		},
		Conflict: func(premises []kernel.Lit) {
			within(premises)
			for _, v := range *all {
				if trueAll(premises, v) {
					t.Fatalf("seed %d: %v were said to be impossible together, but hold in %v\n%v", seed, premises, v, m)
				}
			}
		},
		Learned: func(clause []kernel.Lit) {
			for _, v := range *all {
				if !slices.ContainsFunc(clause, func(l kernel.Lit) bool { return isTrue(l, v) }) {
					t.Fatalf("seed %d: learned %v, which %v breaks\n%v", seed, clause, v, m)
				}
			}
		},
	})
}

// enough checks that a test met enough to mean something.
func (seen *tally) enough(t *testing.T, least int) {
	t.Helper()
	t.Logf("met %+v", *seen)
	for what, n := range map[string]int{
		"bounds narrowed": seen.narrowed, "refusals": seen.refused, "conflicts": seen.conflicts,
		"solutions": seen.solved, "wrong assignments": seen.wrong, "reasons": seen.implied,
	} {
		if n < least {
			t.Errorf("got %d %s: too few to mean much, want %d", n, what, least)
		}
	}
}

// table is a table that rises, of one to three entries from least on.
func table(r *rand.Rand, least int32, step int) []int32 {
	out := []int32{least + int32(r.IntN(step+1))}
	for range r.IntN(3) {
		out = append(out, out[len(out)-1]+int32(r.IntN(step+1)))
	}
	return out
}

// entry reads a table as Amount says: a size past an end counts as that end.
func entry(table []int32, size int32) int32 {
	switch {
	case len(table) == 0:
		return 0
	case len(table) == 1 || size < 0:
		return table[0]
	case int(size) >= len(table):
		return table[len(table)-1]
	}
	return table[size]
}
