package planner

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// A batch that stays where it was keeps its id, though what it gives goes to an order now
// and a new one stands in for it: else an answer says that all of its tasks move.
func TestABatchThatStaysKeepsItsID(t *testing.T) {
	batch := func(id, target string, starts ...resources.Moment) schedule.Batch {
		b := schedule.Batch{ID: id, Cheese: "Paper", For: []schedule.Share{{Target: target, Pieces: 6}}}
		for _, at := range starts {
			b.Stages = append(b.Stages, schedule.Task{Start: at})
		}
		return b
	}
	earlier := &schedule.Plan{Batches: []schedule.Batch{batch("P-1", "Fair", 100, 200, 300), batch("P-2", "Stall", 400, 500, 600)}}
	tests := []struct {
		name string
		now  []schedule.Batch
		want []string
	}{
		{"what they serve has changed", []schedule.Batch{batch("", "Order", 100, 200, 300), batch("", "Fair", 9000, 9100, 9200)}, []string{"P-1", ""}},
		{"one is packed sooner", []schedule.Batch{batch("", "Order", 100, 200, 280), batch("", "Fair", 400, 520, 600)}, []string{"P-1", "P-2"}},
		{"all have moved", []schedule.Batch{batch("", "Fair", 420, 520, 620), batch("", "Stall", 120, 220, 320)}, []string{"P-1", "P-2"}},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			pl := &Stated{p: &schedule.Problem{Earlier: earlier}}
			plan := &schedule.Plan{Batches: c.now}
			pl.keepIDs(plan)
			for i, want := range c.want {
				if got := plan.Batches[i].ID; got != want {
					t.Errorf("batch %d is called %q, want %q", i, got, want)
				}
			}
		})
	}
}
