package kernel_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/kernel/oracle"
)

// late forbids that all its literals hold, but notices only when another variable
// is fixed: by then decisions have been made that have nothing to do with it.
type late struct {
	forbidden []kernel.Lit
	when      kernel.Var
	imply     bool // make the last literal false where the others hold
}

func (p *late) Propagate(s *kernel.Solver) bool {
	if !s.Fixed(p.when) {
		return true
	}
	n := len(p.forbidden)
	for k, l := range p.forbidden {
		if !s.True(l) && (k < n-1 || !p.imply) {
			return true
		}
	}
	if p.imply {
		return s.Enqueue(p.forbidden[n-1].Not(), s.Because(p.forbidden[:n-1]...))
	}
	return s.Fail(p.forbidden...)
}

// TestPropagatorsThatNoticeLate: a conflict or a change may need only literals from
// before the last decisions.
func TestPropagatorsThatNoticeLate(t *testing.T) {
	conflicts := int64(0)
	for seed := range uint64(2000) {
		r := rand.New(rand.NewPCG(seed, 7))
		m := random(r, rules{clauses: true})
		s := m.solver()
		for range 1 + r.IntN(6) {
			p := &late{when: kernel.Var(r.IntN(len(m.Low))), imply: r.IntN(2) == 0}
			wake := []kernel.View{p.when.Up(), p.when.Down()}
			var clause []kernel.Lit
			for range 1 + r.IntN(3) {
				l := m.Literal(r)
				p.forbidden = append(p.forbidden, l)
				clause = append(clause, l.Not())
				wake = append(wake, l.B)
			}
			m.Clause(clause...) // after solver: only the oracle has it
			s.AddPropagator(p, r.IntN(3), wake...)
		}
		all := m.Solutions()
		m.Audit(t, seed, s, &all, &oracle.Tally{})
		st := s.Search(context.Background(), budget)
		if st == kernel.Unknown || (st == kernel.Solved) != (len(all) > 0) {
			t.Fatalf("seed %d: got %v, want one of %d solutions\n%v", seed, st, len(all), m)
		}
		if st == kernel.Solved && !m.Holds(m.Values(s)) {
			t.Fatalf("seed %d: %v breaks the model\n%v", seed, m.Values(s), m)
		}
		conflicts += s.Counted.Conflicts
	}
	if conflicts < 1000 {
		t.Errorf("got %d conflicts: too few to test learning", conflicts)
	}
}

// TestLongChains: a bound may follow up to one value and not up to a higher one of
// the same change, where arcs give reasons for just the value asked.
func TestLongChains(t *testing.T) {
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 8))
		m := &small{hasten: 1}
		for range 4 {
			m.Variable(0, 8)
		}
		for range 4 {
			m.arc(r.IntN(4), r.IntN(4), int32(-r.IntN(6)))
			x, y, add := r.IntN(4), r.IntN(4), int32(r.IntN(5)-2)
			m.arcIf(m.Literal(r), x, y, add)
		}
		for range 10 {
			m.Clause(m.Literal(r), m.Literal(r), m.Literal(r))
		}
		all := m.Solutions()
		s := m.solver()
		m.Audit(t, seed, s, &all, &oracle.Tally{})
		if st := s.Search(context.Background(), budget); st == kernel.Unknown || (st == kernel.Solved) != (len(all) > 0) {
			t.Fatalf("seed %d: got %v, want one of %d solutions\n%v", seed, st, len(all), m)
		}
	}
}
