package planner_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
	"ripeby/schedule/testrun"
)

// Whatever the kitchen, and whether the plan carries on another or not: the plan in
// which one stage is moved to its earliest or its latest start, that batch's earlier
// stages and all other batches as they were, keeps every rule.
func TestEverySlipHolds(t *testing.T) {
	seen := map[string]int{}
	testrun.Checks(t, 30)
	rapid.Check(t, func(t *rapid.T) {
		p := kitchens().Draw(t, "kitchen")
		if rapid.Bool().Draw(t, "carried on") {
			plan, _ := written(t, p, planFor(t, p, smallBudget))
			p = later(p, plan, p.From.Add(minutes(rapid.IntRange(1, 6*24*60).Draw(t, "moved on"))))
		}
		plan, slips := planner.PlanWithSlips(p, smallBudget)
		mustHold(t, p, plan)
		for i := range plan.Batches {
			for k := range plan.Batches[i].Stages {
				seen["stages"]++
				if plan.Batches[i].Stages[k].Critical {
					seen["critical"]++
				}
			}
		}
		for _, s := range slips {
			slipHolds(t, p, plan, &s)
			if s.Until {
				seen["later"]++
			} else {
				seen["sooner"]++
			}
			if plan.Batches[s.Batch].Begun {
				seen["of begun"]++
			}
		}
	})
	t.Log(seen)
	if seen["stages"] >= 500 && !t.Failed() && (3*seen["later"] < seen["stages"] || 4*seen["sooner"] < seen["stages"]) {
		t.Errorf("of %d stages %d can go later and %d sooner, want a third and a quarter", seen["stages"], seen["later"], seen["sooner"])
	}
}

// slipHolds judges one moved plan and holds it to the plan that it comes of.
func slipHolds(t *rapid.T, p *schedule.Problem, plan *schedule.Plan, s *planner.Slipped) {
	was, is := &plan.Batches[s.Batch], &s.Plan.Batches[s.Batch]
	told, name := was.Stages[s.Stage].SlipFrom, "slip_from"
	if s.Until {
		told, name = was.Stages[s.Stage].SlipUntil, "slip_until"
	}
	if s.At() != told {
		t.Errorf("%s %s: %s is %d, the plan that shows it has %d", was.ID, is.Stages[s.Stage].Stage, name, told, s.At())
	}
	s.Plan.Proof = schedule.Proof{Level: schedule.LevelAll, Best: true, Bound: s.Plan.Score}
	for _, v := range judge.Check(p, s.Plan) {
		if v.Rule == "score" {
			continue // a moved batch may cost more
		}
		t.Errorf("%s %s moved to its %s, %s: %v", was.ID, is.Stages[s.Stage].Stage, name, told.In(p.Kitchen.Zone), v)
	}
	for i := range plan.Batches {
		if i != s.Batch && !reflect.DeepEqual(placed(&plan.Batches[i]), placed(&s.Plan.Batches[i])) {
			t.Errorf("%s moved with %s", plan.Batches[i].ID, was.ID)
		}
	}
	if !reflect.DeepEqual(worked(was, s.Stage), worked(is, s.Stage)) || was.Litres != is.Litres || !reflect.DeepEqual(was.For, is.For) {
		t.Errorf("%s is not the batch that it was before %s", was.ID, is.Stages[s.Stage].Stage)
	}
	if s.Stage == 0 && !reflect.DeepEqual(was.Milk, is.Milk) {
		t.Errorf("%s takes other milk", was.ID)
	}
}

// stagePlaced is where and when a stage is, but not how long its hold is, which the next
// stage says.
type stagePlaced struct {
	start resources.Moment
	work  resources.Minutes
	who   string
	at    string
}

// worked are the stages with work before one. How a wait of several stages is parted is
// the planner's choice and may be another when it becomes longer or shorter.
func worked(b *schedule.Batch, before int) []stagePlaced {
	var out []stagePlaced
	for _, s := range placed(b)[:before] {
		if s.work > 0 {
			out = append(out, s)
		}
	}
	return out
}

func placed(b *schedule.Batch) []stagePlaced {
	var out []stagePlaced
	for _, s := range b.Stages {
		out = append(out, stagePlaced{s.Start, s.Work, s.Who, s.At})
	}
	return out
}

// Where the work allowed does not tell how far stages may slip, the plan says so.
func TestSlipsCutShortAreSaid(t *testing.T) {
	zone := zoneNamed(t, "UTC")
	p := paperKitchen(zone, at(zone, 2027, 3, 1, 6, 0), at(zone, 2027, 3, 20, 7, 0))
	if plan := planFor(t, p, smallBudget); len(plan.Batches) == 0 || len(plan.Warnings) > 0 {
		t.Fatalf("got %d batches and warnings %v, want a batch and none", len(plan.Batches), plan.Warnings)
	}
	plan := planner.PlanWithSlipsCut(p, smallBudget)
	mustHold(t, p, plan)
	if len(plan.Warnings) != len(plan.Batches) || plan.Warnings[0].Code != "slips-cut" {
		t.Errorf("got warnings %v, want that of each batch's slips", plan.Warnings)
	}
}
