package whatif

import (
	"testing"

	"ripeby/schedule"
)

// A cause is named where it was tried and work stayed without it; of anything else it is only said to have
// come before, with how many more there are.
func TestCauseText(t *testing.T) {
	list := []Cause{{Text: "entry 1"}, {Text: "entry 2"}, {Text: "the recipe of Dew (changed)"}}
	moved, added := &schedule.Change{Was: 5}, &schedule.Change{Now: 5}
	for _, c := range []struct {
		of   *schedule.Change
		by   []string
		list []Cause
		more bool
		want string
	}{
		{moved, []string{"entry 2"}, list, true, "Without entry 2 it stays as it was."},
		{moved, []string{"entry 1", "entry 2"}, list, false, "Without entry 1, or without entry 2, it stays as it was."},
		{added, []string{"entry 2"}, list, false, "Without entry 2 there is no such work."},
		{moved, nil, list[:1], false, "It came after entry 1."},
		{moved, nil, list[:2], false, "It came after entry 1 and entry 2."},
		{moved, nil, list, false, "It came after entry 1, entry 2 and 1 more."},
		{added, nil, list[:2], true, "It came after entry 1, entry 2 and more."},
	} {
		if got := causeText(c.of, c.by, c.list, c.more); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// Work is as it was where start and person are; new work is not there under whatever id.
func TestAsItWas(t *testing.T) {
	plan := &schedule.Plan{Batches: []schedule.Batch{{ID: "D-1", Cheese: "Dew", Stages: []schedule.Task{{Stage: "make", Start: 5, Work: 3, Who: "Nell"}}}}}
	for _, c := range []struct {
		of     schedule.Change
		cheese string
		want   bool
	}{
		{schedule.Change{Batch: "D-1", Stage: "make", Was: 5, WasWho: "Nell", Now: 9}, "Dew", true},
		{schedule.Change{Batch: "D-1", Stage: "make", Was: 5, WasWho: "Finn", Now: 9}, "Dew", false},
		{schedule.Change{Batch: "D-1", Stage: "make", Was: 6, WasWho: "Nell"}, "Dew", false},
		{schedule.Change{Batch: "D-2", Stage: "make", Was: 5, WasWho: "Nell"}, "Dew", false},
		{schedule.Change{Batch: "D-2", Stage: "make", Now: 5}, "Dew", false},
		{schedule.Change{Batch: "D-2", Stage: "make", Now: 5}, "Mist", true},
		{schedule.Change{Batch: "D-2", Stage: "make", Now: 6}, "Dew", true},
	} {
		if got := asItWas(&c.of, c.cheese, plan); got != c.want {
			t.Errorf("%+v of %s: got %t, want %t", c.of, c.cheese, got, c.want)
		}
	}
}
