package kernel_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/kernel/oracle"
)

// budget is more work than any small model needs.
const budget = 5_000_000

// halfTight makes every second model a tight one.
func halfTight(seed uint64) rules {
	with := everything
	with.tight = seed%2 == 0
	return with
}

// TestEveryStepHolds checks each reason, conflict and learned clause, and the
// answer, of searches over small models against all assignments.
func TestEveryStepHolds(t *testing.T) {
	kinds := []struct {
		name string
		with rules
	}{
		{"arcs", rules{arcs: true, clauses: true}},
		{"guards", rules{arcs: true, guards: true, clauses: true}},
		{"clauses", rules{clauses: true}},
		{"tables", rules{tables: true}},
		{"tables and arcs", rules{tables: true, arcs: true}},
		{"holes", rules{holes: true, arcs: true}},
		{"everything", everything},
		{"tight clauses", rules{clauses: true, tight: true}},
		{"tight tables", rules{tables: true, tight: true}},
		{"tight with guards", rules{arcs: true, guards: true, clauses: true, tables: true, tight: true}},
		{"tight with holes", rules{arcs: true, holes: true, clauses: true, tables: true, tight: true}},
	}
	for _, k := range kinds {
		t.Run(k.name, func(t *testing.T) {
			count := [3]int{}
			learned := int64(0)
			for seed := range uint64(1500) {
				m := random(rand.New(rand.NewPCG(seed, 1)), k.with)
				all := m.Solutions()
				s := m.solver()
				m.Audit(t, seed, s, &all, &oracle.Tally{})
				st := s.Search(context.Background(), budget)
				count[st]++
				learned += s.Counted.Conflicts
				want := kernel.Impossible
				if len(all) > 0 {
					want = kernel.Solved
				}
				if st != want {
					t.Fatalf("seed %d: got %v, want %v by trying all\n%v", seed, st, want, m)
				}
				if st == kernel.Solved && !m.Holds(m.Values(s)) {
					t.Fatalf("seed %d: got %v, which breaks the model\n%v", seed, m.Values(s), m)
				}
			}
			if count[kernel.Solved] < 100 {
				t.Errorf("got %v unknown, solved, impossible: too few solved to mean much", count)
			}
			t.Logf("unknown, solved, impossible %v; %d conflicts", count, learned)
		})
	}
}

// TestMinimizeFindsTheLeast compares with the least over all assignments, for each
// variable by turns, and checks each step on the way.
func TestMinimizeFindsTheLeast(t *testing.T) {
	conflicts := int64(0)
	for seed := range uint64(5000) {
		r := rand.New(rand.NewPCG(seed, 2))
		m := random(r, halfTight(seed))
		all := m.Solutions()
		x := kernel.Var(r.IntN(len(m.Low)))
		s := m.solver()
		got := int32(100)
		left := slices.Clone(all)
		m.Audit(t, seed, s, &left, &oracle.Tally{})
		st := s.Minimize(context.Background(), x, budget, func(v int32) {
			got = v
			left = slices.DeleteFunc(left, func(o []int32) bool { return o[x] >= v })
		})
		conflicts += s.Counted.Conflicts
		if len(all) == 0 {
			if st != kernel.Impossible {
				t.Fatalf("seed %d: got %v, want impossible\n%v", seed, st, m)
			}
			continue
		}
		least := slices.MinFunc(all, func(a, b []int32) int { return int(a[x] - b[x]) })[x]
		if st != kernel.Solved || got != least || s.Value(x) != least {
			t.Fatalf("seed %d: got %v %d (value %d), want %d\n%v", seed, st, got, s.Value(x), least, m)
		}
		if !m.Holds(m.Values(s)) {
			t.Fatalf("seed %d: the best, %v, breaks the model\n%v", seed, m.Values(s), m)
		}
	}
	if conflicts < 1000 {
		t.Errorf("got %d conflicts over all models: too few to test learning", conflicts)
	}
}

