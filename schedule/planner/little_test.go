package planner_test

import (
	"context"
	"fmt"
	"testing"

	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
	"ripeby/schedule/testrun"
)

// What is said to be proved with little work is so with plenty, and what was found with
// little is no more than there is.
func TestLittleWorkProvesNothingFalse(t *testing.T) {
	end := testrun.Rounds(30, 120)
	count := map[string]int{}
	for i := range end {
		e, p, o, ok := orderOf(t, i, 11, func(*schedule.Recipe) {})
		if !ok {
			continue
		}
		full := whatif.Fits(context.Background(), p, o, whatif.FitOptions{})
		fits := func(f *whatif.Fit) bool { return f.Outcome == whatif.FitsAsItIs || f.Outcome == whatif.FitsIfMoved }
		if full.Outcome == whatif.FitsUnknown || full.Outcome == whatif.FitsNoPlan || fits(full) {
			count["nothing to ask"]++
			continue
		}
		for work := int64(5_000); work < 500_000; work += work / 2 {
			f := whatif.Fits(context.Background(), p, o, whatif.FitOptions{Work: work})
			show := fmt.Sprintf("kitchen %d, %+v, work %d: %+v; with plenty %+v\n%s", i, o, work, *f, *full, drawn(e.p))
			count[fmt.Sprintf("outcome %d", f.Outcome)]++
			if fits(f) {
				t.Errorf("it fits with less work only; %s", show)
			}
			if full.MostSure && (f.Most > full.Most || f.MostSure && f.Most != full.Most) {
				t.Errorf("the most is another; %s", show)
			}
			if full.ReadySure && f.Ready != 0 && (f.Ready < full.Ready || f.ReadySure && f.Ready != full.Ready) {
				t.Errorf("the earliest is another; %s", show)
			}
			for said, is := range map[string]bool{"most open": f.Outcome == whatif.FitsNot && !f.MostSure, "most sure": f.MostSure,
				"ready open": f.Ready != 0 && !f.ReadySure, "ready sure": f.ReadySure, "later": f.Ready > full.Ready} {
				if is {
					count[said]++
				}
			}
		}
	}
	t.Log(count)
	if count["ready open"] < end/20 || count["ready sure"] < end/4 || count["most sure"] < end/4 {
		t.Errorf("got %v: too few to mean much", count)
	}
}
