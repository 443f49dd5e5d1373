package search

import (
	"context"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/statement"
	"ripeby/schedule/cp/tiny"
	"ripeby/schedule/testrun"
)

// auditedPlans is up to how many plans a model may have whose proof is audited.
const auditedPlans = 400

// proveAudited builds the first plan of a model and proves from there, every step held
// against all plans; not ok where that does not apply. The first question about a part takes so
// much work, 0 for what is usual.
func proveAudited(m *problem.Model, first int64, dice uint64, seen *proofTally) bool {
	plans, ok := tiny.PlansOf(m, auditedPlans)
	if !ok {
		return false
	}
	s := NewPlan(m)
	s.SettleHomes()
	covered, bound := s.chooseOpening()
	s = s.firstPlan(covered).s
	if tiny.LeavesSome(s.Jobs) {
		seen.leaving++
	}
	seen.models++
	seen.plans += len(plans)
	r := rand.New(rand.NewPCG(dice, 1))
	s.stated = func(p *prover) { p.k.Kernel.SetAudit(newPaper(p, plans, r, seen).audit()) }
	p := s.prove(context.Background(), bound, Options{Budget: s.Spent + 2_000_000, first: first}.filled(), func(*prover) {})
	askAudited(m, plans, r, seen)
	best, some := problem.Cost{}, false
	for i := range plans {
		if c := plans[i].Cost; (!some || c.Less(best)) && tiny.CanStand(m, &plans[i], func(b int) bool { return s.Homes[b].Homeless }) {
			best, some = c, true
		}
	}
	switch {
	case p.cost.Less(best) || !some:
		seen.fail("got cost %+v, better than the best of all plans, %+v", p.cost, best)
	case p.cost == p.bound && p.cost != best:
		seen.fail("cost %+v said to be the best; the best of all plans is %+v", p.cost, best)
	case p.cost == p.bound:
		seen.proved++
	}
	for part := range problem.CostParts {
		if p.bound.Parts()[part] > best.Parts()[part] {
			seen.fail("cost %+v bounded by %+v in part %d; the best of all plans is %+v", p.cost, p.bound, part, best)
		}
		if p.cost.Parts()[part] != best.Parts()[part] {
			break // what follows is bounded for plans that have as much of it
		}
	}
	return true
}

// statedQuestions is how many questions are asked of each statement.
const statedQuestions = 40

// askAudited states a model with few slots, so that plans go beyond them, and asks for
// plans with what two of the list have, below what one of them costs: mostly there are none,
// and much is learned.
func askAudited(m *problem.Model, plans []tiny.ListedPlan, r *rand.Rand, seen *proofTally) {
	s := NewPlan(m)
	s.SettleHomes()
	s.chooseOpening()
	p := &prover{s: s, count: statement.NewCounts()}
	for f := range m.Families {
		for _, due := range problem.DuesOf(m, f) {
			p.count.Open[problem.Delivery{Family: f, Due: due}] = r.IntN(3)
			p.count.Spare[problem.Delivery{Family: f, Due: due}] = r.IntN(2)
		}
	}
	k, ok := statement.Of(&s.Schedule, s.Frozen, p.count)
	if !ok {
		return
	}
	p.k = k
	l := newPaper(p, plans, r, seen)
	k.Kernel.SetAudit(l.audit())
	for range min(statedQuestions, statedQuestions*len(l.rows)) {
		var assume []kernel.Lit
		for range 2 {
			row := l.rows[r.IntN(len(l.rows))]
			for range r.IntN(5) {
				x := kernel.Var(r.IntN(len(row)))
				assume = append(assume, []kernel.Lit{x.Ge(row[x]), x.Le(row[x])}[r.IntN(2)])
			}
			part := k.Cost[r.IntN(len(k.Cost))]
			assume = append(assume, part.Le(row[part]-int32(r.IntN(2))))
		}
		for _, o := range k.Over {
			if r.IntN(2) == 0 {
				assume = append(assume, o.None())
			}
		}
		k.Kernel.Branch(k.NewBrancher().Next)
		if r.IntN(2) == 0 {
			k.Kernel.Branch(randomBut(r, nil))
		}
		seen.questions++
		switch k.Kernel.Search(context.Background(), 2_000_000, assume...) {
		case kernel.Impossible:
			seen.refused++
			if !l.against(assume, nil).empty() {
				seen.fail("%v refused, though there is such a plan", assume)
			}
		case kernel.Solved:
			if put, ok := k.PutBoxes(k.Answer()); !ok {
				p.doubt = !put.Sure
				k.Kernel.AddClause(put.Clause...)
			}
		}
	}
}

