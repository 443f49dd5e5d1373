package note_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"ripeby/calendar/note"
	"ripeby/resources"
	"ripeby/schedule"
)

// revisePlan is two stages of work around one of waiting, a round and a target,
// made at the moment.
func revisePlan(from resources.Moment) *schedule.Plan {
	at := resources.Moment(30_000_000) // 2027-01-15 08:00 UTC
	return &schedule.Plan{
		TimeZone: "Europe/Dublin", From: from,
		Batches: []schedule.Batch{{ID: "BH-270115-1", Cheese: "Bramble hoop", Litres: 9000, Pieces: 16, Spare: 1,
			Milk: &schedule.Draw{Supply: "Hill Farm cow", Collect: at - 60},
			Stages: []schedule.Task{
				{Stage: "make", Start: at, Work: 60, Who: "Nell", Ends: at + 60, At: "room", SlipUntil: at + 90,
					Uses: []schedule.Occupied{{Thing: "tall pot", Count: 1, From: at, Until: at + 1540, CleanUntil: at + 1560}}},
				{Stage: "set", Start: at + 60, Hold: 1440, Ends: at + 1500, At: "room", SlipUntil: at + 100},
				{Stage: "pack", Start: at + 1500, Work: 40, Who: "Ivo", Hold: 600, Ends: at + 2140, At: "fridge", SlipUntil: at + 1500,
					BoxesAt: []schedule.Standing{{Place: "fridge", Shelf: "top", Layer: 1}}},
			},
			For: []schedule.Share{{Target: "Easter market", By: at + 2140, Want: 0, Pieces: 9}},
		}},
		Stock: []schedule.StockUse{ // the first two cannot be told apart; the third is not in the cold
			{Cheese: "Bramble hoop", Pieces: 3, Packed: at - 900, At: "fridge", Ends: at + 500, BoxesAt: []schedule.Standing{{Place: "fridge", Shelf: "top", Layer: 1}}},
			{Cheese: "Bramble hoop", Pieces: 2, Packed: at - 900, At: "cave", Ends: at + 700},
			{Cheese: "Blue moon", Pieces: 2, Packed: at - 900, At: "room", Ends: at + 700},
		},
		Targets: []schedule.WantResult{
			{Target: "Easter market", By: at + 2140, Want: 0, Cheese: "Bramble hoop", Wanted: 9, Met: 9},
			{Target: "Easter market", By: at + 2140, Want: 1, Cheese: "Blue moon", Wanted: 4, Short: 4, Because: "no milk"},
			{Target: "Stall", By: at + 4000, Cheese: "Bramble hoop", Wanted: 1, Short: 1},
		},
		Rounds: []schedule.RoundBlock{
			{Start: at + 1400, Minutes: 20, Who: "Nell", Care: []schedule.RoundCare{{Batch: "BH-270115-1", Do: "turn", Hands: 5}}},
			{Start: at + 2840, Minutes: 20, Who: "Nell"},
		},
		Cautions: []schedule.Caution{{Code: "c", Cheese: "Bramble hoop", Stage: "set", Text: "Watch it."}},
	}
}

// revise numbers a plan as one is that is put in force: the planner counts its moves,
// and what a calendar says of it is compared.
func revise(plan, earlier *schedule.Plan) {
	schedule.CountMoves(plan, earlier)
	kitchen := resources.Kitchen{Zone: time.UTC, Milk: []resources.Milk{{Name: "Hill Farm cow", Order: 60}}}
	note.Revise(&schedule.Problem{Kitchen: kitchen}, plan, earlier)
}

// editions lists every number and moment of a plan: stage "sequence@revised
// revision@revisedtext" and "stay" where one begins, then stock, rounds, targets and milk "sequence@revised".
func editions(p *schedule.Plan) []string {
	var list []string
	for _, b := range p.Batches {
		for _, t := range b.Stages {
			list = append(list, fmt.Sprintf("%s %d@%d %d@%d", t.Stage, t.Sequence, t.Revised, t.Revision, t.RevisedText))
			if t.StayRevised != 0 {
				list = append(list, fmt.Sprintf("stay/%s %d@%d", t.Stage, t.StaySequence, t.StayRevised))
			}
		}
	}
	for i, s := range p.Stock {
		list = append(list, fmt.Sprintf("stock%d %d@%d", i, s.Sequence, s.Revised))
	}
	for i, r := range p.Rounds {
		list = append(list, fmt.Sprintf("round%d %d@%d", i, r.Sequence, r.Revised))
	}
	for _, w := range p.Targets {
		list = append(list, fmt.Sprintf("%s/%d %d@%d", w.Target, w.Want, w.Sequence, w.Revised))
	}
	for _, j := range p.Milk {
		kind := "collect"
		if j.Order {
			kind = "order"
		}
		list = append(list, fmt.Sprintf("%s %d@%d", kind, j.Sequence, j.Revised))
	}
	return list
}

