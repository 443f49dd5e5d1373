package bound

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// Over all plans with the least short, the least amount for each number of jobs is
// never below the bound for so many; and it meets it often enough to be of use.
func TestAmountForJobsIsBelowEveryPlan(t *testing.T) {
	asked, met, above := 0, 0, 0
	tiny.CheckMany(t, 2, func(t *rapid.T) {
		k := tiny.Shape{Families: tiny.DrawInt(t, 1, 2, "families"), Demands: tiny.DrawInt(t, 2, 3, "demands"), Acts: 1, Length: 12, Odd: true,
			Worthless: tiny.OneIn(t, 4, "worthless"), Uneven: tiny.OneIn(t, 4, "uneven"), LeastOverAhead: tiny.OneIn(t, 4, "rests"),
			Stocks: tiny.DrawInt(t, 0, 1, "stocks"), Begun: tiny.DrawInt(t, 0, 1, "begun")}
		m := tiny.Within(t, tiny.Draw(t, k))
		if units := 0; k.Demands == 3 {
			for d := range m.Demands {
				units += m.Demands[d].Units
			}
			if units > 4 {
				return // listing every plan of these takes too long
			}
		}
		w, ok := tiny.EveryPlan(m)
		if !ok {
			return
		}
		s, x, bound := boundOf(m)
		least := map[int64]int64{}
		for c := range w.Costs {
			if c.PromisedShort != bound.PromisedShort || c.Short != bound.Short || c.Jobs == bound.Jobs {
				continue
			}
			if v, some := least[c.Jobs]; !some || c.Amount < v {
				least[c.Jobs] = c.Amount
			}
		}
		for jobs, amount := range least {
			b := x.leastForJobs(s, jobs)
			if b > amount {
				t.Fatalf("%d jobs: bound %d above a plan's %d\n%s", jobs, b, amount, tiny.Text(m))
			}
			asked++
			if b == amount {
				met++
			}
			if b > leastAmount(s.Model, problem.Cost{PromisedShort: bound.PromisedShort, Short: bound.Short, Jobs: jobs}) {
				above++
			}
		}
	})
	t.Logf("%d numbers of jobs, %d met, %d above the bound by value", asked, met, above)
	enough := 20
	if testing.Short() { // a fifth of the models are drawn
		enough = 5
	}
	if asked < enough || met*2 < asked || above*4 < asked {
		t.Errorf("of %d numbers of jobs %d met and %d above the bound by value: the test or the bound says too little", asked, met, above)
	}
}

// Four units a day apart, jobs of up to three that come to 2, 6 and 7: one of three
// and one of one are 9, three jobs are 10 at the least, four are 8.
func TestAmountForJobsByHand(t *testing.T) {
	acts := []problem.Activity{{Lag: problem.Lag{Most: 40}}}
	f := problem.Family{Keeps: 30, Supply: -1}
	for n, amount := range []int64{2, 6, 7} {
		f.Modes = append(f.Modes, problem.Mode{Amount: amount, Units: n + 1, Acts: acts})
	}
	m := &problem.Model{Step: 1, Horizon: 60, Families: []problem.Family{f, f}}
	for d := range 8 {
		m.Demands = append(m.Demands, problem.Demand{Family: d % 2, Due: 10 + d, Units: 1, Value: 1})
	}
	s, x, bound := boundOf(m)
	if want := (problem.Cost{Jobs: 4, Amount: 18, Early: bound.Early}); bound != want {
		t.Errorf("got %+v, want %+v", bound, want)
	}
	for jobs, want := range map[int64]int64{3: noAmount, 4: 18, 5: 19, 6: 17, 7: 18, 8: 16, 9: noAmount} {
		if got := x.leastForJobs(s, jobs); got != want {
			t.Errorf("%d jobs: got %d, want %d", jobs, got, want)
		}
	}
}
