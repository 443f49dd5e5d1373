package planner_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner/whatif"
	"ripeby/schedule/testrun"
)

// keptAt is a price above anything else: what was given must be given again.
const keptAt = 1_000_000

// beside is a problem whose best plans are those that give an order the most pieces
// while every other want gets no less than a plan gave it: what it got is promised at a
// price above all, what it was short of is worth nothing.
func beside(p *schedule.Problem, plan *schedule.Plan, o whatif.Order) *schedule.Problem {
	out := *p
	out.Targets = nil
	for _, t := range p.Targets {
		var wants []schedule.Want
		for i, w := range t.Wants {
			r := plan.Targets[slices.IndexFunc(plan.Targets, func(r schedule.WantResult) bool {
				return r.Target == t.Name && r.By == t.By && r.Want == i
			})]
			if r.Met > 0 {
				wants = append(wants, schedule.Want{Cheese: w.Cheese, Pieces: r.Met, Price: keptAt + resources.Money(i), Promised: true})
			}
			if r.Short > 0 {
				wants = append(wants, schedule.Want{Cheese: w.Cheese, Pieces: r.Short, Price: 0})
			}
		}
		t.Wants = wants
		if len(wants) > 0 {
			out.Targets = append(out.Targets, t)
		}
	}
	out.Targets = append(out.Targets, schedule.Target{Name: o.Target, By: o.By, Packed: o.Packed,
		Wants: []schedule.Want{{Cheese: o.Cheese, Pieces: o.Pieces, Price: 1, Promised: true}}})
	return &out
}

// anOrder draws an order of a tiny kitchen.
func anOrder(d *dice, p *schedule.Problem) whatif.Order {
	t := &p.Targets[d.IntN(len(p.Targets))]
	return whatif.Order{Target: "the order", Cheese: p.Recipes[d.IntN(len(p.Recipes))].Name, Pieces: d.n(1, 4), Price: 100,
		By: t.By.Add(resources.Minutes(d.n(-12, 12) * 60)), Packed: t.Packed}
}

// orderOf draws an order of a tiny kitchen, whose recipes are changed first, with its plan in
// force; ok is false where it would leave before planning begins.
func orderOf(t *testing.T, i int, stream uint64, change func(*schedule.Recipe)) (e *everyPlan, p *schedule.Problem, o whatif.Order, ok bool) {
	e, _ = tinyKitchen(*everySeed, i)
	for r := range e.p.Recipes {
		change(&e.p.Recipes[r])
	}
	with := *e.p
	with.Earlier = planFor(t, e.p, everyBudget)
	o = anOrder(&dice{Rand: rand.New(rand.NewPCG(stream, uint64(i)))}, &with)
	return e, &with, o, o.By > with.From
}

// An order fits just when some plan of all there are gives it all its pieces and every
// other want what it had; where it does not fit, the most that does is right; and the plan
// that is given holds.
func TestAnOrderFitsWhereSomePlanOfAllHasIt(t *testing.T) {
	end := testrun.Rounds(24, 96)
	count := map[string]int{}
	for i := range end {
		e, p, o, ok := orderOf(t, i, 7, func(*schedule.Recipe) {})
		if !ok {
			continue
		}
		plan := p.Earlier
		all, ok := listKinds(beside(e.p, plan, o))
		if !ok {
			count["too many plans"]++
			continue
		}
		best, ok := all.solve([sides]bool{})
		if !ok {
			count["too many plans"]++
			continue
		}
		if best.PromisedShort >= keptAt {
			t.Fatalf("kitchen %d: no plan of all gives what the planner's gave: %+v\n%s", i, best, drawn(e.p))
		}
		most := o.Pieces - int(best.PromisedShort)
		f := whatif.Fits(context.Background(), p, o, whatif.FitOptions{})
		show := func() string {
			return fmt.Sprintf("kitchen %d, %+v: %d of %d fit\n%s\n%s", i, o, most, o.Pieces, drawn(e.p), outline(plan))
		}
		switch f.Outcome {
		case whatif.FitsAsItIs, whatif.FitsIfMoved:
			count[map[whatif.FitOutcome]string{whatif.FitsAsItIs: "as it is", whatif.FitsIfMoved: "if moved"}[f.Outcome]]++
			if most < o.Pieces {
				t.Errorf("it fits, says the planner; %s", show())
			}
			for _, v := range judge.Check(o.With(p), f.Plan) {
				t.Errorf("judge: %v; %s", v, show())
			}
			if f.Outcome == whatif.FitsIfMoved {
				if calm, ok := listKinds(beside(p, plan, o)); ok {
					if best, ok := calm.solve([sides]bool{}); ok {
						count["held to the calmest"]++
						if f.Plan.Score.Moved > best.Moved {
							t.Errorf("%d settled tasks move, and the best plan of all moves %d; %s", f.Plan.Score.Moved, best.Moved, show())
						}
					}
				}
			}
			if moved := schedule.Moves(plan, f.Plan); f.Outcome == whatif.FitsAsItIs && len(moved) > 0 {
				t.Errorf("nothing moves, says the planner; got %+v; %s", moved, show())
			}
		case whatif.FitsNot:
			count["not"]++
			if most == o.Pieces {
				t.Errorf("it does not fit, says the planner; %s", show())
			}
			if f.Most != most || !f.MostSure {
				t.Errorf("at most %d, sure %v, says the planner; %s", f.Most, f.MostSure, show())
			}
			if f.Because == "" {
				t.Errorf("no reason; %s", show())
			}
		case whatif.FitsUnknown:
			t.Errorf("not known, says the planner; %s", show())
		case whatif.FitsNoPlan:
			count["no plan"]++
			t.Logf("not in force; %s", show())
		}
	}
	t.Log(count)
	if count["no plan"] > end/20 || count["as it is"] < end/10 || count["not"] < end/10 {
		t.Errorf("got %v: too few of a kind to mean much", count)
	}
}

