package schedule_test

import (
	"testing"

	"ripeby/schedule"
)

// One id is the beginning of another, and one the end.
func TestWarnedOfOneBatchIsNotOfAnother(t *testing.T) {
	p := &schedule.Plan{Warnings: []schedule.Warning{
		{Code: "begun-stuck", Text: "WH-270224-10 (White heart) cannot go on."},
		{Code: "boxes-do-not-fit", Text: "The boxes of WH-270224-2 (White heart) do not fit."},
	}}
	for _, c := range []struct {
		code, id string
		want     bool
	}{
		{"begun-stuck", "WH-270224-10", true}, {"begun-stuck", "WH-270224-1", false}, {"begun-stuck", "H-270224-10", false},
		{"boxes-do-not-fit", "WH-270224-2", true}, {"begun-stuck", "WH-270224-2", false},
	} {
		if got := p.Warned(c.code, c.id); got != c.want {
			t.Errorf("%s of %s: got %v, want %v", c.code, c.id, got, c.want)
		}
	}
}

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
		if n, ok := p.StayIn(&p.Batches[0], i); ok {
			got = append(got, [2]int64{int64(n.From), int64(n.Until)})
		}
	}
	if len(got) != 2 || got[0] != [2]int64{10, 100} || got[1] != [2]int64{110, 115} {
		t.Errorf("got %v, want one stay from 10 to 100 and one from 110 to 115", got)
	}
}
