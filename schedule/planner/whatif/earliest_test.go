package whatif

import (
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// The first later day for which what is ready at a moment is in time: packed as long before
// as was asked, and by the same clock across a change of it.
func TestTheFirstDayForWhatIsReady(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	at := func(d, h, min int) resources.Moment {
		return resources.MomentOf(time.Date(2027, time.March, d, h, min, 0, 0, zone))
	}
	p := &schedule.Problem{}
	p.Kitchen.Zone = zone
	for _, c := range []struct {
		ready  resources.Moment
		packed resources.Minutes
		want   int
	}{
		{at(26, 7, 0), 0, 1}, {at(27, 7, 0), 0, 1}, {at(27, 7, 5), 0, 2}, {at(28, 7, 0), 0, 2}, {at(28, 7, 5), 0, 3},
		{at(26, 21, 0), 10 * resources.Hour, 1}, {at(26, 21, 5), 10 * resources.Hour, 2}, {at(27, 20, 0), 10 * resources.Hour, 2},
		{at(27, 20, 5), 10 * resources.Hour, 3},
	} {
		e := &earliest{p: p, o: Order{By: at(26, 7, 0)}, lead: c.packed}
		if got := e.dayFor(c.ready); got != c.want {
			t.Errorf("ready %v, packed %v before: day %d, want %d", c.ready.In(zone), c.packed, got, c.want)
		}
	}
}
