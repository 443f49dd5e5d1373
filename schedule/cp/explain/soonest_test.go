package explain

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
)

// How soon something can be ready is as soon with little work as with plenty, where that is
// said to be known; and no plan is ready sooner than was said to be known.
func TestSoonestWithLittleWork(t *testing.T) {
	known, open, later := 0, 0, 0
	tiny.CheckMany(t, 4, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Demands, k.Length, k.Begun = tiny.DrawInt(t, 2, 4, "demands"), 30, 0
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
				t.Fatalf("%d of work: %d is said to be known, and it is %d\n%s", work, at, best, tiny.Text(with))
			case ok && at < best:
				t.Fatalf("%d of work: %d, and it is %d\n%s", work, at, best, tiny.Text(with))
			case ok && told:
				known++
			case ok && at > best:
				later++
			case told:
				t.Fatalf("%d of work: said to be impossible\n%s", work, tiny.Text(with))
			default:
				open++
			}
		}
	})
	t.Logf("%d known, %d open, %d later than need be", known, open, later)
	if known < tiny.Few(100) || open < tiny.Few(20) {
		t.Errorf("got %d, %d: too few to mean much", known, open)
	}
}

// How soon something can be ready is told on the grid, wherever the search begins.
func TestSoonestIsOnTheGrid(t *testing.T) {
	m := &problem.Model{Step: 5, Horizon: 200, FitFloor: tiny.LinePacking, Demands: []problem.Demand{{Due: 103, Units: 1, Value: 1, Promised: true}},
		Workers:  []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 200}}}},
		Families: []problem.Family{{Keeps: 100, Supply: -1, Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: []problem.Activity{{Work: 5, Workers: []int{0}, Lag: problem.Lag{Least: 10, Most: 10, Cost: []int32{0}}}, {Work: 5, Workers: []int{0}, Lag: problem.Lag{Most: 100}}}}}}}}
	for _, from := range []int{0, 3, 17} {
		q := Inquire(context.Background(), m, 0, -1, 2_000_000, nil)
		if q == nil || !q.Stands() {
			t.Fatal("the plan in force does not stand")
		}
		if at, told, ok := q.Soonest(1, from); at != 20 || !told || !ok {
			t.Errorf("from %d: %d, known %v, found %v, want 20", from, at, told, ok)
		}
	}
}

// What is known to be too many is not asked again where a plan was found for what had been
// looked for in vain.
func TestWhatIsTooManyIsNotAskedAgain(t *testing.T) {
	m := tableModel()
	m.Begun = nil
	r := solved(context.Background(), m, search.Options{Budget: 200_000})
	with := asking(m, r, 1, 40)
	q := Inquire(context.Background(), with, 1, -1, 40_000_000, nil)
	if q == nil || !q.Stands() {
		t.Fatal("the plan in force does not stand")
	}
	most, refused := q.Most(40)
	if refused != most+1 || most == 0 {
		t.Fatalf("at most %d, and %d refused: nothing is tested", most, refused)
	}
	q.vain = most
	before := q.Spent()
	more, still := q.More(40, QuickLook)
	if more != most || still != refused || q.Spent() != before {
		t.Errorf("%d, %d refused, %d of work; before %d, %d", more, still, q.Spent()-before, most, refused)
	}
}
