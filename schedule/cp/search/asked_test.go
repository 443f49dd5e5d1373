package search

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/statement"
	"ripeby/schedule/cp/tiny"
)

// stated states a model with room for a plan, and gives the assumptions that hold
// the statement to exactly that plan; not ok where the statement does not cover it.
func stated(s *Plan) (*statement.Statement, []kernel.Lit, bool) {
	count := statement.NewCounts()
	for _, j := range s.Jobs {
		if j.Begun < 0 {
			count.Open[problem.Delivery{Family: j.Family, Due: j.End}]++
		}
	}
	for f := range s.Model.Families {
		for _, due := range problem.DuesOf(s.Model, f) {
			count.Open[problem.Delivery{Family: f, Due: due}]++
		}
	}
	if tiny.LeavesSome(s.Jobs) {
		return nil, nil, false
	}
	k, ok := statement.Of(&s.Schedule, s.Frozen, count)
	if !ok {
		return nil, nil, false
	}
	values, ok := k.ValuesOf(&s.Ledger)
	if !ok {
		return nil, nil, false
	}
	k.Kernel.Branch(k.NewBrancher().Next)
	return k, k.Pin(values), true
}

// TestTheStatementHoldsThePlan: what the kernel is told must let in the plans that the
// placing makes, at their cost: else it would prove too much.
func TestTheStatementHoldsThePlan(t *testing.T) {
	n, made := 0, 0
	tiny.CheckMany(t, 20, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Floors = tiny.OneIn(t, 3, "floors")
		k.Demands, k.Length = tiny.DrawInt(t, 1, 5, "demands"), 30
		m := tiny.Within(t, tiny.Draw(t, k))
		s := NewPlan(m)
		s.SettleHomes()
		covered, _ := s.chooseOpening()
		im := s.firstPlan(covered)
		q, hold, ok := stated(im.s)
		if !ok {
			return
		}
		n++
		made += len(im.s.Jobs)
		if st := q.Kernel.Search(context.Background(), 50_000_000, hold...); st != kernel.Solved {
			t.Fatalf("the plan's starts and pools: got %v, want solved\n%+v\n%s", st, im.s.Jobs, tiny.Text(m))
		}
	})
	t.Logf("%d plans of %d jobs", n, made)
	if n < 30 || made < n {
		t.Errorf("got %d plans of %d jobs: too few to mean much", n, made)
	}
}
