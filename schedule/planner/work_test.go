package planner_test

import (
	"testing"
	"time"

	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/planner"
)

func TestWorkGrowsWithTheBatchesWanted(t *testing.T) {
	// The season wants 12 x 22 and 6 x 6 rings of at most 23 a batch, 12 x 17 fresh of
	// at most 19: 14 and 11 batches.
	if got, want := planner.WorkFor(seasonKitchen(time.UTC)), int64(15*24_000_000); got != want {
		t.Errorf("season: got %d, want %d", got, want)
	}
	// Four times as much wants 53 and 43, 66 beyond 30.
	many := seasonKitchen(time.UTC)
	for range 2 {
		many.Targets = append(many.Targets, many.Targets...)
	}
	if got, want := planner.WorkFor(many), int64(20*12_000_000+66*6_000_000); got != want {
		t.Errorf("four seasons: got %d, want %d", got, want)
	}
	few := seasonKitchen(time.UTC)
	few.Targets = few.Targets[:4]
	if got := planner.WorkFor(few); got != cp.DefaultBudget {
		t.Errorf("few targets: got %d, want the engine's default", got)
	}
	few.Recipes[0].Batch.Most = 0 // no size at all
	few.Targets = append(few.Targets, schedule.Target{Wants: []schedule.Want{{Cheese: "Bloomy", Pieces: 10_000, Price: 1}, {Cheese: "Fresh", Pieces: 10_000}}})
	if got := planner.WorkFor(few); got != cp.DefaultBudget {
		t.Errorf("what cannot be made or is worth nothing: got %d, want the engine's default", got)
	}
}
