package bound

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// Whatever a plan is short of, its jobs and its amount are never below what its value
// short allows; and that says more than the bound by value alone.
func TestJobsAndAmountForShortAreBelowEveryPlan(t *testing.T) {
	asked, more, met := 0, 0, 0
	tiny.CheckMany(t, 2, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Odd, k.Acts, k.Begun = true, 1, tiny.DrawInt(t, 0, 1, "few begun")
		k.Worthless = tiny.OneIn(t, 4, "worthless")
		m := tiny.Within(t, tiny.Draw(t, k))
		w, ok := tiny.EveryPlan(m)
		if !ok {
			return
		}
		s, x, bound := boundOf(m)
		least := map[[2]int64]int64{} // amount by value short and jobs
		for c := range w.Costs {
			key := [2]int64{c.PromisedShort + c.Short, c.Jobs}
			if v, some := least[key]; !some || c.Amount < v {
				least[key] = c.Amount
			}
		}
		for key, amount := range least {
			c := problem.Cost{Short: key[0], Jobs: key[1], Amount: amount}
			jobs, litres := x.jobsForShort(s, c), x.amountForShort(s, c)
			if jobs > c.Jobs || litres > c.Amount {
				t.Fatalf("bound of %d jobs and an amount of %d above a plan %+v\n%s", jobs, litres, c, tiny.Text(m))
			}
			if key[0] > bound.PromisedShort+bound.Short {
				asked++
				if jobs > leastJobsFor(s.Model, c) || litres > leastAmount(s.Model, c) {
					more++
				}
				if litres == c.Amount {
					met++
				}
			}
		}
		checkBound(t, m, w)
	})
	t.Logf("%d plans short, %d bounded better than by value, %d met", asked, more, met)
	if asked < 50 || more*5 < asked || met*4 < asked {
		t.Errorf("of %d plans short %d bounded better than by value and %d met: the test or the bound says too little", asked, more, met)
	}
}

// Six units a day apart, worth 9, 1, 9, 9, 1, 9; jobs of up to three that come to 4, 5
// and 6. Two jobs serve all; one of three leaves three short, at the least 9, 1 and 1
// when it passes over the cheap ones between.
func TestJobsForShortByHand(t *testing.T) {
	acts := []problem.Activity{{Lag: problem.Lag{Most: 40}}}
	f := problem.Family{Keeps: 30, Supply: -1}
	for n, amount := range []int64{4, 5, 6} {
		f.Modes = append(f.Modes, problem.Mode{Amount: amount, Units: n + 1, Acts: acts})
	}
	m := &problem.Model{Step: 1, Horizon: 60, Families: []problem.Family{f}}
	for d, value := range []int64{9, 1, 9, 9, 1, 9} {
		m.Demands = append(m.Demands, problem.Demand{Due: 10 + d, Units: 1, Value: value})
	}
	s, x, _ := boundOf(m)
	for _, c := range []struct{ short, jobs, amount int64 }{{0, 2, 12}, {1, 2, 11}, {2, 2, 10}, {11, 1, 6}, {12, 1, 6}, {38, 0, 0}} {
		cost := problem.Cost{Short: c.short, Jobs: c.jobs}
		if got := x.jobsForShort(s, cost); got != c.jobs {
			t.Errorf("short of %d: got %d jobs, want %d", c.short, got, c.jobs)
		}
		if got := x.amountForShort(s, cost); got > c.amount || got < c.amount-1 {
			t.Errorf("short of %d: got an amount of %d, want %d or little less", c.short, got, c.amount)
		}
	}
}
