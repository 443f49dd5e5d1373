package packing

import (
	"testing"

	"ripeby/schedule/cp/problem"
)

func TestTheMomentIsOneAtWhichMostAreKnownToStand(t *testing.T) {
	list := []Stay{{From: 0, Until: 40}, {From: 10, Until: 60}, {From: 20, Until: 50}}
	any := func(int) bool { return true }
	for _, c := range []struct {
		known  []problem.Span
		cuts   []int
		enough func(int) bool
		want   int
	}{
		{known: make([]problem.Span, 3), enough: any, want: 25},                                         // the middle of [20, 40), on the grid of 5
		{known: []problem.Span{{From: 33, Until: 40}, {}, {}}, enough: any, want: 35},                   // where the first is known to stand
		{known: []problem.Span{{From: 33, Until: 40}, {}, {From: 0, Until: 34}}, enough: any, want: 25}, // the longer of two where one is
		{known: make([]problem.Span, 3), cuts: []int{30}, enough: func(at int) bool { return at >= 30 }, want: 30},
	} {
		if at, ok := Moment(list, c.known, 5, c.cuts, c.enough); !ok || at != c.want {
			t.Errorf("known %v, cuts %v: got %d (%v), want %d", c.known, c.cuts, at, ok, c.want)
		}
	}
	if at, ok := Moment(append(list, Stay{From: 41, Until: 50}), nil, 5, nil, any); ok {
		t.Errorf("stays that share no moment: got %d", at)
	}
	if at, ok := Moment(list, nil, 5, nil, func(int) bool { return false }); ok {
		t.Errorf("boxes that stand at every moment: got %d", at)
	}
}
