package cp

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/kernel"
)

// stated states a model with room for a plan, and gives the assumptions that hold
// the statement to exactly that plan; not ok where the statement does not cover it.
func stated(s *plan) (*asked, []kernel.Lit, bool) {
	count := newSlotCounts()
	for _, j := range s.jobs {
		if j.Begun < 0 {
			count.open[slotKey{j.Family, j.End}]++
		}
	}
	for f := range s.m.Families {
		for _, due := range duesOf(s.m, f) {
			count.open[slotKey{f, due}]++
		}
	}
	if s.outOfCourse() {
		return nil, nil, false
	}
	k, ok := ask(&s.schedule, s.frozen, count)
	if !ok {
		return nil, nil, false
	}
	values, ok := k.guide(&s.ledger)
	if !ok {
		return nil, nil, false
	}
	k.k.Branch(k.newBrancher().next)
	return k, k.pin(values), true
}

// TestTheStatementHoldsThePlan: what the kernel is told must let in the plans that the
// placing makes, at their cost: else it would prove too much.
func TestTheStatementHoldsThePlan(t *testing.T) {
	n, made := 0, 0
	checkMany(t, 20, func(t *rapid.T) {
		k := small(t)
		k.floors = oneIn(t, 3, "floors")
		k.demands, k.length = drawInt(t, 1, 5, "demands"), 30
		m := drawModel(t, k)
		s := newPlan(m)
		s.settleHomes()
		covered, _ := s.chooseOpening()
		im := s.firstPlan(covered)
		q, hold, ok := stated(im.s)
		if !ok {
			return
		}
		n++
		made += len(im.s.jobs)
		if st := q.k.Search(context.Background(), 50_000_000, hold...); st != kernel.Solved {
			t.Fatalf("the plan's starts and pools: got %v, want solved\n%+v\n%s", st, im.s.jobs, modelText(m))
		}
	})
	t.Logf("%d plans of %d jobs", n, made)
	if n < 30 || made < n {
		t.Errorf("got %d plans of %d jobs: too few to mean much", n, made)
	}
}
