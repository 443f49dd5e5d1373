package planner_test

import (
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
	"ripeby/schedule/testrun"
)

// smallBudget keeps one of many plans quick.
const smallBudget = 300_000

// planFor plans, and fails on anything but a plan.
func planFor(t interface {
	Helper()
	Fatalf(string, ...any)
}, p *schedule.Problem, budget int64) *schedule.Plan {
	t.Helper()
	plan, err := planner.Plan(context.Background(), p, planner.Options{Budget: budget})
	if err != nil {
		t.Fatalf("planning: %v", err)
	}
	return plan
}

// mustHold fails with every violation that the judge finds.
func mustHold(t interface {
	Helper()
	Errorf(string, ...any)
}, p *schedule.Problem, plan *schedule.Plan) {
	t.Helper()
	for _, v := range judge.Check(p, plan) {
		t.Errorf("judge: %v", v)
	}
}

// shares counts how many of the drawn kitchens have something.
type shares struct {
	all  int
	with map[string]int
}

func (s *shares) note(name string, has bool) {
	if has {
		s.with[name]++
	}
}

func (s *shares) String() string {
	text := fmt.Sprintf("of %d kitchens", s.all)
	for _, name := range []string{"short", "proved", "batches", "begun", "stock", "milk", "round", "promised", "measured"} {
		text += fmt.Sprintf(", %s %d%%", name, 100*s.with[name]/max(1, s.all))
	}
	return text
}

// Whatever the kitchen, the plan keeps every rule of the contract and its score is
// what the judge makes of it.
func TestEveryPlanHolds(t *testing.T) {
	seen := &shares{with: map[string]int{}}
	testrun.Checks(t, 60)
	rapid.Check(t, func(t *rapid.T) {
		p := kitchens().Draw(t, "kitchen")
		plan := planFor(t, p, smallBudget)
		mustHold(t, p, plan)
		seen.all++
		seen.note("short", plan.Outcome == schedule.Short)
		seen.note("proved", plan.Proof.Best)
		seen.note("batches", plan.Score.Batches > 0)
		seen.note("begun", len(p.Begun) > 0)
		seen.note("stock", len(p.Stock) > 0)
		seen.note("milk", len(p.Kitchen.Milk) > 0)
		seen.note("round", len(plan.Rounds) > 0)
		seen.note("measured", len(p.Kitchen.Cold) > 1)
		for _, w := range plan.Targets {
			if w.Promised {
				seen.note("promised", true)
				break
			}
		}
	})
	t.Log(seen)
	if seen.all >= 60 && !t.Failed() && 3*seen.with["short"] < seen.all {
		t.Errorf("%d of %d kitchens are short of something, want at least a third", seen.with["short"], seen.all)
	}
}
