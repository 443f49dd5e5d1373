package global_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// leftBy is what decisions leave of all bounds when nothing more follows; not ok where they lead to a
// dead end.
func leftBy(s *kernel.Solver, vars int, decisions ...kernel.Lit) (bounds []int32, ok bool) {
	s.Branch(func(s *kernel.Solver) (kernel.Lit, bool) {
		for x := range vars {
			bounds = append(bounds, s.Min(kernel.Var(x)), s.Max(kernel.Var(x)))
		}
		return kernel.Lit{}, false
	})
	before := s.Counted.Conflicts
	st := s.Search(context.Background(), budget, decisions...)
	return bounds, st == kernel.Solved && s.Counted.Conflicts == before
}

// atRest takes decisions one after another, after others that were taken back, and reports whether they
// led to no dead end, and whether more follows from them than each says. Of the bounds that they leave
// a model stated anew, of which everything is looked at, must make no more.
func atRest(t *testing.T, seed uint64, r *rand.Rand, m *tiny, stated func() *kernel.Solver) (compared, more bool) {
	vars := len(m.Low)
	var first, then []kernel.Lit
	for range 1 + r.IntN(3) {
		first, then = append(first, m.Literal(r)), append(then, m.Literal(r))
	}
	s := stated()
	alone, ok := leftBy(s, vars)
	if _, free := leftBy(s, vars, first...); !ok || !free {
		return false, false
	}
	got, ok := leftBy(s, vars, then...)
	if !ok {
		return false, false
	}
	for _, l := range then {
		x := int(l.B.Var())
		if l.B == kernel.Var(x).Up() {
			alone[2*x] = max(alone[2*x], l.V)
		} else {
			alone[2*x+1] = min(alone[2*x+1], -l.V)
		}
	}
	all := stated()
	for x := range vars {
		all.AddClause(kernel.Var(x).Ge(got[2*x]))
		all.AddClause(kernel.Var(x).Le(got[2*x+1]))
	}
	if want, ok := leftBy(all, vars); !ok || !slices.Equal(got, want) {
		t.Fatalf("seed %d: %v after %v leaves %v, of which follows %v (%v)\n%v", seed, then, first, got, want, ok, m.Rules)
	}
	return true, !slices.Equal(got, alone)
}

// TestWhatHasChangedIsEnough: rules that look at what has changed, and at what that can meet, find what
// there is to find.
func TestWhatHasChangedIsEnough(t *testing.T) {
	rules := []struct {
		name  string
		state func(r *rand.Rand, m *thing) func(*kernel.Solver)
	}{
		{"cumulative", func(r *rand.Rand, m *thing) func(*kernel.Solver) {
			m.cumulative(r, 3+r.IntN(3))
			return func(*kernel.Solver) {}
		}},
		{"together", func(r *rand.Rand, m *thing) func(*kernel.Solver) {
			m.together(r, 3+r.IntN(3))
			return func(*kernel.Solver) {}
		}},
		{"days", func(r *rand.Rand, m *thing) func(*kernel.Solver) {
			var items []global.Item
			for _, x := range m.times {
				it := global.Item{Start: x, Weight: global.Amount{By: m.size, Table: table(r, 1, 2)}}
				if r.IntN(2) == 0 {
					it.If = []kernel.Lit{m.bools[r.IntN(len(m.bools))].Ge(1)}
				}
				items = append(items, it)
			}
			days := []global.Day{{From: 0, Until: 3, AtMost: int32(1 + r.IntN(4))}, {From: 3, Until: 5, AtMost: int32(1 + r.IntN(4))}, {From: 6, Until: 9, AtMost: int32(r.IntN(5))}}
			return func(s *kernel.Solver) { global.AddDays(s, items, days) }
		}},
	}
	for _, rule := range rules {
		t.Run(rule.name, func(t *testing.T) {
			compared, more := 0, 0
			for seed := range uint64(20_000) {
				r := rand.New(rand.NewPCG(seed, 22))
				m := someThing(r, 4, 8)
				m.longest = 5
				add := rule.state(r, m)
				c, f := atRest(t, seed, r, m.tiny, func() *kernel.Solver {
					s := m.Solver()
					add(s)
					return s
				})
				if c {
					compared++
				}
				if f {
					more++
				}
			}
			if compared < 2000 || more < 150 {
				t.Errorf("%d compared, of %d more follows: too few to mean much", compared, more)
			}
			t.Logf("%d compared, of %d more follows", compared, more)
		})
	}
}
