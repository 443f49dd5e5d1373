package note_test

import (
	"testing"

	"ripeby/calendar/note"
	"ripeby/schedule"
)

// A wait of no length between two holds in one place ends no stay and begins none.
func TestAStayGoesOnThroughAHoldOfNoLength(t *testing.T) {
	b := schedule.Batch{ID: "X-1", Stages: []schedule.Task{
		{Stage: "chill", Start: 0, Work: 10, Hold: 50, Ends: 60, At: "fridge"},
		{Stage: "look", Start: 60, Ends: 60, At: "fridge"},
		{Stage: "rest", Start: 60, Hold: 40, Ends: 100, At: "fridge"},
		{Stage: "pack", Start: 100, Work: 10, Hold: 5, Ends: 115, At: "fridge"},
	}}
	p := &schedule.Plan{Batches: []schedule.Batch{b}}
	var got [][2]int64
	for i := range b.Stages {
		if n, ok := note.OfStay(p, &p.Batches[0], i); ok {
			got = append(got, [2]int64{int64(n.From), int64(n.Until)})
		}
	}
	if len(got) != 2 || got[0] != [2]int64{10, 100} || got[1] != [2]int64{110, 115} {
		t.Errorf("got %v, want one stay from 10 to 100 and one from 110 to 115", got)
	}
}
