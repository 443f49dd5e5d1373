package search

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
	"ripeby/schedule/testrun"
)

// Of a plan with something late or stuck nothing is proved: half of what the proof would have
// had goes into finding a better one.
func TestThePlanOfALateKitchenHasTheWork(t *testing.T) {
	const budget = 400_000
	late := 0
	tiny.CheckMany(t, 4, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Demands, k.Length, k.Begun = tiny.DrawInt(t, 2, 5, "demands"), 30, tiny.DrawInt(t, 1, 2, "begun")
		m := tiny.Draw(t, k)
		r := searched(context.Background(), m, Options{Budget: budget})
		if !slices.ContainsFunc(r.Jobs, func(j problem.Job) bool { return j.Stuck || j.Late > 0 }) || r.Cost == r.Bound || r.Cost.Short+r.Cost.PromisedShort == 0 {
			return
		}
		late++
		if r.Spent < budget*7/16-budget/50 { // an eighth is kept for reasons
			t.Fatalf("%d of %d spent; cost %+v, bound %+v\n%s", r.Spent, budget, r.Cost, r.Bound, tiny.Text(m))
		}
	})
	t.Logf("%d with something late and short", late)
	if late < tiny.Few(10) {
		t.Errorf("got %d: too few to mean much", late)
	}
}

// The bound of a plan that was found so is what is known beside that plan, not beside the one
// before.
func TestTheBoundOfALateKitchenIsOfItsPlan(t *testing.T) {
	late := 0
	tiny.CheckMany(t, testrun.Rounds(5, 20), func(t *rapid.T) {
		k := tiny.Small(t)
		k.Demands, k.Length, k.Begun = tiny.DrawInt(t, 3, 6, "demands"), 30, tiny.DrawInt(t, 2, 3, "begun")
		m := tiny.Draw(t, k)
		r := searched(context.Background(), m, Options{Budget: 60_000})
		s := NewPlan(m)
		s.SettleHomes()
		_, covers := s.chooseOpening()
		for i := range r.Jobs {
			s.Jobs = append(s.Jobs, &r.Jobs[i])
		}
		if !s.OutOfCourse() {
			return
		}
		late++
		if want := s.bounded(covers, r.Cost); r.Bound != want {
			t.Fatalf("bound %+v, want %+v; cost %+v\n%s", r.Bound, want, r.Cost, tiny.Text(m))
		}
	})
	if late < tiny.Few(testrun.Rounds(5, 20)) {
		t.Errorf("got %d late: too few to mean much", late)
	}
}