// The moment at which all of an order can be packed is one at which they can be, by some
// plan of all, and where that is said to be the first they can by none be a step sooner, nor
// on a day before.
func TestTheEarliestIsAsSomePlanOfAllHasIt(t *testing.T) {
	t.Run("as drawn", func(t *testing.T) { theEarliest(t, testrun.Rounds(40, 160), func(*schedule.Recipe) {}) })
	t.Run("rested", func(t *testing.T) {
		theEarliest(t, testrun.Rounds(20, 80), func(r *schedule.Recipe) { // a hold of more than a day after packing
			r.Keeps += 30 * resources.Hour
			r.Stages[len(r.Stages)-1].Hold = &schedule.Hold{Least: 26 * resources.Hour, Most: r.Keeps}
		})
	})
}

// theEarliest asks orders of so many tiny kitchens, whose recipes are changed first.
func theEarliest(t *testing.T, end int, change func(*schedule.Recipe)) {
	count := map[string]int{}
	for i := range end {
		e, p, o, ok := orderOf(t, i, 11, change)
		if !ok {
			continue
		}
		plan := p.Earlier
		f := whatif.Fits(context.Background(), p, o, whatif.FitOptions{})
		if f.Outcome != whatif.FitsNot || f.Ready == 0 {
			count["nothing to ask"]++
			continue
		}
		fitsAll := func(by resources.Moment, packed resources.Minutes) (fits, known bool) {
			later := o
			later.By, later.Packed = by, packed
			all, ok := listKinds(beside(e.p, plan, later))
			if !ok {
				return false, false
			}
			best, ok := all.solve([sides]bool{})
			return ok && best.PromisedShort == 0, ok
		}
		show := func() string {
			return fmt.Sprintf("kitchen %d, %+v: ready %v, sure %v\n%s\n%s", i, o, f.Ready, f.ReadySure, drawn(e.p), outline(plan))
		}
		day := 1
		zone := p.Kitchen.Zone
		clock := o.By.In(zone)
		by := func(n int) resources.Moment {
			return o.By.DateIn(zone).AddDays(n).At(resources.Clock(clock.Hour()*60+clock.Minute()), zone)
		}
		for f.Leaves > by(day) {
			day++
		}
		fits, known := fitsAll(by(day), resources.Minutes(by(day)-f.Ready))
		switch {
		case !known:
			count["too many plans"]++
			continue
		case !fits:
			t.Errorf("by no plan of all are they ready then; %s", show())
		}
		if count["found"]++; !f.ReadySure {
			continue
		}
		count["sure"]++
		if sooner, known := fitsAll(by(day), resources.Minutes(by(day)-f.Ready)+p.Kitchen.Step); known && sooner {
			t.Errorf("a step sooner is possible; %s", show())
		}
		for n := 1; n < day; n++ {
			if before, known := fitsAll(by(n), o.Packed); known && before {
				t.Errorf("they fit %d days later already; %s", n, show())
			}
		}
	}
	t.Log(count)
	if count["found"] < end/10 || count["sure"] < end/20 {
		t.Errorf("got %v: too few to mean much", count)
	}
}
