package main

import (
	"slices"
	"strings"
	"testing"
	"time"

	"ripeby/schedule"
)

func TestStartsNamesEverySourceOfATarget(t *testing.T) {
	by := int64(40_000_000)
	share := []schedule.Share{{Target: "Fair", By: 40_000_000, Pieces: 1}}
	plan := &schedule.Plan{
		Targets: []schedule.WantResult{
			{Target: "Fair", By: 40_000_000, Cheese: "Hoop", Wanted: 3, Met: 3},
			{Target: "Fair", By: 40_000_000, Want: 1, Cheese: "Curd", Wanted: 2, Met: 2},
			{Target: "Fair", By: 40_000_000, Want: 2, Cheese: "Wheel", Wanted: 1, Short: 1},
			{Target: "Fair", By: 40_000_000, Want: 3, Cheese: "Whey", Wanted: 0},
		},
		Stock: []schedule.StockUse{{Cheese: "Curd", For: share}, {Cheese: "Curd"}},
		Batches: []schedule.Batch{
			{ID: "H-1", Cheese: "Hoop", Begun: true, For: share},
			{ID: "H-2", Cheese: "Hoop", For: share, Stages: []schedule.Task{{Start: 39_980_000}}},
			{ID: "H-3", Cheese: "Hoop", For: share, Stages: []schedule.Task{{Start: 39_981_440}}},
			{ID: "H-4", Cheese: "Hoop", Stages: []schedule.Task{{Start: 39_982_000}}},
		},
	}
	s := summary{plan: plan, zone: time.UTC, width: 200}
	var b strings.Builder
	s.starts(&b)
	when := func(m int64) string { return time.Unix(m*60, 0).UTC().Format("Mon 2 Jan 15:04") }
	want := "\nWhen to start:\n- Fair, " + when(by) + ": Hoop H-1 is under way and starts " + when(39_980_000) +
		" (H-2) and " + when(39_981_440) + " (H-3); Curd from stock; Wheel cannot be had; Whey has left already.\n"
	if b.String() != want {
		t.Errorf("got  %q\nwant %q", b.String(), want)
	}
}

// A target has an entry for each of its wants and is one all the same; of two at one moment
// the plan's first comes first.
func TestTargetsOfAPlan(t *testing.T) {
	var plan schedule.Plan
	for _, k := range []target{{"Stall", 90}, {"Fair", 70}, {"Stall", 70}, {"Fair", 70}, {"Stall", 90}, {"Alms", 70}} {
		plan.Targets = append(plan.Targets, schedule.WantResult{Target: k.name, By: k.by})
	}
	want := []target{{"Fair", 70}, {"Stall", 70}, {"Alms", 70}, {"Stall", 90}}
	if got := targetsOf(&plan); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}
