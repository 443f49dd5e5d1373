package planner_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
)

// oneSpot is a kitchen whose only shelf has room for one box beside none and for three on one
// another, and two cheeses that each stand there in one box for about two days.
func oneSpot() *schedule.Problem {
	recipe := func(name, code string) schedule.Recipe {
		return schedule.Recipe{Name: name, Code: code, Yield: schedule.Yield{Pieces: 1, From: litres(1)}, Keeps: 2 * resources.Hour,
			Batch: schedule.BatchSize{Least: litres(2), Most: litres(2), Step: litres(1), Serves: 1}, Box: &schedule.Boxing{Name: "tub", Takes: 2},
			Stages: []schedule.Stage{
				{Name: "make", Hands: &schedule.Hands{Fixed: rate(60_000)}, Hold: &schedule.Hold{Least: 8 * resources.Hour, Most: 12 * resources.Hour}, Uses: []schedule.Use{usePot}},
				{Name: "rest", Hands: &schedule.Hands{Fixed: rate(60_000)}, Hold: &schedule.Hold{Least: 40 * resources.Hour, Most: 48 * resources.Hour},
					At: schedule.At{Kind: schedule.AtPlace, Place: "fridge"}, Uses: []schedule.Use{useBox}},
				{Name: "pack", Hands: &schedule.Hands{Fixed: rate(60_000)}, Uses: []schedule.Use{useBox}},
			}}
	}
	always := []resources.Hours{{Days: resources.Daily, From: 0, Until: clock(24, 0)}}
	p := &schedule.Problem{From: at(time.UTC, 2027, time.March, 2, 6, 0), Recipes: []schedule.Recipe{recipe("Curd", "C"), recipe("Wheel", "W")}}
	p.Kitchen = resources.Kitchen{Name: "Reed Farm", TimeZone: "UTC", Zone: time.UTC, Step: 60, Room: 20_000,
		People: []resources.Person{{Name: "Ann", Hours: always, MostPerDay: resources.NoLimit}, {Name: "Ben", Hours: always, MostPerDay: resources.NoLimit}},
		Pots:   []resources.Pot{{Name: "pot", Holds: litres(4), Count: 3}},
		Boxes:  []resources.Box{{Name: "tub", Count: 9, Size: sized(30, 20, 10)}},
		Cold:   []resources.ColdPlace{{Name: "fridge", Temperature: 4_000, Shelves: []resources.Shelf{{Name: "top", Size: sized(35, 35, 35)}}}},
	}
	for day, cheese := range map[int]string{5: "Curd", 6: "Wheel"} {
		p.Targets = append(p.Targets, schedule.Target{Name: cheese, By: at(time.UTC, 2027, time.March, day, 10, 0), Wants: []schedule.Want{{Cheese: cheese, Pieces: 2, Price: 100}}})
	}
	slices.SortFunc(p.Targets, func(a, b schedule.Target) int { return int(a.By - b.By) })
	return p
}

// layerOf is the layer in which the only box of a batch of a cheese comes to stand; 0 for none.
func layerOf(plan *schedule.Plan, cheese string) int {
	for i := range plan.Batches {
		if b := &plan.Batches[i]; b.Cheese == cheese {
			if boxes := b.Stages[1].BoxesAt; len(boxes) == 1 {
				return boxes[0].Layer
			}
		}
	}
	return 0
}

func plannedSoundly(t *testing.T, p *schedule.Problem) *schedule.Plan {
	t.Helper()
	plan, err := planner.Plan(context.Background(), p, planner.Options{Budget: 1_000_000})
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range judge.Check(p, plan) {
		t.Error(v)
	}
	return plan
}

// What comes first stands below, what comes on it in the layer above; made again while both are
// there, or when what is below has been lost, the plan tells of the same layers, and a third box that
// comes then of the one that is free by then.
func TestLayersAreOfTheMomentOfComing(t *testing.T) {
	p := oneSpot()
	plan := plannedSoundly(t, p)
	if layerOf(plan, "Curd") != 1 || layerOf(plan, "Wheel") != 2 {
		t.Fatalf("got layers %d and %d, want 1 and 2", layerOf(plan, "Curd"), layerOf(plan, "Wheel"))
	}
	again := *p
	again.Earlier, again.From = plan, at(time.UTC, 2027, time.March, 4, 22, 0)
	made := plannedSoundly(t, &again)
	if layerOf(made, "Curd") != 1 || layerOf(made, "Wheel") != 2 {
		t.Errorf("made again: got layers %d and %d, want 1 and 2", layerOf(made, "Curd"), layerOf(made, "Wheel"))
	}
	lost := again
	lost.Lost = []string{plan.Batches[slices.IndexFunc(plan.Batches, func(b schedule.Batch) bool { return b.Cheese == "Curd" })].ID}
	lost.Targets = append(slices.Clone(p.Targets[1:]), schedule.Target{Name: "late", By: at(time.UTC, 2027, time.March, 7, 10, 0), Wants: []schedule.Want{{Cheese: "Curd", Pieces: 2, Price: 100}}})
	made = plannedSoundly(t, &lost)
	if layerOf(made, "Wheel") != 2 || layerOf(made, "Curd") != 2 {
		t.Errorf("the lower box lost: got layers %d of the Wheel and %d of the new Curd on it, want 2, as it came, and 2", layerOf(made, "Wheel"), layerOf(made, "Curd"))
	}
}

// Of two kinds of box the spot holds one at a time, and of boxes that stand on those of their batch
// alone one batch's.
func TestTheSpotIsOfOneKind(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(p *schedule.Problem)
	}{
		{"two kinds", func(p *schedule.Problem) {
			p.Kitchen.Boxes = append(p.Kitchen.Boxes, resources.Box{Name: "tray", Count: 9, Size: p.Kitchen.Boxes[0].Size})
			p.Recipes[1].Box = &schedule.Boxing{Name: "tray", Takes: 2}
		}},
		{"of a batch", func(p *schedule.Problem) { p.Kitchen.Boxes[0].Stack = resources.StackBatch }},
		{"alone", func(p *schedule.Problem) { p.Kitchen.Boxes[0].Stack = resources.StackNo }},
	} {
		p := oneSpot()
		c.change(p)
		if plan := plannedSoundly(t, p); plan.Score.Short != 200 || !plan.Proof.Best {
			t.Errorf("%s: got %+v, want one cheese short, proved", c.name, plan.Score)
		}
	}
}
