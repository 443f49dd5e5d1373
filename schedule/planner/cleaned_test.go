package planner_test

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// Only the larger batch takes both presses, and has to wait for their cleaning before it takes them
// again: the sizes differ in more than how much they are, and what is planned is proved all the same.
func TestSizesOfWhichOneIsCleanedBetweenAreProved(t *testing.T) {
	for _, clean := range []resources.Minutes{0, 90, 120} {
		p := benchKitchen(t)
		r := &p.Recipes[0]
		press, hands := []schedule.Use{useOf("board press")}, &schedule.Hands{Fixed: rate(30_000)}
		hold := func(least, most resources.Minutes) *schedule.Hold {
			return &schedule.Hold{Least: least, Best: least, Most: most, HasBest: true}
		}
		r.Batch.Least, r.Batch.Step = litres(2), litres(2)
		r.Stages = []schedule.Stage{
			{Name: "make", Hands: hands, Hold: hold(60, 240), Uses: []schedule.Use{{Kind: schedule.UsePot, Name: "wide pot"}}},
			{Name: "press", Hands: hands, Hold: hold(120, 120), Uses: press},
			{Name: "dress", Hands: hands, Hold: hold(0, 240)},
			{Name: "press again", Hands: hands, Hold: hold(60, 240), Uses: press},
			{Name: "pack", Hands: hands, Uses: []schedule.Use{useBox}},
		}
		p.Kitchen.Stations = []resources.Station{{Name: "board press", Count: 2, TakesPieces: 2, Clean: clean}}
		p.Targets[0].Wants[0].Pieces = 6
		plan := planFor(t, p, smallBudget)
		mustHold(t, p, plan)
		if !plan.Proof.Best || plan.Score.Short != 0 {
			t.Errorf("cleaned in %d min: got it proved to %s and %d short, want all of it and none", clean, plan.Proof.Level, plan.Score.Short)
		}
		for _, b := range plan.Batches {
			again := b.Stage("press again").Start.Sub(b.Stage("dress").Start)
			if need := clean; b.Litres == litres(4) && again < need {
				t.Errorf("cleaned in %d min: got the presses again %d min after they were left", clean, again)
			}
		}
	}
}

// Boxes of stock that kept until shortly before the planning start are being cleaned.
func TestBoxesOfPastStockAreCleaned(t *testing.T) {
	for _, x := range []struct{ over, clean, short int }{{30, 0, 0}, {30, 120, 4}, {30, 30, 0}, {0, 120, 4}, {150, 120, 0}} {
		p := benchKitchen(t)
		r := &p.Recipes[0]
		r.Stages[0].Hold = &schedule.Hold{Most: 240}
		p.Kitchen.Boxes = []resources.Box{{Name: "box", Count: 1, Clean: minutes(x.clean)}}
		p.Stock = []schedule.Stock{{Cheese: r.Name, Pieces: 4, Packed: p.From.Add(-r.Keeps - minutes(x.over)), At: "cave", Boxes: 1}}
		p.Targets[0].By = p.From.Add(5 * resources.Hour)
		plan := planFor(t, p, smallBudget)
		mustHold(t, p, plan)
		if got := plan.Targets[0].Short; got != x.short || !plan.Proof.Best {
			t.Errorf("kept until %d min before, cleaned in %d: got %d short, proved %v, want %d", x.over, x.clean, got, plan.Proof.Best, x.short)
		}
	}
}
