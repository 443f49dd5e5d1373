package planner_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
	"ripeby/schedule/testrun"
)

// An order that was said to fit is met by the next plan, with all that was met before, also
// where there is little work: planning begins from the plan that the answer had.
func TestWhatFitsIsInTheNextPlan(t *testing.T) {
	p := seasonKitchen(time.UTC)
	const work = 8_000_000
	p.Earlier = planFor(t, p, work)
	taken, enough := 0, 3
	orders := []whatif.Order{{Cheese: "Bloomy", Pieces: 14}, {Cheese: "Fresh", Pieces: 18}, {Cheese: "Bloomy", Pieces: 20}, {Cheese: "Fresh", Pieces: 30}}
	for i, o := range orders {
		if !testrun.Long && i < len(orders)-1 {
			enough = 1
			continue // the last is the one that a search alone does not find
		}
		o.Target, o.Price = "order", resources.Money(1+i)
		o.By = p.From.DateIn(time.UTC).AddDays(7*(4+2*i)+4).At(resources.Clock(9*60), time.UTC)
		f := whatif.Fits(context.Background(), p, o, whatif.FitOptions{Work: work / 8})
		if f.Plan == nil {
			continue
		}
		taken++
		with := o.With(p)
		plan := planFor(t, with, work)
		mustHold(t, with, plan)
		if s, before := plan.Score, f.Plan.Score; s.PromisedShort > before.PromisedShort || s.PromisedShort == before.PromisedShort && s.Short > before.Short {
			t.Errorf("order %d: the next plan is short of %d promised and %d, the answer's of %d and %d", i, s.PromisedShort, s.Short, before.PromisedShort, before.Short)
		}
	}
	if taken < enough {
		t.Errorf("%d orders fit: too few to mean much", taken)
	}
}

// More new wants than are taken in one by one, and an earlier plan that does not stand any
// more, are planned all the same.
func TestManyNewWantsArePlanned(t *testing.T) {
	p := seasonKitchen(time.UTC)
	p.Targets = p.Targets[:testrun.Rounds(16, len(p.Targets))]
	few := *p
	few.Targets = p.Targets[:12]
	p.Earlier = planFor(t, &few, 1_000_000)
	mustHold(t, p, planFor(t, p, 1_000_000))
	shut := *p
	shut.Recipes = append([]schedule.Recipe(nil), p.Recipes...)
	shut.Recipes[0].Stages = append([]schedule.Stage(nil), p.Recipes[0].Stages...)
	shut.Recipes[0].Stages[3].Hold = &schedule.Hold{Least: 9 * resources.Day, Best: 12 * resources.Day, Most: 16 * resources.Day, HasBest: true}
	mustHold(t, &shut, planFor(t, &shut, 1_000_000))
}

// What is said of a batch under way is said once, also where an order was taken before.
func TestWarningsAreSaidOnce(t *testing.T) {
	p := seasonKitchen(time.UTC)
	p.Targets = p.Targets[:4]
	began := func(stage string, days int) schedule.BegunStage {
		return schedule.BegunStage{Stage: stage, Start: p.From.Add(-resources.Minutes(days) * resources.Day)}
	}
	p.Begun = []schedule.Begun{{ID: "B-270415-1", Cheese: "Bloomy", Litres: litres(4), Pieces: -1, At: "cave",
		Stages: []schedule.BegunStage{began("make", 18), began("set", 17), began("ladle", 16), began("ripen", 15)}}}
	p.Earlier = planFor(t, p, 2_000_000)
	o := whatif.Order{Target: "order", Cheese: "Fresh", Pieces: 3, Price: 100, By: p.Targets[0].By}
	texts := func(plan *schedule.Plan) []string {
		var out []string
		for _, w := range plan.Warnings {
			out = append(out, w.Code+": "+w.Text)
		}
		return out
	}
	want := texts(p.Earlier)
	if len(want) == 0 {
		t.Fatal("there is nothing to say: nothing is tested")
	}
	if got := texts(planFor(t, o.With(p), 2_000_000)); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