// The first plan is made at 100, the second at 200 with one thing changed. Only
// what shows the change moves.
func TestReviseMovesWhatChanged(t *testing.T) {
	unchanged := []string{"make 0@100 0@100", "set 0@100 0@100", "pack 0@100 0@100", "stay/pack 0@100",
		"stock0 0@100", "stock1 0@100", "stock2 0@0", "round0 0@100", "round1 0@100",
		"Easter market/0 0@100", "Easter market/1 0@100", "Stall/0 0@100", "order 0@100", "collect 0@100"}
	tests := []struct {
		name   string
		change func(*schedule.Plan)
		want   []string // the editions that differ from unchanged
	}{
		{"nothing", func(*schedule.Plan) {}, nil},
		{"a later make", func(p *schedule.Plan) { p.Batches[0].Stages[0].Start += 5; p.Batches[0].Stages[0].Work -= 5 }, []string{"make 1@200 1@200"}},
		// The hold that follows the make is told with the make, but is not the make's own.
		{"a longer hold", func(p *schedule.Plan) { p.Batches[0].Stages[1].Ends += 5; p.Batches[0].Stages[1].Hold += 5 }, []string{"make 0@100 1@200", "set 1@200 1@200"}},
		{"another place", func(p *schedule.Plan) { p.Batches[0].Stages[2].At = "cave" }, []string{"pack 1@200 1@200", "stay/pack 1@200"}},
		{"another person", func(p *schedule.Plan) { p.Batches[0].Stages[2].Who = "Nell" }, []string{"pack 0@100 1@200"}},
		{"another shelf", func(p *schedule.Plan) { p.Batches[0].Stages[2].BoxesAt[0].Shelf = "middle" }, []string{"pack 0@100 1@200", "stay/pack 1@200"}},
		{"elsewhere on the shelf", func(p *schedule.Plan) { p.Batches[0].Stages[2].BoxesAt[0].X = 10 }, nil},
		{"longer in the cold", func(p *schedule.Plan) { p.Batches[0].Stages[2].Ends += 5; p.Batches[0].Stages[2].Hold += 5 }, []string{"pack 1@200 1@200", "stay/pack 1@200"}},
		{"stock leaves later", func(p *schedule.Plan) { p.Stock[1].Ends += 5 }, []string{"stock0 1@200", "stock1 1@200"}},
		{"stock on another shelf", func(p *schedule.Plan) { p.Stock[0].BoxesAt[0].Shelf = "middle" }, []string{"stock0 1@200", "stock1 1@200"}},
		{"stock at the other end of the shelf", func(p *schedule.Plan) { p.Stock[0].BoxesAt[0].X = 10 }, nil},
		{"more slip", func(p *schedule.Plan) { p.Batches[0].Stages[0].SlipUntil += 5 }, []string{"make 0@100 1@200"}},
		{"begun", func(p *schedule.Plan) { p.Batches[0].Stages[0].Begun = true }, []string{"make 0@100 1@200"}},
		{"another pot", func(p *schedule.Plan) { p.Batches[0].Stages[0].Uses[0].Thing = "low pot" }, []string{"make 0@100 1@200", "pack 0@100 1@200"}},
		{"longer cleaning", func(p *schedule.Plan) { p.Batches[0].Stages[0].Uses[0].CleanUntil += 5 }, nil},
		{"something goes in", func(p *schedule.Plan) {
			p.Batches[0].Stages[0].Needs = []schedule.Dose{{What: "rennet", Amount: 180_000, Rounded: 180_000, Unit: "mL"}}
		}, []string{"make 0@100 1@200"}},
		{"nothing goes in, said in another way", func(p *schedule.Plan) { p.Batches[0].Stages[0].Needs = []schedule.Dose{} }, nil},
		{"something is to be measured", func(p *schedule.Plan) {
			p.Batches[0].Stages[0].Measures = []schedule.Measure{{What: "pH", Stage: "make"}}
		}, []string{"make 0@100 1@200"}},
		{"nothing is to be measured, said in another way", func(p *schedule.Plan) { p.Batches[0].Stages[0].Measures = []schedule.Measure{} }, nil},
		{"more litres", func(p *schedule.Plan) { p.Batches[0].Litres = 10_000 }, []string{"make 0@100 1@200", "set 0@100 1@200", "pack 0@100 1@200", "order 1@200", "collect 1@200"}},
		{"fewer pieces left", func(p *schedule.Plan) { p.Batches[0].Pieces = 15 }, []string{"make 0@100 1@200", "set 0@100 1@200", "pack 0@100 1@200", "stay/pack 1@200", "round0 1@200"}},
		{"milk of another day", func(p *schedule.Plan) {
			p.Batches[0].Milk = &schedule.Draw{Supply: "Hill Farm cow", Collect: 29_990_000}
		}, []string{"make 0@100 1@200", "order 0@200", "collect 0@200"}},
		{"another caution", func(p *schedule.Plan) { p.Cautions[0].Text = "Watch it well." }, []string{"make 0@100 1@200"}},
		{"an earlier round", func(p *schedule.Plan) { p.Rounds[1].Start -= 60 }, []string{"round1 1@200"}},
		{"more care", func(p *schedule.Plan) { p.Rounds[0].Care[0].Hands = 6 }, []string{"round0 1@200"}},
		{"another reason", func(p *schedule.Plan) { p.Targets[1].Because = "no pot" }, []string{"Easter market/0 1@200", "Easter market/1 1@200"}},
		{"fewer pieces for it", func(p *schedule.Plan) { p.Batches[0].For[0].Pieces = 8 }, []string{"pack 0@100 1@200", "Easter market/0 1@200", "Easter market/1 1@200"}},
		{"a target moved", func(p *schedule.Plan) { p.Targets[2].By += 60 }, []string{"Stall/0 1@200"}},
		{"a new stall", func(p *schedule.Plan) { p.Targets[2].Target = "New" }, []string{"New/0 0@200"}},
		{"another day's round", func(p *schedule.Plan) { p.Rounds[1].Start += 1440 }, []string{"round1 0@200"}},
		{"another batch", func(p *schedule.Plan) {
			p.Batches[0].ID = "BH-270115-2"
		}, []string{"make 0@200 0@200", "set 0@200 0@200", "pack 0@200 0@200", "stay/pack 0@200", "round0 1@200", "Easter market/0 1@200", "Easter market/1 1@200", "order 1@200", "collect 1@200"}},
		{"another zone", func(p *schedule.Plan) { p.TimeZone = "Europe/Oslo" },
			[]string{"make 0@100 1@200", "set 0@100 1@200", "pack 0@100 1@200", "stay/pack 1@200", "stock0 1@200", "stock1 1@200", "round0 1@200", "round1 1@200", "Easter market/0 1@200", "Easter market/1 1@200", "Stall/0 1@200", "order 1@200", "collect 1@200"}},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			first, second := revisePlan(100), revisePlan(200)
			revise(first, nil)
			if got := editions(first); !slices.Equal(got, unchanged) {
				t.Fatalf("first plan: got %v, want %v", got, unchanged)
			}
			c.change(second)
			revise(second, first)
			var got []string
			for _, e := range editions(second) {
				if !slices.Contains(unchanged, e) {
					got = append(got, e)
				}
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("moved: got %q, want %q", got, c.want)
			}
		})
	}
}

