package planner_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
	"ripeby/schedule/testrun"
)

// oneMoreOf reports whether some plan of all there are gives a want one piece more while every
// other gets no less than a plan gave it; ok is false for too many plans.
func oneMoreOf(p *schedule.Problem, plan *schedule.Plan, w *schedule.WantResult) (is, ok bool) {
	t := &p.Targets[slices.IndexFunc(p.Targets, func(t schedule.Target) bool { return t.Name == w.Target && t.By == w.By })]
	all, ok := listKinds(beside(p, plan, whatif.Order{Target: "one more", Cheese: w.Cheese, Pieces: 1, By: w.By, Packed: t.Packed}))
	if !ok {
		return false, false
	}
	best, ok := all.solve([sides]bool{})
	return best.PromisedShort == 0, ok
}

// What a plan says of a want that is short agrees with what it proves, and with a list of all
// plans: what is ruled out cannot be, and what is proved is not said to be open. It says so in
// one short sentence. Plans that had too little work to be proved are among them.
func TestReasonsAgreeWithTheProof(t *testing.T) {
	kitchens, count := 0, map[string]int{}
	const open = "none is proved impossible"
	for i := range testrun.Rounds(32, 140) {
		e, _ := tinyKitchen(*everySeed, i)
		loose := slices.ContainsFunc(e.p.Recipes, func(r schedule.Recipe) bool { return r.Batch.Serves > 1 })
		for _, work := range []int64{everyBudget, int64(1+i%12) * 2_000} {
			plan := planFor(t, e.p, work)
			if plan.Outcome == schedule.Short {
				kitchens++
			}
			for d := range plan.Targets {
				w := &plan.Targets[d]
				if w.Short == 0 {
					continue
				}
				show := func() string {
					return fmt.Sprintf("kitchen %d, work %d, want %d: %s\n%s\n%s", i, work, d, w.Because, drawn(e.p), outline(plan))
				}
				if n := len([]rune(w.Because)); n > 160 || strings.Count(w.Because, ". ") > 1 {
					t.Errorf("%d letters; %s", n, show())
				}
				said, proved := strings.Contains(w.Because, open), plan.RulesOutMore(w)
				if said && proved {
					t.Errorf("it is proved, and said to be open; %s", show())
				}
				is, ok := oneMoreOf(e.p, plan, w)
				switch {
				case !ok:
					count["too many plans"]++
				case w.Price == 0:
					count["no price"]++
				case is && proved && !loose:
					t.Errorf("there is a plan with more, and the proof rules it out; %s", show())
				case is && !said && !loose:
					t.Errorf("there is a plan with more; %s", show())
				case said:
					count["open"]++
				case strings.Contains(w.Because, "proved impossible"):
					count["proof"]++
				default:
					count["facts"]++
				}
			}
		}
	}
	t.Logf("%d short plans, wants %v", kitchens, count)
	if kitchens < testrun.Rounds(20, 200) || count["facts"] < testrun.Rounds(20, 200) || count["proof"] < testrun.Rounds(3, 20) || count["open"] < testrun.Rounds(1, 5) {
		t.Error("too few to mean much")
	}
}

// Asked with little work why something is short, ripeby does not say that more might be found
// where the plan in force was proved.
func TestWhyAgreesWithTheProof(t *testing.T) {
	asked, unfound := 0, 0
	for i := range testrun.Rounds(24, 96) {
		e, _ := tinyKitchen(*everySeed, i)
		p := *e.p
		plan := planFor(t, &p, everyBudget)
		p.Earlier = plan
		for d := range plan.Targets {
			if w := &plan.Targets[d]; w.Short == 0 || !plan.RulesOutMore(w) {
				continue
			}
			for _, work := range []int64{1, 400, 20_000} {
				for _, why := range whatif.WhyShort(context.Background(), &p, []int{d}, whatif.WhyOptions{Work: work}) {
					if why == nil {
						t.Errorf("kitchen %d: the plan is not in force\n%s", i, drawn(&p))
						continue
					}
					asked++
					if !why.Proved {
						unfound++
					}
					if strings.Contains(why.Because, "none is proved impossible") || strings.Contains(why.Because, "not the best") ||
						slices.ContainsFunc(why.Fixes, func(f whatif.Fix) bool { return strings.Contains(f.Text, "planning again") }) {
						t.Errorf("kitchen %d, want %d, work %d: %s, fixes %v\n%s\n%s", i, d, work, why.Because, why.Fixes, drawn(&p), outline(plan))
					}
				}
			}
		}
	}
	t.Logf("%d asked, of %d nothing was found", asked, unfound)
	if asked < testrun.Rounds(40, 160) || unfound < testrun.Rounds(10, 40) {
		t.Errorf("got %d, %d: too few to mean much", asked, unfound)
	}
}
