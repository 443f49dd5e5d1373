package search

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// witnessed proves the first plan of a model with the witness looking on, as builds with the
// tag audit do everywhere; each statement's witness is told of.
func witnessed(m *problem.Model, budget int64, told func(*prover)) {
	s := NewPlan(m)
	s.SettleHomes()
	covered, bound := s.chooseOpening()
	s = s.firstPlan(covered).s
	s.stated = func(p *prover) {
		p.watch()
		told(p)
	}
	s.prove(context.Background(), bound, Options{Budget: s.Spent + budget}.filled(), func(*prover) {})
}

func TestTheWitnessIsAskedAtEveryStep(t *testing.T) {
	var all []*witness
	for seed := uint64(1); seed <= 8; seed++ {
		witnessed(tiny.Season(seed, 7), 4_000_000, func(p *prover) { all = append(all, p.witness) })
	}
	steps, missed := int64(0), int64(0)
	for _, w := range all {
		steps, missed = steps+w.steps, missed+w.missed
	}
	t.Logf("%d statements, %d steps held against the best plan known, %d plans not turned into values", len(all), steps, missed)
	if steps < 80_000 || missed > 0 {
		t.Errorf("got %d steps and %d plans without values, want 80000 and none", steps, missed)
	}
}

func TestTheWitnessRefusesWhatLeavesThePlanOut(t *testing.T) {
	wrong := func(p *prover) kernel.Lit {
		return p.k.Cost[problem.PartEarly].Ge(p.k.Value(p.cost, problem.PartEarly) + 1)
	}
	for _, c := range []struct {
		name string
		step func(*kernel.Audit, kernel.Lit)
	}{
		{"reason", func(a *kernel.Audit, l kernel.Lit) { a.Implied(l, nil) }},
		{"conflict", func(a *kernel.Audit, l kernel.Lit) { a.Conflict([]kernel.Lit{l.Not()}) }},
		{"learned", func(a *kernel.Audit, l kernel.Lit) { a.Learned([]kernel.Lit{l}) }},
		{"stated", func(a *kernel.Audit, l kernel.Lit) { a.Stated([]kernel.Lit{l}) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			defer func() {
				if got := fmt.Sprint(recover()); !strings.Contains(got, "but not in the plan") {
					t.Errorf("got %q, want the step and the plan that it leaves out", got)
				}
			}()
			witnessed(tiny.Season(1, 7), 1000, func(p *prover) { c.step(p.witness.audit(), wrong(p)) })
		})
	}
}
