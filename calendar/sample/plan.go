package sample

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// Batch is a Bramble hoop of 9 L whose make begins at the moment:
//
//	make 1 h | set 24 h | mould 55 min | chill 24 h | ripen 30 min + 9 d in the cave | pack 30 min + store
func Batch(id string, start resources.Moment, leaves resources.Moment) schedule.Batch {
	box := func(place, shelf string, x resources.Micrometres, layer int) schedule.Standing {
		s := schedule.Standing{Place: place, Shelf: shelf, Layer: layer, X: x}
		if shelf != "" {
			s.Width, s.Depth = 30*cm, 36*cm
		}
		return s
	}
	fridge := []schedule.Standing{box("kitchen fridge", "top", 0, 1), box("kitchen fridge", "top", 0, 2)}
	cave := []schedule.Standing{box("cheese cave", "", 0, 0), box("cheese cave", "", 0, 0)}
	b := schedule.Batch{ID: id, Cheese: "Bramble hoop", Litres: 9_000, Pieces: 16, Spare: 1}
	at := start
	add := func(stage, place, who string, work, hold resources.Minutes, boxes []schedule.Standing, kit ...schedule.Occupied) {
		t := schedule.Task{Stage: stage, Start: at, Work: work, Who: who, Hold: hold, Ends: at.Add(work + hold),
			At: place, BoxesAt: boxes, SlipFrom: at.Add(-15), SlipUntil: at.Add(25), Uses: kit}
		b.Stages = append(b.Stages, t)
		at = t.Ends
	}
	add("make", "room", "Nell", 60, 0, nil, schedule.Occupied{Thing: "tall pot", Count: 1})
	add("set", "room", "", 0, resources.Day, nil)
	add("mould", "room", "Oisín", 55, 0, nil, schedule.Occupied{Thing: "narrow hoop", Count: 16}, schedule.Occupied{Thing: "ripening box", Count: 2})
	add("chill", "kitchen fridge", "", 0, resources.Day, fridge)
	add("ripen", "cheese cave", "Nell", 30, 9*resources.Day, cave)
	add("pack", "kitchen fridge", "Nell", 30, leaves.Sub(at)-30, fridge)
	return b
}

// Plan is two batches, stock, two targets of which one is short, a round, care that no
// round does, and a warning. It spans the clock change of 28 March 2027.
func Plan(p *schedule.Problem) *schedule.Plan {
	zone := p.Kitchen.Zone
	at := func(s string) resources.Moment { return At(zone, s) }
	market := at("2027-03-29 07:00")
	first := Batch("BH-270316-1", at("2027-03-16 07:30"), market)
	second := Batch("BH-270316-2", at("2027-03-16 09:00"), market)
	for i, b := range []*schedule.Batch{&first, &second} {
		b.Milk = &schedule.Draw{Supply: "Hill Farm cow", Collect: at("2027-03-16 07:30")}
		b.For = []schedule.Share{{Target: "Easter market", By: market, Pieces: 9}, {Target: "Easter market", By: market, Want: 1, Pieces: 6 * (1 - i), Promised: 6 * (1 - i)}}
	}
	first.Stages[0].SlipUntil, first.Stages[0].Critical = first.Stages[0].Start, true // no slip at all
	second.Stages[0].SlipUntil = at("2027-03-17 06:30")
	first.Care = []schedule.CareDay{{Day: resources.Date{Year: 2027, Month: 3, Day: 20}, Do: "turn", Hands: 5},
		{Day: resources.Date{Year: 2027, Month: 3, Day: 21}, Do: "pat dry", Hands: 10}}
	return &schedule.Plan{
		Kitchen: p.Kitchen.Name, TimeZone: p.Kitchen.TimeZone, From: p.From, Outcome: schedule.Short,
		Batches: []schedule.Batch{first, second},
		Stock: []schedule.StockUse{{Cheese: "Bramble hoop", Pieces: 4, Packed: at("2027-03-13 19:00"), At: "kitchen fridge",
			Ends:    at("2027-03-19 19:00"),
			BoxesAt: []schedule.Standing{{Place: "kitchen fridge", Shelf: "middle", Width: 40 * cm, Depth: 30 * cm, Layer: 1}},
			For:     []schedule.Share{{Target: "Thursday shop", By: at("2027-03-18 15:00"), Pieces: 4}}}},
		Targets: []schedule.WantResult{
			{Target: "Thursday shop", By: at("2027-03-18 15:00"), Cheese: "Bramble hoop", Wanted: 6, Met: 4, Short: 2,
				Because: "No batch begun after the planning start can be ripe by then."},
			{Target: "Easter market", By: market, Cheese: "Bramble hoop", Wanted: 18, Met: 18},
			{Target: "Easter market", By: market, Want: 1, Cheese: "Bramble hoop", Promised: true, Wanted: 6, Met: 6},
		},
		Rounds: []schedule.RoundBlock{{Start: at("2027-03-20 07:00"), Minutes: 20, Who: "Nell",
			Care: []schedule.RoundCare{{Batch: "BH-270316-1", Do: "turn", Hands: 5}}}},
		Warnings: []schedule.Warning{{Code: "care-without-round", At: at("2027-03-21 00:00"),
			Text: "BH-270316-1 is to be patted dry on 2027-03-21, but nobody has a round that day."}},
	}
}