// inThrees has all amounts three times as large, so that they count in another unit than what is short.
func inThrees(m *problem.Model) {
	for f := range m.Families {
		for k := range m.Families[f].Modes {
			m.Families[f].Modes[k].Amount *= 3
		}
	}
	for i := range m.Intakes {
		m.Intakes[i].Amount *= 3
	}
}

// The whole statement, all of its propagators and all clauses of whole proofs: nothing that
// is derived leaves out a plan of the list that may still be.
func TestWholeProofsAgainstEveryPlan(t *testing.T) {
	var n proofTally
	all := 0
	tiny.CheckMany(t, testrun.Rounds(2, 6), func(t *rapid.T) {
		all++
		k := tiny.Small(t)
		k.Floors, k.Length = tiny.OneIn(t, 2, "floors"), tiny.DrawInt(t, 10, 16, "length")
		m := tiny.Tell(t, tiny.Within(t, tiny.Draw(t, k)))
		tiny.Lengthen(t, m)
		if tiny.OneIn(t, 3, "coarse amounts") {
			inThrees(m)
		}
		first := []int64{0, 20}[tiny.DrawInt(t, 0, 1, "hasty")] // then no question is answered at once
		if proveAudited(m, first, uint64(tiny.DrawInt(t, 0, 1<<30, "dice")), &n); n.fault != "" {
			fault := n.fault
			n.fault = ""
			t.Fatalf("%s\n%s", fault, tiny.Text(m))
		}
	})
	t.Logf("%d models drawn: %+v", all, n)
	for what, got := range map[string]int{"models": n.models, "plans beyond the slots": n.beyond, "learned clauses": n.learned,
		"parts held": n.held, "questions refused": n.refused, "reasons that say something of a plan": n.telling / 100} {
		if got < testrun.Rounds(10, 30) {
			t.Errorf("got %d %s: too few to mean much", got, what)
		}
	}
	if n.proved*10 < n.models*8 {
		t.Errorf("got %d of %d models proved: the proofs are too short to mean much", n.proved, n.models)
	}
}

// A step that leaves out a plan is seen, whichever kind it is; of boxes only where they stand.
func TestTheLedgerSeesWhatLeavesAPlanOut(t *testing.T) {
	mode := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Lag: problem.Lag{Most: 30}}}}
	m := &problem.Model{Step: 1, Horizon: 8, Families: []problem.Family{{Keeps: 4, Supply: -1, Modes: []problem.Mode{mode}}}, Demands: []problem.Demand{{Due: 6, Units: 1, Value: 1}}}
	plans, ok := tiny.PlansOf(m, auditedPlans)
	if !ok {
		t.Fatal("too many plans")
	}
	for _, c := range []struct {
		name string
		step func(a *kernel.Audit, made kernel.Lit, start kernel.Var)
		want bool
	}{
		{"good reason", func(a *kernel.Audit, made kernel.Lit, x kernel.Var) { a.Implied(x.Ge(4), []kernel.Lit{made, x.Ge(5)}) }, false},
		{"reason", func(a *kernel.Audit, made kernel.Lit, x kernel.Var) { a.Implied(x.Ge(6), []kernel.Lit{made, x.Ge(5)}) }, true},
		{"conflict", func(a *kernel.Audit, made kernel.Lit, x kernel.Var) { a.Conflict([]kernel.Lit{made, x.Ge(5)}) }, true},
		{"learned", func(a *kernel.Audit, made kernel.Lit, x kernel.Var) { a.Learned([]kernel.Lit{made.Not(), x.Ge(5)}) }, true},
		{"stated", func(a *kernel.Audit, made kernel.Lit, x kernel.Var) { a.Stated([]kernel.Lit{made.Not(), x.Le(4)}) }, true},
	} {
		s := NewPlan(m)
		s.chooseOpening()
		p := &prover{s: s, count: statement.NewCounts()}
		p.count.Open[problem.Delivery{Family: 0, Due: 6}] = 1
		if p.k, ok = statement.Of(&s.Schedule, s.Frozen, p.count); !ok {
			t.Fatal("not stated")
		}
		var seen proofTally
		l := newPaper(p, plans, rand.New(rand.NewPCG(1, 1)), &seen)
		sl := p.k.Slots[0]
		p.k.Kernel.Branch(func(*kernel.Solver) (kernel.Lit, bool) { // once what is assumed is true
			c.step(l.audit(), sl.Present(), sl.Start[0])
			return kernel.Lit{}, false
		})
		p.k.Kernel.Search(context.Background(), 1<<30, sl.Present(), sl.Start[0].Ge(5))
		if got := seen.fault != ""; got != c.want {
			t.Errorf("%s: seen %v, want %v", c.name, got, c.want)
		}
	}
}
