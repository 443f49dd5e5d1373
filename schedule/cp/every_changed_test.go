package cp

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
	"ripeby/schedule/testrun"
)

// What is said of work that is otherwise than told: of all plans that have it as it was told, the
// best is worse first in the part that is named. By listing all plans.
func TestChangedByThePartThatIsNamed(t *testing.T) {
	by := map[int]int{}
	tiny.CheckMany(t, testrun.Rounds(5, 60), func(t *rapid.T) {
		k := tiny.Small(t)
		k.Begun, k.Length, k.Demands = tiny.DrawInt(t, 0, 1, "begun"), tiny.DrawInt(t, 10, 16, "length"), tiny.DrawInt(t, 1, 2, "few demands")
		m := tiny.Draw(t, k)
		m = tiny.TellAs(t, m, Solve(context.Background(), m, search.Options{Budget: 300_000}))
		plans, ok := tiny.PlansOf(m, 400)
		r := Solve(context.Background(), m, search.Options{Budget: 500_000})
		if !ok || r.Cost != r.Bound {
			return
		}
		for _, c := range r.Changed {
			best, some := problem.Cost{}, false
			for i := range plans {
				if p := &plans[i]; p.AsTold(m, c) && (!some || p.Cost.Less(best)) && tiny.CanStand(m, p, func(int) bool { return false }) {
					best, some = p.Cost, true
				}
			}
			want := problem.ByItself
			if some {
				want = problem.ByNothing
				for part := problem.CostParts - 1; part >= 0; part-- {
					if best.Parts()[part] != r.Cost.Parts()[part] {
						want = part
					}
				}
			}
			if c.By == problem.ByLittle && (want == problem.ByNothing || want >= problem.PartPenalty) {
				want = c.By
			}
			late := want >= 0 && want <= problem.PartLate && len(m.Begun) > 0
			if by[c.By]++; c.By != want && c.By != problem.ByUnknown && !(c.By == problem.ByItself && late) {
				t.Fatalf("got %+v by part %d, want %d; cost %+v, as told at best %+v (%v)\n%s", c, c.By, want, r.Cost, best, some, tiny.Text(m))
			}
		}
	})
	t.Logf("by part: %v", by)
	if testing.Short() { // a fifth of the models are drawn
		return
	}
	if len(by) < testrun.Rounds(3, 5) || by[problem.ByUnknown] > by[problem.ByItself] {
		t.Errorf("got %v: too few kinds to mean much", by)
	}
}