// TestEachSolutionOnce forbids each solution that is found and asks again until
// there is none: all that trying finds must come, each once, and every step between
// must hold in those that are left.
func TestEachSolutionOnce(t *testing.T) {
	conflicts := int64(0)
	for seed := range uint64(1200) {
		r := rand.New(rand.NewPCG(seed, 5))
		m := random(r, halfTight(seed))
		all := m.Solutions()
		if len(all) > 200 {
			continue
		}
		s := m.solver()
		found, left := map[string]bool{}, slices.Clone(all)
		m.Audit(t, seed, s, &left, &oracle.Tally{})
		for s.Search(context.Background(), budget) == kernel.Solved {
			v := m.Values(s)
			if found[fmt.Sprint(v)] || !m.Holds(v) {
				t.Fatalf("seed %d: got %v, again or breaking the model\n%v", seed, v, m)
			}
			found[fmt.Sprint(v)] = true
			left = slices.DeleteFunc(left, func(o []int32) bool { return slices.Equal(o, v) })
			var other []kernel.Lit
			for i := range v {
				other = append(other, kernel.Var(i).Ge(v[i]+1), kernel.Var(i).Le(v[i]-1))
			}
			s.AddClause(other...)
		}
		if len(found) != len(all) {
			t.Fatalf("seed %d: got %d solutions, want %d by trying all\n%v", seed, len(found), len(all), m)
		}
		conflicts += s.Counted.Conflicts
	}
	if conflicts < 5_000 {
		t.Errorf("got %d conflicts: too few to test learning", conflicts)
	}
}

// TestSearchUnderAssumptions asks one solver again and again under other
// assumptions: the answers must be those of trying all, and a core must be part of
// the assumptions and impossible by itself.
func TestSearchUnderAssumptions(t *testing.T) {
	cores, small := 0, 0
	for seed := range uint64(2000) {
		r := rand.New(rand.NewPCG(seed, 3))
		m := random(r, halfTight(seed))
		all := m.Solutions()
		s := m.solver()
		m.Audit(t, seed, s, &all, &oracle.Tally{})
		for turn := range 6 {
			var assume []kernel.Lit
			for range r.IntN(5) {
				assume = append(assume, m.Literal(r))
			}
			possible := slices.ContainsFunc(all, func(v []int32) bool { return oracle.AllTrue(assume, v) })
			switch st := s.Search(context.Background(), budget, assume...); {
			case st == kernel.Solved && possible:
				if v := m.Values(s); !m.Holds(v) || !oracle.AllTrue(assume, v) {
					t.Fatalf("seed %d turn %d: %v does not hold under %v\n%v", seed, turn, v, assume, m)
				}
			case st == kernel.Impossible && !possible:
				core := s.Core()
				for _, l := range core {
					if !slices.Contains(assume, l) {
						t.Fatalf("seed %d turn %d: core %v has %v, which was not assumed: %v", seed, turn, core, l, assume)
					}
				}
				for _, v := range all {
					if oracle.AllTrue(core, v) {
						t.Fatalf("seed %d turn %d: core %v holds in solution %v\n%v", seed, turn, core, v, m)
					}
				}
				cores++
				if len(core) < len(assume) {
					small++
				}
			default:
				t.Fatalf("seed %d turn %d: got %v under %v, possible is %v\n%v", seed, turn, st, assume, possible, m)
			}
		}
	}
	if cores < 500 || small < 100 {
		t.Errorf("got %d cores, %d of them less than all assumptions: too few to mean much", cores, small)
	}
}

// TestTheSameTwice: nothing may depend on addresses, map order or chance.
func TestTheSameTwice(t *testing.T) {
	for seed := range uint64(500) {
		var counted [2]kernel.Counters
		var found [2][]int32
		for i := range counted {
			m := random(rand.New(rand.NewPCG(seed, 4)), halfTight(seed))
			s := m.solver()
			s.Minimize(context.Background(), 0, budget, func(v int32) { found[i] = append(found[i], v) })
			counted[i] = s.Counted
		}
		if counted[0] != counted[1] || !slices.Equal(found[0], found[1]) {
			t.Fatalf("seed %d: got %+v %v, then %+v %v", seed, counted[0], found[0], counted[1], found[1])
		}
	}
}
