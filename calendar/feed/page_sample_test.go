package feed

import (
	"testing"
	"time"

	"ripeby/calendar/note"
	"ripeby/resources"
	"ripeby/schedule"
)

// pageNow is a Tuesday in the middle of a piece of work.
var pageNow = time.Date(2027, 3, 16, 8, 20, 0, 0, time.UTC)

// pageMade is a small plan that has something on every page: a batch that has begun,
// one that begins now, a round with care, shelves and a counted place, a target that
// is short, milk, warnings and cautions.
func pageMade(t testing.TB) *Made {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	at := func(day, hour, minute int) resources.Moment {
		return resources.MomentOf(time.Date(2027, 3, day, hour, minute, 0, 0, zone))
	}
	size := func(w, d, h resources.Micrometres) resources.Size {
		return resources.Size{Width: w * resources.Centimetre, Depth: d * resources.Centimetre, Height: h * resources.Centimetre}
	}
	box := func(shelf string, x, layer int) schedule.Standing {
		return schedule.Standing{Place: "wine fridge", Shelf: shelf, X: resources.Micrometres(x) * resources.Centimetre,
			Width: 20 * resources.Centimetre, Depth: 30 * resources.Centimetre, Layer: layer}
	}
	from := at(16, 6, 0)
	problem := &schedule.Problem{From: from, Kitchen: resources.Kitchen{Name: "Saltgrass Lane", TimeZone: "Europe/Dublin", Zone: zone, Step: 5,
		People: []resources.Person{{Name: "Nell"}, {Name: "Ivo"}},
		Cold: []resources.ColdPlace{
			{Name: "wine fridge", Temperature: 11000, Shelves: []resources.Shelf{{Name: "top", Size: size(45, 41, 24)}, {Name: "bottom", Size: size(45, 41, 24)}}},
			{Name: "kitchen fridge", Temperature: 4000, Boxes: 6}}}}
	plan := &schedule.Plan{Kitchen: "Saltgrass Lane", TimeZone: "Europe/Dublin", From: from, Outcome: schedule.Short,
		Proof:    schedule.Proof{Level: schedule.LevelLitres},
		Warnings: []schedule.Warning{{Code: "round-too-short", Text: "The round of Wed 17 Mar is 5 min too short.", At: at(17, 18, 0)}, {Code: "x", Text: "The pot is small."}},
		Cautions: []schedule.Caution{{Code: "raw-milk", Cheese: "Bramble hoop", Text: "If the milk is raw, other rules hold."},
			{Code: "slow-set", Cheese: "Bramble hoop", Stage: "make", Text: "A curd that sets late is a risk."}}}
	plan.Batches = []schedule.Batch{
		{ID: "BH-270310-1", Cheese: "Bramble hoop", Litres: 9000, Pieces: 16, Begun: true, Stages: []schedule.Task{
			{Stage: "make", Start: at(10, 8, 0), Work: 60, Who: "Nell", Hold: at(19, 9, 0).Sub(at(10, 9, 0)), Ends: at(19, 9, 0), At: "wine fridge", Begun: true,
				SlipFrom: at(10, 8, 0), SlipUntil: at(10, 8, 0), BoxesAt: []schedule.Standing{box("top", 0, 1), box("top", 0, 2)}},
			{Stage: "pack", Start: at(19, 9, 0), Work: 30, Who: "Ivo", Ends: at(20, 9, 0), Hold: 24*60 - 30, At: "kitchen fridge", SlipFrom: at(19, 9, 0), SlipUntil: at(19, 9, 0),
				Critical: true, BoxesAt: []schedule.Standing{{Place: "kitchen fridge"}, {Place: "kitchen fridge"}}}},
			Care: []schedule.CareDay{{Day: resources.Date{Year: 2027, Month: 3, Day: 16}, Do: "turn", Hands: 5}, {Day: resources.Date{Year: 2027, Month: 3, Day: 18}, Do: "turn", Hands: 5}},
			For:  []schedule.Share{{Target: "Easter market", By: at(20, 9, 0), Pieces: 14, Promised: 6}}},
		{ID: "BH-270316-1", Cheese: "Bramble hoop", Litres: 8500, Pieces: 15, Spare: 1, Milk: &schedule.Draw{Supply: "Hill Farm cow", Collect: at(16, 7, 30)}, Stages: []schedule.Task{
			{Stage: "make", Start: at(16, 8, 0), Work: 60, Who: "Nell", Hold: 24 * 60, Ends: at(17, 9, 0), At: "room", SlipFrom: at(16, 7, 30), SlipUntil: at(16, 9, 15),
				Uses: []schedule.Occupied{{Thing: "tall pot", Count: 1, From: at(16, 8, 0), Until: at(17, 9, 0), CleanUntil: at(17, 9, 30)}, {Thing: "mould", Count: 15, From: at(16, 8, 0), Until: at(17, 9, 0), CleanUntil: at(17, 10, 0)}}},
			{Stage: "ripen", Start: at(17, 9, 0), Work: 20, Who: "Nell", Hold: 9 * 24 * 60, Ends: at(26, 9, 20), At: "wine fridge", SlipFrom: at(17, 9, 0), SlipUntil: at(17, 12, 0),
				BoxesAt: []schedule.Standing{box("bottom", 0, 1), box("bottom", 20, 1)}}}},
	}
	plan.Rounds = []schedule.RoundBlock{{Start: at(16, 18, 0), Minutes: 20, Who: "Ivo", Care: []schedule.RoundCare{{Batch: "BH-270310-1", Do: "turn", Hands: 5}}}}
	plan.Targets = []schedule.WantResult{{Target: "Easter market", By: at(20, 9, 0), Cheese: "Bramble hoop", Wanted: 20, Met: 14, Short: 6, Because: "The wine fridge is full until Fri 19 Mar."}}
	problem.Kitchen.Settled = 2 * resources.Day
	plan.Changes = []schedule.Change{
		{Batch: "BH-270316-1", Stage: "make", Was: at(16, 7, 30), WasWho: "Ivo", Now: at(16, 8, 0), NowWho: "Nell", Because: "Kept as it was, a piece would be short. Without entry 4 (Mon 15 Mar 18:00: person: Ivo, away: true) it stays as it was."},
		{Batch: "BH-270316-1", Stage: "ripen", Now: at(17, 9, 0), NowWho: "Nell", Because: "New: 14 pieces for Easter market."},
		{Batch: "BH-270320-1", Stage: "make", Was: at(20, 8, 0), WasWho: "Nell", Because: "Kept as it was, it would take one batch more."}}
	schedule.CountMoves(plan, nil)
	note.Revise(problem, plan, nil)
	return &Made{Problem: problem, Plan: plan, Print: "page", Fresh: true}
}

// pageStood serves that plan in the middle of a piece of work.
func pageStood(t testing.TB, made *Made) *stand {
	t.Helper()
	return stoodOn(t, made, &files{text: map[string][]byte{}}, &clock{at: pageNow})
}

// pagePart is a page below the page's address.
type pagePart struct{ name, path string }

// pageParts are all of them, each by a name.
func pageParts() []pagePart {
	return []pagePart{
		{"now", ""}, {"week", "week"}, {"batches", "batches"}, {"cold", "cold"}, {"sheet", "batch/BH-270316-1"},
		{"place", "cold/now/wine%20fridge"}, {"more", "more"}, {"calendars", "calendars"}, {"status", "status"}, {"changes", "changes"}, {"lists", "list"}, {"list", "list/155a1440389eab09"},
	}
}
