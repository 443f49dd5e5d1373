package planfile_test

import (
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// fataler is a test of the testing package or of rapid.
type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

// zone loads a time zone; the tests need the machine's zone files.
func zone(t fataler, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatalf("time zone: %v", err)
	}
	return z
}

// at gives a moment from RFC 3339.
func at(t testing.TB, text string) resources.Moment {
	t.Helper()
	m, err := time.Parse(time.RFC3339, text)
	if err != nil {
		t.Fatal(err)
	}
	return resources.MomentOf(m)
}

// examplePlan has at least one of everything that the file can hold, and a hold
// that crosses Dublin's clock change of 28 March 2027.
func examplePlan(t testing.TB) *schedule.Plan {
	fridge := []schedule.Standing{{Place: "kitchen fridge", Shelf: "top", X: 0, Y: 254_000,
		Width: 40 * resources.Centimetre, Depth: 30 * resources.Centimetre, Layer: 1}}
	from := at(t, "2027-03-01T06:00:00Z")
	return &schedule.Plan{
		Kitchen: "Saltgrass <Lane> & Söhne", TimeZone: "Europe/Dublin", From: from, Outcome: schedule.Short,
		Score: schedule.Score{Late: 12, Short: 650, Batches: 1, Moved: 3, Litres: 8500, Bother: 118, MakeStarts: 37_530},
		Proof: schedule.Proof{Level: schedule.LevelLitres,
			Bound: schedule.Score{Late: 12, Short: 650, Batches: 1, Moved: 3, Litres: 8500, Bother: 90, MakeStarts: 37_530}},
		Batches: []schedule.Batch{{
			ID: "BH-270327-1", Cheese: "Bramble hoop", Litres: 9500, Pieces: 17, Spare: 1, Begun: true,
			Milk: &schedule.Draw{Supply: "Hill Farm cow", Collect: at(t, "2027-03-26T07:30:00Z")},
			Stages: []schedule.Task{
				{Stage: "make", Begun: true, Start: at(t, "2027-03-27T07:30:00Z"), Work: 60, Who: "Nell", Hold: 0,
					Ends: at(t, "2027-03-27T08:30:00Z"), At: "room", SlipFrom: at(t, "2027-03-27T07:30:00Z"), SlipUntil: at(t, "2027-03-27T07:30:00Z"), Revised: from,
					Uses: []schedule.Occupied{{Thing: "tall pot", Count: 1, From: at(t, "2027-03-27T07:30:00Z"),
						Until: at(t, "2027-03-28T08:10:00Z"), CleanUntil: at(t, "2027-03-28T08:30:00Z")}}},
				{Stage: "set", Start: at(t, "2027-03-27T08:30:00Z"), Hold: 1380, Ends: at(t, "2027-03-28T07:30:00Z"),
					At: "kitchen fridge", SlipFrom: at(t, "2027-03-27T08:30:00Z"), SlipUntil: at(t, "2027-03-27T08:30:00Z"), Sequence: 2, Revised: from,
					StaySequence: 3, StayRevised: from, BoxesAt: fridge},
				{Stage: "cellar", Start: at(t, "2027-03-28T07:30:00Z"), Work: 25, Who: "Nell", Hold: 95,
					Ends: at(t, "2027-03-28T09:30:00Z"), At: "cheese cave", SlipFrom: at(t, "2027-03-28T06:30:00Z"), SlipUntil: at(t, "2027-03-28T07:30:00Z"), Critical: true, Revised: from,
					BoxesAt: []schedule.Standing{{Place: "cheese cave"}}},
			},
			Care: []schedule.CareDay{{Day: resources.Date{Year: 2027, Month: 3, Day: 28}, Do: "turn", Hands: 5}},
			For: []schedule.Share{{Target: "Easter market", By: at(t, "2027-03-30T06:00:00Z"), Want: 1,
				Pieces: 15, Promised: 6}},
		}, {
			ID: "QC-270327-1", Cheese: "Quick curd", Litres: 4000, Pieces: 8,
			Stages: []schedule.Task{{Stage: "make", Start: at(t, "2027-03-27T09:00:00Z"), Work: 30, Who: "Bríd",
				Ends: at(t, "2027-03-27T09:30:00Z"), At: "room", SlipFrom: at(t, "2027-03-27T08:00:00Z"), SlipUntil: at(t, "2027-03-27T11:00:00Z"), Revised: from}},
		}},
		Stock: []schedule.StockUse{{Cheese: "Bramble hoop", Pieces: 12, Packed: at(t, "2027-02-27T19:00:00Z"),
			Lot: "BH-270220-1", Left: []schedule.LeftShare{{Target: "Tea room", By: at(t, "2027-02-28T12:00:00Z"), Want: 1, Planned: 3, Pieces: 2}},
			At: "kitchen fridge", Ends: at(t, "2027-03-05T19:00:00Z"), BoxesAt: fridge}},
		Past: []schedule.Batch{{ID: "BH-270210-1", Lot: "BH-270210-1", Cheese: "Bramble hoop", Litres: 8_500, Pieces: 12, Made: 15, Gone: 12, Begun: true,
			Left: []schedule.LeftShare{{Target: "Tea room", By: at(t, "2027-02-28T12:00:00Z"), Planned: 12, Pieces: 12}},
			Stages: []schedule.Task{{Stage: "make", Begun: true, Start: at(t, "2027-02-10T09:00:00Z"), Work: 60, Who: "Nell", Ends: at(t, "2027-03-12T09:00:00Z"), At: "room",
				SlipFrom: at(t, "2027-02-10T09:00:00Z"), SlipUntil: at(t, "2027-02-10T09:00:00Z"), Revised: from}}}},
		PastStock: []schedule.StockUse{{Cheese: "Bramble hoop", Packed: at(t, "2027-02-26T19:00:00Z"), Lot: "BH-270219-1", At: "kitchen fridge", Ends: at(t, "2027-03-05T19:00:00Z")}},
		Targets: []schedule.WantResult{
			{Target: "Easter market", By: at(t, "2027-03-30T06:00:00Z"), Want: 0, Cheese: "Bramble hoop", Price: 650,
				Wanted: 10, Met: 9, Short: 1, Because: "No pot is free on 27 March."},
			{Target: "Easter market", By: at(t, "2027-03-30T06:00:00Z"), Want: 1, Cheese: "Bramble hoop", Price: 650,
				Promised: true, Wanted: 6, Met: 6},
		},
		Rounds: []schedule.RoundBlock{{Start: at(t, "2027-03-28T06:00:00Z"), Minutes: 20, Who: "Nell",
			Care: []schedule.RoundCare{{Batch: "BH-270327-1", Do: "turn", Hands: 5}}}},
		Milk: []schedule.MilkJob{{Order: true, At: at(t, "2027-03-25T07:30:00Z"), Supply: "Hill Farm cow", Collect: at(t, "2027-03-27T07:30:00Z"),
			Litres: 2_500, Known: 6_000, Draws: []schedule.MilkDraw{{Batch: "BH-270327-1", Cheese: "Bramble hoop", Litres: 8_500}}, Sequence: 1, Revised: from}},
		Changes: []schedule.Change{{Batch: "BH-270327-1", Stage: "make", Was: at(t, "2027-03-27T06:00:00Z"), WasWho: "Finn", Now: at(t, "2027-03-27T07:00:00Z"),
			NowWho: "Nell", Because: "Kept as it was, a piece would be short."}, {Batch: "QC-270320-1", Stage: "pack", Was: at(t, "2027-03-28T06:00:00Z"), WasWho: "Nell",
			Because: "Kept as it was, it would take one batch more."}},
		Warnings: []schedule.Warning{{Code: "round-too-short", Text: "The round of 28 March is too short.", At: at(t, "2027-03-28T06:00:00Z")},
			{Code: "target-past", Text: "One target lies in the past."}},
		Cautions: []schedule.Caution{{Code: "raw-milk", Cheese: "Bramble hoop", Text: "Follow your local rules."},
			{Code: "warm-hold", Cheese: "Bramble hoop", Stage: "set", Text: "Keep an eye on the acidity."}},
		Titles: schedule.Titles{Named: true, Sequence: 1, Revised: from},
		MadeOf: &schedule.MadeOf{Entry: 44, Lines: []string{"3f9a0c11d2e4"}, Things: []schedule.MadeThing{{What: "Nell in kitchen.yaml", Entry: "0420e4998fb7"}},
			Packed: []schedule.PackedBy{{Target: "Easter market", By: at(t, "2027-03-30T06:00:00Z"), Before: 600}}},
		LastNumber: []schedule.NumberUsed{{Day: "BH-270327", Last: 1}, {Day: "QC-270327", Last: 1}},
	}
}
