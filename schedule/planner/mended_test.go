package planner_test

import (
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// benchKitchen is a kitchen by the bench: one person by day, two pots, a counted
// cave, one cheese that is made, drained in the cave, rested there and packed.
func benchKitchen(t *testing.T) *schedule.Problem {
	zone := zoneNamed(t, "UTC")
	hold := func(least, best, most int) *schedule.Hold {
		return &schedule.Hold{Least: minutes(60 * least), Best: minutes(60 * best), Most: minutes(60 * most), HasBest: true}
	}
	hands := &schedule.Hands{Fixed: rate(30_000)}
	cave := schedule.At{Kind: schedule.AtPlace, Place: "cave"}
	p := &schedule.Problem{From: at(zone, 2027, time.March, 1, 8, 0)}
	p.Kitchen = resources.Kitchen{Name: "Bench", TimeZone: "UTC", Zone: zone, Step: 30, Room: 20_000,
		People: []resources.Person{{Name: "Nell", MostPerDay: resources.NoLimit, Hours: []resources.Hours{{Days: resources.Daily, From: clock(8, 0), Until: clock(20, 0)}}}},
		Pots:   []resources.Pot{{Name: "tall pot", Holds: litres(8), Count: 1}, {Name: "wide pot", Holds: litres(8), Count: 1}},
		Boxes:  []resources.Box{{Name: "box", Count: 4}}, Cold: []resources.ColdPlace{{Name: "cave", Temperature: 11_000, Boxes: 4}}}
	p.Recipes = []schedule.Recipe{{Name: "Bench", Code: "BN", Yield: schedule.Yield{Pieces: 1, From: litres(1)}, Keeps: 5 * resources.Day,
		Batch: schedule.BatchSize{Least: litres(4), Most: litres(4), Step: litres(1), Serves: 1}, Box: &schedule.Boxing{Name: "box", Takes: 4},
		Stages: []schedule.Stage{
			{Name: "make", Hands: hands, Hold: hold(1, 2, 4), Uses: []schedule.Use{{Kind: schedule.UsePot, Name: "wide pot"}}},
			{Name: "drain", Hands: hands, Hold: hold(2, 3, 6), At: cave, Uses: []schedule.Use{useBox}},
			{Name: "rest", Hold: hold(1, 2, 8), At: cave, Uses: []schedule.Use{useBox}},
			{Name: "salt", Hands: hands, At: cave, Uses: []schedule.Use{useBox}},
			{Name: "pack", Hands: hands, Hold: nil, Uses: []schedule.Use{useBox}},
		}}}
	p.Targets = []schedule.Target{{Name: "Stall", By: at(zone, 2027, time.March, 4, 9, 0), Wants: []schedule.Want{{Cheese: "Bench", Pieces: 4, Price: 100}}}}
	return p
}

// begunAt puts a batch under way whose stages began at the hours of 1 March.
func begunAt(p *schedule.Problem, id string, hours ...int) {
	b := schedule.Begun{ID: id, Cheese: "Bench", Litres: litres(4), Pieces: -1}
	for i, h := range hours {
		b.Stages = append(b.Stages, schedule.BegunStage{Stage: p.Recipes[0].Stages[i].Name, Start: at(p.Kitchen.Zone, 2027, time.March, 1, h, 0)})
	}
	p.Begun = append(p.Begun, b)
}

// A search that finds nothing to change still uses up its budget and ends.
func TestPlanningWithoutHoursEnds(t *testing.T) {
	p := benchKitchen(t)
	p.Kitchen.People[0].Hours = nil
	plan := planFor(t, p, smallBudget)
	mustHold(t, p, plan)
	if plan.Targets[0].Short != 4 {
		t.Errorf("short: got %d, want 4", plan.Targets[0].Short)
	}
}

// A recipe that names its pot was in that pot, not in the first that is large enough.
func TestBegunBatchIsInThePotOfItsRecipe(t *testing.T) {
	p := benchKitchen(t)
	begunAt(p, "BN-270301-1", 7)
	plan := planFor(t, p, smallBudget)
	mustHold(t, p, plan)
	if got := plan.Batches[0].Stages[0].Uses[0].Thing; got != "wide pot" {
		t.Errorf("pot: got %s, want wide pot", got)
	}
}

// Salting may slip only as far as the rest before it lasts, since nobody is there to
// begin the rest later: from its start, eight hours.
func TestWorkSlipsNoFurtherThanTheRestBeforeIt(t *testing.T) {
	p := benchKitchen(t)
	plan := planFor(t, p, smallBudget)
	mustHold(t, p, plan)
	rest, salt := plan.Batches[0].Stages[2], plan.Batches[0].Stages[3]
	if most := rest.Start.Add(8 * resources.Hour); salt.SlipUntil > most {
		t.Errorf("salt slips to %v, want %v at most", salt.SlipUntil.In(time.UTC), most.In(time.UTC))
	}
}

// Salt has no hold, but when nobody is there to pack, its boxes stay in the cave and
// take their space until somebody is.
func TestOverrunWithoutAHoldKeepsItsSpace(t *testing.T) {
	p := benchKitchen(t)
	p.From = at(p.Kitchen.Zone, 2027, time.March, 1, 19, 30)
	begunAt(p, "BN-270301-1", 8, 11, 15, 19)
	p.Kitchen.People[0].Hours[0].Until = clock(19, 30)
	plan := planFor(t, p, smallBudget)
	mustHold(t, p, plan)
	salt := plan.Batches[0].Stages[3]
	if len(salt.BoxesAt) != 1 || salt.Hold != 12*60+30 {
		t.Errorf("got %d boxes for %d min, want 1 for 750, until eight in the morning", len(salt.BoxesAt), salt.Hold)
	}
}

// A running hold that a stage without work follows cannot be over before the start:
// drained since nine by eight in the evening is late, whatever the rest allows.
func TestARunningHoldIsNotOverBeforeTheStart(t *testing.T) {
	p := benchKitchen(t)
	p.From = at(p.Kitchen.Zone, 2027, time.March, 1, 18, 0)
	begunAt(p, "BN-270301-1", 6, 9)
	plan := planFor(t, p, smallBudget)
	mustHold(t, p, plan)
	if rest := plan.Batches[0].Stages[2]; rest.Start < p.From {
		t.Errorf("rest: got a start at %v, want none before %v", rest.Start.In(time.UTC), p.From.In(time.UTC))
	}
}

// A hold that ended at the planning start itself still counts: an hour and a half
// of one to two hours, best two, is half off.
func TestAHoldThatEndsNowCounts(t *testing.T) {
	p := benchKitchen(t)
	p.From = at(p.Kitchen.Zone, 2027, time.March, 1, 10, 0)
	begunAt(p, "BN-270301-1", 8, 10)
	p.Targets = nil
	plan := planFor(t, p, smallBudget)
	mustHold(t, p, plan)
	if plan.Score.Bother != 50 {
		t.Errorf("bother: got %d, want 50", plan.Score.Bother)
	}
}

// Two batches under way and one box, which the first is in: it goes on as soon as it
// can, the other when the box is free, late as that is. Neither is stuck.
func TestBatchesUnderWayWaitForKit(t *testing.T) {
	p := benchKitchen(t)
	p.Kitchen.Boxes[0].Count = 1
	p.From = at(p.Kitchen.Zone, 2027, time.March, 1, 13, 0)
	begunAt(p, "BN-270301-1", 8, 10)
	begunAt(p, "BN-270301-2", 9)
	plan := planFor(t, p, smallBudget)
	mustHold(t, p, plan)
	for _, b := range plan.Batches {
		if len(b.Stages) != 5 {
			t.Errorf("%s: got %d stages, want all 5: both can go on", b.ID, len(b.Stages))
		}
	}
}
