package main

import (
	"slices"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
)

// Of what could be packed in time, and must rest before it leaves, it is told when it leaves.
func TestWhatRestsIsToldWhenItLeaves(t *testing.T) {
	at := func(day, hour int) resources.Moment {
		return resources.MomentOf(time.Date(2027, time.March, day, hour, 0, 0, 0, time.UTC))
	}
	p := &schedule.Problem{}
	p.Kitchen.Zone = time.UTC
	a := fitAnswer{problem: p, order: &whatif.Order{Cheese: "Curd", Pieces: 4, By: at(6, 7)},
		fit: &whatif.Fit{Outcome: whatif.FitsNot, MostSure: true, Ready: at(5, 10), Leaves: at(8, 7), ReadySure: true}}
	want := "all of them can be packed by Fri 5 Mar 10:00 and leave by Mon 8 Mar 07:00; no sooner, if they leave at 07:00"
	if got := a.insteadLines(); !slices.Contains(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	var out strings.Builder
	if err := a.json(&out); err != nil || !strings.Contains(out.String(), `"earliest_leaves": "2027-03-08T07:00:00Z"`) {
		t.Errorf("got %s, %v", out.String(), err)
	}
	a.fit.Ready = at(7, 10)
	want = "all of them can be packed by Sun 7 Mar 10:00; no sooner, if they leave at 07:00"
	if got := a.insteadLines(); !slices.Contains(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := a.soonText(&whatif.Fit{Ready: at(5, 10)}), "Not found to fit; 0 pieces by then; looking for more, and for the reason"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
