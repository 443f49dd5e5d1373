package bound

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// rings is jobs of 1 to 2 units that hold as many of 2 rings for 10 ticks at the least, and
// for a stretch of at most `stretch` ticks altogether may be made for what is due at 100.
func rings(stretch, units int) *problem.Model {
	m := &problem.Model{Step: 1, Horizon: 200, Pools: []problem.Pool{{Capacity: 2}}}
	fam := problem.Family{Keeps: stretch - 10, Supply: -1}
	for n := 1; n <= 2; n++ {
		fam.Modes = append(fam.Modes, problem.Mode{Amount: 1, Units: n,
			Acts: []problem.Activity{{Lag: problem.Lag{Least: 10, Most: 10, Cost: []int32{0}}}, {Lag: problem.Lag{Most: 200}}},
			Runs: []problem.Run{{First: 0, Last: 0, Amount: n, Choices: []problem.PoolChoice{{Pool: 0}}}}})
	}
	m.Families = []problem.Family{fam}
	m.Demands = []problem.Demand{{Due: 100, Units: units, Value: 7}}
	return m
}

// A stretch of 29 has two moments 10 apart, one of 30 has three: the bound is what can be
// reached, no more and no less, where energy over time allows 5 units of 2.9 times 2.
func TestMomentsAreAttained(t *testing.T) {
	for _, c := range []struct{ stretch, serves int }{{10, 2}, {19, 2}, {20, 4}, {29, 4}, {30, 6}} {
		s, x, bound := boundOf(rings(c.stretch, 9))
		got := x.BoundFor(s, bound, problem.Cost{Short: 63})
		if want := int64(7 * (9 - c.serves)); got.Short != want {
			t.Errorf("stretch %d: bound %d short, want %d", c.stretch, got.Short, want)
		}
		full, ok := fullWith(rings(c.stretch, 9), []int{9 - c.serves}, 0)
		if !ok || full.Times*2 != c.serves || len(full.Pools) != 1 || len(full.Given) != 0 {
			t.Errorf("stretch %d: got %+v (%v), want the rings full %d times", c.stretch, full, ok, c.serves/2)
		}
		if full, ok := fullWith(rings(c.stretch, 9), []int{10 - c.serves}, 0); ok {
			t.Errorf("stretch %d: got %+v, though one unit more can be", c.stretch, full)
		}
	}
}

// Where there is no moment left, it is not for want of pools that nothing can be served.
func TestNothingIsFullWhereThereIsNoTime(t *testing.T) {
	for _, from := range []int{95, 150} {
		m := rings(29, 9)
		m.From = from
		if full, ok := fullWith(m, []int{9}, 0); ok {
			t.Errorf("from %d: got the rings full %d times, want no count of moments", from, full.Times)
		}
	}
}

// fullWith is FullFor where so much of each demand is short.
func fullWith(m *problem.Model, short []int, demand int) (Full, bool) {
	s := chain.NewSchedule(m)
	copy(s.Unmet, short)
	return FullFor(s, demand)
}

// Others are named where they are needed: what is due a day later holds none of the rings.
func TestWhatIsFullNamesWhoNeedsIt(t *testing.T) {
	m := rings(29, 4)
	m.Demands = append(m.Demands, problem.Demand{Due: 101, Units: 4, Value: 1}, problem.Demand{Due: 180, Units: 3, Value: 1})
	full, ok := fullWith(m, []int{1, 1, 0}, 0)
	if !ok || full.Times != 3 || len(full.Given) != 1 || full.Given[0] != 1 {
		t.Errorf("got %+v (%v), want the rings full for the second demand too, and not the third", full, ok)
	}
}

// Every bound of moments holds in every plan of a tiny model: where it says that a demand gets
// no more, no plan gives it more and the others named no less.
func TestWhatIsFullIsFullInEveryPlan(t *testing.T) {
	said, all := 0, 0
	tiny.CheckMany(t, 6, func(t *rapid.T) {
		k := tiny.Small(t)
		m := tiny.Draw(t, k)
		for p := range m.Pools {
			m.Pools[p].Capacity = tiny.DrawInt(t, 1, 2, "capacity")
		}
		w, ok := tiny.EveryPlan(m)
		if !ok || len(w.Shorts) > 100 { // each is compared with every other
			return
		}
		all++
		for _, short := range w.Shorts {
			for d := range m.Demands {
				full, ok := fullWith(m, short.Units, d)
				if !ok || short.Units[d] == 0 {
					continue
				}
				said++
				for _, other := range w.Shorts {
					more := other.Units[d] < short.Units[d]
					for _, g := range full.Given {
						more = more && other.Units[g] <= short.Units[g]
					}
					if more {
						t.Fatalf("short %v: demand %d cannot get more, it says, for %+v, but there is %v\n%s", short, d, full, other, tiny.Text(m))
					}
				}
			}
		}
	})
	t.Logf("%d models listed: %d times something is full", all, said)
	if said < tiny.Few(30) {
		t.Errorf("only %d: the test says too little", said)
	}
}
