package main

import (
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Of what was told for the settled days it is counted what moves or is dropped, and what is new; what
// changes later is not.
func TestSettledText(t *testing.T) {
	from := resources.MomentOf(time.Date(2027, time.March, 1, 6, 0, 0, 0, time.UTC))
	p := &schedule.Problem{From: from, Earlier: &schedule.Plan{}}
	p.Kitchen.Zone, p.Kitchen.Settled = time.UTC, resources.Day
	soon, later := from.Add(resources.Hour), from.Add(3*resources.Day)
	moved, dropped, sooner, added := schedule.Change{Was: soon, Now: later}, schedule.Change{Was: soon}, schedule.Change{Was: later, Now: soon}, schedule.Change{Now: soon}
	far := schedule.Change{Was: later, Now: later + 5}
	for want, changes := range map[string][]schedule.Change{
		"Until Tue 2 Mar 2027 06:00 nothing changes of what was planned.":           {far},
		"Until Tue 2 Mar 2027 06:00 nothing that was planned moves; 1 task is new.": {added, far},
		"Until Tue 2 Mar 2027 06:00 1 settled task moves.":                          {sooner},
		"Until Tue 2 Mar 2027 06:00 3 settled tasks move, and 2 tasks are new.":     {moved, dropped, sooner, added, added, far},
	} {
		if got := settledText(p, &schedule.Plan{Changes: changes}); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	if p.Kitchen.Settled = 0; settledText(p, &schedule.Plan{}) != "" {
		t.Error("nothing is settled, and something is said of it")
	}
}
