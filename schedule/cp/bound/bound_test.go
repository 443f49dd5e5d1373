package bound

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// boundOf is the families' bound.
func boundOf(m *problem.Model) (*chain.Schedule, *Relaxation, problem.Cost) {
	s, x := chain.NewSchedule(m), NewRelaxation()
	s.SettleHomes()
	_, bound := x.Cover(s)
	return s, x, bound
}

// checkBound holds the bound against every plan there is.
func checkBound(t *rapid.T, m *problem.Model, w *tiny.Whole) {
	s, x, bound := boundOf(m)
	for c := range w.Costs {
		got := x.BoundFor(s, bound, c)
		a, b := got.Parts(), c.Parts()
		for i := range a {
			if a[i] > b[i] {
				t.Fatalf("bound %+v (families' %+v) is above a plan %+v in part %d\n%s", got, bound, c, i+1, tiny.Text(m))
			}
		}
	}
}

func TestBoundIsBelowEveryPlan(t *testing.T) {
	n, all := 0, 0
	tiny.CheckMany(t, 3, func(t *rapid.T) {
		all++
		k := tiny.Small(t)
		k.Worthless = tiny.OneIn(t, 3, "worthless")
		m := tiny.Within(t, tiny.Draw(t, k))
		w, ok := tiny.EveryPlan(m)
		if !ok {
			return
		}
		n++
		checkBound(t, m, w)
	})
	t.Logf("%d of %d models listed", n, all)
	if n*3 < all {
		t.Errorf("only %d of %d models listed: the test says too little", n, all)
	}
}

// Where nothing stands in the way of anything the cover is the best plan.
func TestCoverIsBestWithoutConflicts(t *testing.T) {
	n := 0
	rapid.Check(t, func(t *rapid.T) {
		m := tiny.Draw(t, tiny.Shape{Families: 1, Demands: tiny.DrawInt(t, 1, 2, "demands"), Acts: 2, Length: 9, Free: true, Intakes: tiny.OneIn(t, 3, "milk")})
		w, ok := tiny.EveryPlan(m)
		if !ok {
			return
		}
		n++
		_, _, bound := boundOf(m)
		if best := w.Best(); bound != best {
			t.Fatalf("cover %+v, best of all plans %+v\n%s", bound, best, tiny.Text(m))
		}
	})
	t.Logf("%d models listed", n)
}
