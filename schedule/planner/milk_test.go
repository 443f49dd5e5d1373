package planner_test

import (
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// milkDays is a kitchen of one curd of 4 or 5 L, made at any hour of milk that comes on
// Mondays and Thursdays, is ordered two days ahead, and of which so much stands.
func milkDays(stands resources.Millilitres) *schedule.Problem {
	p := paperKitchen(time.UTC, march(1, 5))
	p.Kitchen.Milk = []resources.Milk{{Name: "Hill cow", Days: resources.Weekdays(0).With(time.Monday).With(time.Thursday),
		Ready: clock(6, 0), Most: litres(9), Standing: stands, Keeps: resources.Day, Order: 2 * resources.Day}}
	r := &p.Recipes[0]
	r.Milk, r.Batch.Most, r.Keeps, r.Mould = "Hill cow", litres(5), 2*resources.Day, ""
	r.Stages = []schedule.Stage{{Name: "set", Hold: &schedule.Hold{Least: 10 * resources.Hour, Most: 20 * resources.Hour}}, {Name: "pack"}}
	return p
}

// march is an hour of a day of March 2027; the first is a Monday.
func march(day, hour int) resources.Moment { return at(time.UTC, 2027, time.March, day, hour, 0) }

// wanting has ten pieces leave on a day of March at noon.
func wanting(p *schedule.Problem, name string, day int) {
	p.Targets = append(p.Targets, schedule.Target{Name: name, By: march(day, 12), Wants: []schedule.Want{{Cheese: "Paper", Pieces: 10, Price: 100}}})
}

// warned gives the texts of a plan's warnings of a code.
func warned(plan *schedule.Plan, code string) (texts []string) {
	for _, w := range plan.Warnings {
		if w.Code == code {
			texts = append(texts, w.Text)
		}
	}
	return texts
}

// What stands is drawn on though it is too late to order; what of it nothing uses is said, a
// warning a week that names the days.
func TestStandingMilkIsUsedAndTold(t *testing.T) {
	p := milkDays(litres(4))
	wanting(p, "Stall", 3)
	wanting(p, "Fair", 12)
	plan := planFor(t, p, smallBudget)
	mustHold(t, p, plan)
	var drawn []resources.Millilitres
	for _, b := range plan.Batches {
		drawn = append(drawn, b.Litres)
	}
	if len(drawn) != 2 || drawn[0] != litres(4) || drawn[1] != litres(5) {
		t.Fatalf("got batches of %v mL, want the 4 L that stand for the stall, and 5 L for the fair", drawn)
	}
	want := []string{
		"Hill cow comes without an order, and nothing uses 4 L of Thu 4 Mar. Plan more with it, or have less come.",
		"Hill cow comes without an order, and nothing uses 4 L of Mon 8 Mar. Plan more with it, or have less come.",
	}
	if got := warned(plan, "milk-unused"); strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// Milk that the plan had ordered counts as ordered when its order moment is past, and that is
// said until somebody says how it was; where none was ordered, or less, the plan goes by that.
func TestMilkIsTakenAsOrdered(t *testing.T) {
	p := milkDays(0)
	wanting(p, "Fair", 6)
	before := planFor(t, p, smallBudget)
	if len(before.Batches) != 1 || before.Batches[0].Milk.Collect != march(4, 6) {
		t.Fatalf("got %+v, want one batch of Thursday's milk", before.Batches)
	}
	p.From, p.Earlier = march(2, 7), before // it was to be ordered by six
	entry := schedule.Ordered{Milk: "Hill cow", Day: resources.Date{Year: 2027, Month: 3, Day: 4}}
	for _, c := range []struct {
		name    string
		say     func(*schedule.Problem)
		batches int
		warned  int
	}{
		{"nothing is said", func(*schedule.Problem) {}, 1, 1},
		{"it was ordered", func(p *schedule.Problem) { entry.Litres = litres(5); p.Ordered = []schedule.Ordered{entry} }, 1, 0},
		{"none was ordered", func(p *schedule.Problem) { entry.Litres = 0; p.Ordered = []schedule.Ordered{entry} }, 0, 0},
		{"it stands", func(p *schedule.Problem) { p.Kitchen.Milk[0].Standing = litres(5) }, 1, 0},
		{"the batch is lost, and its milk is to come all the same", func(p *schedule.Problem) { p.Lost = []string{before.Batches[0].ID} }, 1, 0},
	} {
		now := *p
		now.Kitchen = p.Kitchen.Clone()
		c.say(&now)
		plan := planFor(t, &now, smallBudget)
		mustHold(t, &now, plan)
		if got := warned(plan, "order-not-told"); len(plan.Batches) != c.batches || len(got) != c.warned {
			t.Errorf("%s: got %d batches and %q, want %d and %d warnings", c.name, len(plan.Batches), got, c.batches, c.warned)
		}
	}
}