// Numbers go on from plan to plan; the calendar's moment moves forward even when
// the plan is made again from the same or an earlier start.
func TestReviseMovesForward(t *testing.T) {
	plan := revisePlan(100)
	revise(plan, nil)
	for i, c := range []struct {
		from resources.Moment
		want string
	}{{200, "make 1@200 1@200"}, {200, "make 2@200 2@201"}, {150, "make 3@150 3@202"}, {203, "make 4@203 4@203"}} {
		next := revisePlan(c.from)
		next.Batches[0].Stages[0].Start += resources.Moment(i + 1)
		revise(next, plan)
		if got := editions(next)[0]; got != c.want {
			t.Errorf("plan %d: got %s, want %s", i+2, got, c.want)
		}
		plan = next
	}
}

// An earlier plan that has only the plan file's own numbers lends them.
func TestReviseWithoutTextEditions(t *testing.T) {
	first := revisePlan(100)
	revise(first, nil)
	first.Batches[0].Stages[0].Sequence, first.Batches[0].Stages[0].Revised = 3, 150
	first.Batches[0].Stages[0].RevisedText = 0
	second := revisePlan(200)
	revise(second, first)
	if got, want := editions(second)[0], "make 3@150 3@150"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// Revise depends on nothing but the two plans: twice gives the same.
func TestReviseTwice(t *testing.T) {
	first, second := revisePlan(100), revisePlan(200)
	revise(first, nil)
	second.Batches[0].Stages[0].At = "cave"
	revise(second, first)
	once := editions(second)
	revise(second, first)
	if got := editions(second); !slices.Equal(got, once) {
		t.Errorf("got %v, want %v", got, once)
	}
}
