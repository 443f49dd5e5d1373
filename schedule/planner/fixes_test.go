package planner_test

import (
	"context"
	"fmt"
	"testing"

	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner/whatif"
	"ripeby/schedule/testrun"
)

// Every change that is offered for a short want gives what it promised: the plan that
// shows it holds, gives that much more, and takes nothing from anybody; and planned again
// from the changed folder, no more is short than that plan leaves.
func TestEveryFixGivesWhatItPromised(t *testing.T) {
	end := testrun.Rounds(24, 64)
	kinds, whys, proved := map[whatif.ChangeKind]int{}, 0, 0
	for i := range end {
		e, _ := tinyKitchen(*everySeed, i)
		p := *e.p
		plan := planFor(t, &p, everyBudget)
		p.Earlier = plan
		for d, w := range plan.Targets {
			if w.Short == 0 || w.Price == 0 {
				continue
			}
			var why *whatif.Why
			for _, why = range whatif.WhyShort(context.Background(), &p, []int{d}, whatif.WhyOptions{}) {
			}
			if why == nil {
				t.Errorf("kitchen %d: the plan is not in force\n%s", i, drawn(&p))
				continue
			}
			whys++
			if why.Proved {
				proved++
			}
			for _, f := range why.Fixes {
				kinds[f.Kind]++
				show := fmt.Sprintf("kitchen %d, want %d, %s: %d more\n%s\n%s", i, d, f.Text, f.Gains, drawn(&p), outline(plan))
				for _, v := range judge.Check(f.With, f.Plan) {
					t.Errorf("judge: %v; %s", v, show)
				}
				promised(t, show, plan, &f, d)
				again := planFor(t, f.With, everyBudget)
				if again.Score.PromisedShort > f.Plan.Score.PromisedShort || again.Score.PromisedShort == f.Plan.Score.PromisedShort && again.Score.Short > f.Plan.Score.Short {
					t.Errorf("planned again: %+v; promised %+v; %s", again.Score, f.Plan.Score, show)
				}
			}
			break // one want a kitchen is enough
		}
	}
	t.Logf("%d short wants, %d proved, fixes %v", whys, proved, kinds)
	if whys < end/4 || proved*10 < whys*9 || len(kinds) < 3 {
		t.Errorf("%d short wants, %d proved, fixes %v: too few to mean much", whys, proved, kinds)
	}
}

// promised checks that a fix's plan gives its want as many more as it says, and every
// other what it had.
func promised(t *testing.T, show string, before *schedule.Plan, f *whatif.Fix, wanted int) {
	t.Helper()
	if n := len(f.Plan.Targets); f.Later || f.Also >= 0 {
		if f.Later {
			if got := f.Plan.Targets[n-1].Met; got != f.Gains {
				t.Errorf("got %d later, promised %d; %s", got, f.Gains, show)
			}
		} else if f.Plan.Targets[n-1].Short > 0 || f.Plan.Targets[wanted].Met != before.Targets[wanted].Met+f.Gains {
			t.Errorf("got %d and %d short of the other, promised %d more; %s", f.Plan.Targets[wanted].Met, f.Plan.Targets[n-1].Short, f.Gains, show)
		}
	} else if got := f.Plan.Targets[wanted].Met - before.Targets[wanted].Met; got < f.Gains {
		t.Errorf("got %d more, promised %d; %s", got, f.Gains, show)
	}
	for o, w := range before.Targets {
		if met := f.Plan.Targets[o].Met; o != wanted && met < w.Met && f.Also < 0 {
			t.Errorf("takes %d from want %d; %s", w.Met-met, o, show)
		}
	}
}
