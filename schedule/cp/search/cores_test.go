package search

import (
	"context"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/statement"
	"ripeby/schedule/cp/tiny"
	"ripeby/schedule/testrun"
)

// coreTally is what has been seen of cores.
type coreTally struct{ models, raised, joined, met int }

// raiseAudited bounds the penalty of a model's first plan from its summands up, every step held
// against all plans, and then the bound.
func raiseAudited(t *rapid.T, m *problem.Model, dice uint64, seen *coreTally) {
	plans, ok := tiny.PlansOf(m, auditedPlans)
	if !ok {
		return
	}
	s := NewPlan(m)
	s.SettleHomes()
	covered, cover := s.chooseOpening()
	s = s.firstPlan(covered).s
	if tiny.LeavesSome(s.Jobs) {
		return
	}
	var steps proofTally
	p := &prover{s: s, cost: s.Cost(), cover: cover, ctx: context.Background(), until: s.Spent + 50_000_000, count: statement.NewCounts(), found: func(*prover) {}}
	p.part, p.sure = problem.PartPenalty, problem.PartPenalty
	p.bound = p.boundOf(s, p.cost)
	s.stated = func(p *prover) {
		p.k.Kernel.SetAudit(newPaper(p, plans, rand.New(rand.NewPCG(dice, 1)), &steps).audit())
	}
	if !p.restate() {
		return
	}
	p.hold(problem.PartPenalty)
	p.k.SumUp(problem.PartPenalty)
	p.cost.Penalty += 50 // as if the plan were worse: then that it is better says nothing of its summands
	was := p.bound.Penalty
	p.raise(problem.PartPenalty, 1_000_000, p.until)
	if steps.fault != "" {
		t.Fatalf("%s\n%s", steps.fault, tiny.Text(m))
	}
	if p.doubt {
		return
	}
	seen.models++
	if p.bound.Penalty > was {
		seen.raised++
	}
	if n := len(p.sums); n > 0 && n < len(p.k.Slots) {
		seen.joined++
	}
	best := int64(problem.Infinite)
	for i := range plans {
		c := plans[i].Cost
		same := c.ServesAs(p.cost)
		if same && tiny.CanStand(m, &plans[i], func(b int) bool { return s.Homes[b].Homeless }) {
			best = min(best, c.Penalty)
		}
	}
	if p.bound.Penalty > best || p.bound.Penalty > p.cost.Penalty {
		t.Fatalf("penalty bounded by %d, plan %d, best of all %d\n%s", p.bound.Penalty, p.cost.Penalty, best, tiny.Text(m))
	}
	if p.bound.Penalty == p.cost.Penalty {
		seen.met++
	}
}

// oneHand is up to three jobs of two families that one person has to begin, one after another,
// though each is best begun at a moment of its own: what they cost comes of others.
func oneHand(t *rapid.T) *problem.Model {
	m := &problem.Model{Step: 1, Horizon: 14, FitFloor: tiny.LinePacking, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 14}}}}}
	for range 2 {
		lag := problem.Lag{Most: 4}
		for range 5 {
			lag.Cost = append(lag.Cost, int32(tiny.DrawInt(t, 0, 9, "cost")))
		}
		mode := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Work: 2, Workers: []int{0}, Lag: lag}, {}}}
		m.Families = append(m.Families, problem.Family{Supply: -1, Modes: []problem.Mode{mode}})
	}
	for range 3 {
		m.Demands = append(m.Demands, problem.Demand{Family: tiny.DrawInt(t, 0, 1, "family"), Due: tiny.DrawInt(t, 8, 10, "due"), Units: 1, Value: 1})
	}
	return m
}

// The summands of a part come to what the part is, whatever the plan; the penalty has one of each
// job.
func TestSummandsComeToTheirPart(t *testing.T) {
	costly := 0
	tiny.CheckMany(t, 1, func(t *rapid.T) {
		m := oneHand(t)
		s := NewPlan(m)
		s.SettleHomes()
		covered, _ := s.chooseOpening()
		s = s.firstPlan(covered).s
		count := statement.NewCounts()
		count.MakeRoom(&s.Ledger)
		k, ok := statement.Of(&s.Schedule, nil, count)
		if !ok {
			t.Fatalf("not stated\n%s", tiny.Text(m))
		}
		values, fits := k.ValuesOf(&s.Ledger)
		if !fits {
			t.Fatalf("the plan does not fit\n%s", tiny.Text(m))
		}
		for part := range problem.CostParts {
			sum, xs := int32(0), k.Summands(part)
			for _, x := range xs {
				sum += values[x]
			}
			if want := k.Value(s.Cost(), part); len(xs) > 0 && sum != want {
				t.Fatalf("the summands of part %d come to %d, the plan has %d\n%s", part, sum, want, tiny.Text(m))
			}
		}
		if n := len(k.Summands(problem.PartPenalty)); n != len(k.Slots) {
			t.Fatalf("%d summands of the penalty, want %d", n, len(k.Slots))
		}
		if s.Cost().Penalty > 0 {
			costly++
		}
	})
	if costly < tiny.Few(20) {
		t.Errorf("%d plans cost anything: too few to mean much", costly)
	}
}

// What cores say of the penalty no plan contradicts, nor a step of theirs; mostly they prove it.
func TestCoresBoundThePenalty(t *testing.T) {
	var n coreTally
	tiny.CheckMany(t, testrun.Rounds(1, 4), func(t *rapid.T) {
		m := oneHand(t)
		if tiny.OneIn(t, 4, "anything") {
			m = tiny.Within(t, tiny.Draw(t, tiny.Small(t)))
			tiny.Lengthen(t, m)
		}
		raiseAudited(t, m, uint64(tiny.DrawInt(t, 0, 1<<30, "dice")), &n)
	})
	t.Logf("%+v", n)
	if n.raised < tiny.Few(testrun.Rounds(30, 100)) || n.joined < tiny.Few(testrun.Rounds(8, 30)) || n.met*10 < n.models*8 {
		t.Errorf("%+v: too few to mean much", n)
	}
}

// A plan that is found while a later part is pressed leaves what is proved of the first part that
// is open.
func TestABoundOutlivesABetterPlan(t *testing.T) {
	lag := problem.Lag{Most: 4, Cost: []int32{9, 5, 5, 5, 9}}
	mode := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Work: 2, Workers: []int{0}, Lag: lag}, {}}}
	m := &problem.Model{Step: 1, Horizon: 14, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 14}}}},
		Families: []problem.Family{{Supply: -1, Modes: []problem.Mode{mode}}}, Demands: []problem.Demand{{Due: 8, Units: 1, Value: 1}}}
	s := NewPlan(m)
	covered, cover := s.chooseOpening()
	s = s.firstPlan(covered).s
	p := &prover{s: s, cost: s.Cost(), cover: cover, part: problem.CostParts - 1, sure: problem.PartPenalty}
	p.bound = p.cost
	p.cover.Penalty = 0 // as if the covers knew nothing of it
	p.rebound(s, s.Cost())
	if p.bound.Penalty != 5 {
		t.Errorf("the penalty's bound is %d, want 5 as it was proved", p.bound.Penalty)
	}
}
