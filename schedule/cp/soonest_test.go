package cp

import (
	"context"
	"testing"

	"pgregory.net/rapid"
)

// How soon something can be ready is as soon with little work as with plenty, where that is
// said to be known; and no plan is ready sooner than was said to be known.
func TestSoonestWithLittleWork(t *testing.T) {
	known, open, later := 0, 0, 0
	checkMany(t, 4, func(t *rapid.T) {
		k := small(t)
		k.demands, k.length, k.begun = drawInt(t, 2, 4, "demands"), 30, 0
		m, with, _ := drawAsked(t, k, 300_000)
		d := len(m.Demands) - 1
		units := with.Demands[d].Units
		soonest := func(work int64) (at int, told, ok bool) {
			q := Inquire(context.Background(), with, d, -1, work, nil)
			if q == nil || !q.Stands() {
				return 0, false, false
			}
			return q.Soonest(units, m.From)
		}
		best, told, ok := soonest(4_000_000)
		if !ok || !told {
			return
		}
		for work := int64(200); work < 200_000; work += work / 2 {
			at, told, ok := soonest(work)
			switch {
			case ok && told && at != best:
				t.Fatalf("%d of work: %d is said to be known, and it is %d\n%s", work, at, best, modelText(with))
			case ok && at < best:
				t.Fatalf("%d of work: %d, and it is %d\n%s", work, at, best, modelText(with))
			case ok && told:
				known++
			case ok && at > best:
				later++
			case told:
				t.Fatalf("%d of work: said to be impossible\n%s", work, modelText(with))
			default:
				open++
			}
		}
	})
	t.Logf("%d known, %d open, %d later than need be", known, open, later)
	if known < few(100) || open < few(20) {
		t.Errorf("got %d, %d: too few to mean much", known, open)
	}
}
