package planner_test

import (
	"testing"
	"time"

	"ripeby/resources"
)

// What runs past its most is told with the batch and stage, how much too long that is, and
// what comes next and when: for the hold that runs, and for one that is still to come.
func TestAHoldThatGoesOnTooLongIsTold(t *testing.T) {
	for _, c := range []struct {
		name  string
		until resources.Clock
		from  int // hour of the planning start, on 1 March
		want  string
	}{
		// make 08:00, done 08:30, at the most 4 h: by 18:00 it is 5 h 30 min over.
		{"running", clock(20, 0), 18, "BN-270301-1 (Bench): the hold of make goes on 5 h 30 min longer than it should. The next stage, drain, is planned for Mon 1 Mar 18:00; look at the cheese before you go on."},
		// drain 12:00, done 12:30, 6 h; rest from 18:30, 8 h; nobody is there before 08:00.
		{"to come", clock(12, 30), 10, "BN-270301-1 (Bench): the hold of rest goes on 5 h 30 min longer than it should. The next stage, salt, is planned for Tue 2 Mar 08:00; look at the cheese before you go on."},
	} {
		p := benchKitchen(t)
		p.From = at(p.Kitchen.Zone, 2027, time.March, 1, c.from, 0)
		p.Kitchen.People[0].Hours[0].Until = c.until
		begunAt(p, "BN-270301-1", 8)
		plan := planFor(t, p, smallBudget)
		mustHold(t, p, plan)
		var got []string
		for _, w := range plan.Warnings {
			if w.Code == "hold-overrun" {
				got = append(got, w.Text)
			}
		}
		if len(got) != 1 || got[0] != c.want {
			t.Errorf("%s: got %q, want %q alone", c.name, got, c.want)
		}
	}
}
