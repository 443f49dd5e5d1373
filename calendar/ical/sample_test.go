package ical

import (
	"testing"
	"time"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

	"ripeby/calendar/note"
	"ripeby/resources"
	"ripeby/schedule"
)

// kitchenIn is a kitchen in the zone.
func kitchenIn(t *testing.T, zone string) *schedule.Problem {
	t.Helper()
	loc, err := time.LoadLocation(zone)
	if err != nil {
		t.Fatal(err)
	}
	return &schedule.Problem{Kitchen: resources.Kitchen{
		Name: "Saltgrass Lane", TimeZone: zone, Zone: loc, Step: 5,
		People: []resources.Person{{Name: "Nell"}, {Name: "Ivo"}},
		Milk:   []resources.Milk{{Name: "Hill Farm cow", Order: 2 * resources.Day, Most: 40_000}},
	}}
}

// momentAt reads a moment in UTC.
func momentAt(t *testing.T, s string) resources.Moment {
	t.Helper()
	at, err := time.Parse("2006-01-02 15:04", s)
	if err != nil {
		t.Fatal(err)
	}
	return resources.MomentOf(at)
}

// samplePlan is a plan with all kinds of event: two batches, one of them begun, milk to
// order and to collect for the other, rounds with and without care, a target that is met and one that is short. It is
// laid around the moment at which the make starts.
//
//	make 60 | set 24 h | drain 40 | hold 12 h | mould 55 | chill 24 h | ripen 30 | 9 d | pack 30
func samplePlan(zone string, start resources.Moment) *schedule.Plan {
	plan := &schedule.Plan{
		Kitchen: "Saltgrass Lane", TimeZone: zone, From: start.Add(-3 * resources.Day), Outcome: schedule.Short,
		Cautions: []schedule.Caution{
			{Code: "ripen-cold", Cheese: "Bramble hoop", Stage: "chill", Text: "Keep it cold, and write the temperature down.\nLocal rules come first."},
			{Code: "listeria", Cheese: "Bramble hoop", Text: "Soft ripened cheese is not for everybody; follow your local food-safety rules."},
			{Code: "other", Cheese: "Blue moon", Text: "Not of this batch."},
		},
	}
	bloomy := sampleBatch("BH-270316-1", start)
	begun := sampleBatch("BH-270306-1", start.Add(-10*resources.Day))
	begun.Begun = true
	for i := range begun.Stages {
		begun.Stages[i].Begun = begun.Stages[i].Start < plan.From
	}
	plan.Batches = []schedule.Batch{bloomy, begun}
	packed := bloomy.Stages[6].Start.Add(30)
	market := packed.Add(12 * resources.Hour)
	plan.Stock = []schedule.StockUse{{Cheese: "Bramble hoop", Pieces: 3, Packed: start.Add(-resources.Day), At: "kitchen fridge",
		For: []schedule.Share{{Target: "Easter market", By: market, Want: 0, Pieces: 3}}}}
	plan.Batches[0].For = []schedule.Share{
		{Target: "Easter market", By: market, Want: 0, Pieces: 9},
		{Target: "Easter market", By: market, Want: 1, Pieces: 6, Promised: 6},
	}
	plan.Targets = []schedule.WantResult{
		{Target: "Easter market", By: market, Want: 0, Cheese: "Bramble hoop", Wanted: 18, Met: 12, Short: 6, Because: "the pot is in use until then"},
		{Target: "Easter market", By: market, Want: 1, Cheese: "Bramble hoop", Promised: true, Wanted: 6, Met: 6},
		{Target: "Saturday stall 2027-04-03", By: market.Add(7 * resources.Day), Cheese: "Bramble hoop", Wanted: 1, Met: 1},
	}
	loc, err := time.LoadLocation(zone)
	if err != nil {
		panic(err)
	}
	// Rounds keep to the local clock, as everything daily does.
	for d := range 4 {
		at := resources.MomentOf(start.Add(-60).In(loc).AddDate(0, 0, d))
		r := schedule.RoundBlock{Start: at, Minutes: 20, Who: "Ivo"}
		if d%2 == 1 {
			r.Care = []schedule.RoundCare{{Batch: "BH-270306-1", Do: "turn", Hands: 5}, {Batch: "BH-270316-1", Do: "pat, gently", Hands: 3}}
		}
		plan.Rounds = append(plan.Rounds, r)
	}
	return plan
}

// sampleBatch is one batch whose make starts at the moment.
func sampleBatch(id string, start resources.Moment) schedule.Batch {
	b := schedule.Batch{ID: id, Cheese: "Bramble hoop", Litres: 8_500, Pieces: 15, Spare: 1,
		Milk: &schedule.Draw{Supply: "Hill Farm cow", Collect: start.Add(-90)}}
	stages := []struct {
		name       string
		work, hold resources.Minutes
		who, at    string
	}{
		{"make", 60, 0, "Nell", "room"},
		{"set", 0, 24 * resources.Hour, "", "room"},
		{"drain", 40, 12 * resources.Hour, "Nell", "room"},
		{"mould", 55, 0, "Ivo", "room"},
		{"chill", 0, 24 * resources.Hour, "", "kitchen fridge"},
		{"ripen", 30, 9*resources.Day + 30, "Nell", "cheese cave"},
		{"pack", 30, 12 * resources.Hour, "Ivo", "kitchen fridge"},
	}
	at := start
	for _, s := range stages {
		b.Stages = append(b.Stages, schedule.Task{Stage: s.name, Start: at, Work: s.work, Who: s.who, Hold: s.hold,
			Ends: at.Add(s.work + s.hold), At: s.at, SlipFrom: at, SlipUntil: at.Add(2 * resources.Hour)})
		at = at.Add(s.work + s.hold)
	}
	b.Stages[6].SlipUntil, b.Stages[6].Critical = b.Stages[6].Start, true
	b.Stages[0].Uses = []schedule.Occupied{{Thing: "tall pot", Count: 1, From: start, Until: b.Stages[2].Start.Add(40)}}
	b.Stages[3].Uses = []schedule.Occupied{
		{Thing: "narrow hoop", Count: 15, From: b.Stages[3].Start, Until: b.Stages[5].Start.Add(30)},
		{Thing: "ripening box", Count: 2, From: b.Stages[3].Start, Until: b.Stages[5].Start.Add(30)},
	}
	b.Stages[4].BoxesAt = []schedule.Standing{{Place: "kitchen fridge", Shelf: "top", Layer: 1}, {Place: "kitchen fridge", Shelf: "middle", Layer: 1}}
	b.Stages[5].BoxesAt = []schedule.Standing{{Place: "cheese cave"}, {Place: "cheese cave"}}
	return b
}

// made gives the calendar of a plan of the sample's kind, revised as new.
func made(t *testing.T, p *schedule.Problem, plan *schedule.Plan, opt Options) []byte {
	t.Helper()
	schedule.CountMoves(plan, nil)
	note.Revise(p, plan, nil)
	out, err := Encode(p, plan, opt)
	if err != nil {
		t.Fatal(err)
	}
	return out
}
