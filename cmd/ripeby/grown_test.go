package main

import (
	"slices"
	"testing"
	"time"

	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
)

// A batch that is made larger for an order is told, whoever gets the pieces.
func TestABatchThatGrowsIsTold(t *testing.T) {
	batch := func(id, target string) schedule.Batch {
		return schedule.Batch{ID: id, Cheese: "Curd", Stages: []schedule.Task{{Stage: "make"}, {Stage: "pack"}},
			For: []schedule.Share{{Target: target, Pieces: 4}}}
	}
	before := &schedule.Plan{Batches: []schedule.Batch{batch("C-1", "Fair"), batch("C-2", "Fair")}}
	now := &schedule.Plan{Batches: []schedule.Batch{batch("C-1", "order"), batch("C-2", "Fair")}}
	before.Batches[0].Litres, before.Batches[1].Litres, now.Batches[0].Litres, now.Batches[1].Litres = 4000, 4000, 6000, 5000
	p := &schedule.Problem{Earlier: before}
	p.Kitchen.Zone = time.UTC
	a := fitAnswer{problem: p, order: &whatif.Order{Target: "order", Cheese: "Curd", Pieces: 4}, fit: &whatif.Fit{Plan: now}}
	want := []string{"4 pieces from C-1, of 6 L instead of 4 L: make Thu 1 Jan 00:00, pack Thu 1 Jan 00:00",
		"C-2, of 5 L instead of 4 L, since pieces of others go to this order"}
	if got := a.sourceLines(); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
