package cp

import "testing"

// plainFamily is a chain of one activity without work, in pairs of units.
func plainFamily(least, keeps int) Family {
	acts := []Activity{{Lag: Lag{Least: least, Most: 40}}}
	return Family{Keeps: keeps, Supply: -1, Modes: []Mode{{Amount: 1, Units: 1, Acts: acts}, {Amount: 2, Units: 2, Acts: acts}}}
}

// Two jobs whose deliveries cross: only so does each rest ten ticks before its
// last delivery. Jobs at 0 and 1 serve 5 and 20, 6 and 15.
func TestBoundLetsRestingDeliveriesCross(t *testing.T) {
	m := &Model{Step: 1, Horizon: 40, Families: []Family{plainFamily(10, 30)}}
	for _, due := range []int{5, 6, 15, 20} {
		m.Demands = append(m.Demands, Demand{Due: due, Units: 1, Value: 1})
	}
	_, _, bound := boundOf(m)
	if bound.Short > 0 || bound.Jobs > 2 {
		t.Errorf("bound %+v, but two jobs serve everything", bound)
	}
}

// A unit that is worth nothing lets a job rest long enough before its last delivery.
func TestBoundLetsAJobEndWithWhatIsWorthNothing(t *testing.T) {
	m := &Model{Step: 1, Horizon: 40, Families: []Family{plainFamily(10, 30)}}
	m.Demands = []Demand{{Due: 5, Units: 1, Value: 1}, {Due: 12, Units: 1}}
	_, _, bound := boundOf(m)
	if bound.Short > 0 {
		t.Errorf("bound %+v, but a job that starts at once and ends at 12 serves what has a value", bound)
	}
}

// A job under way that is ready whenever it likes and one that is ready soon:
// the first serves the late unit, the second the early one.
func TestBoundLetsTheFlexibleJobServeLast(t *testing.T) {
	lag := Lag{Least: 0, Most: 100, Cost: make([]int32, 101)}
	f := plainFamily(0, 50)
	long := Mode{Amount: 1, Units: 1, Acts: []Activity{{Lag: lag}, {Lag: Lag{Most: 40}}}}
	soon := long
	soon.Acts = []Activity{{Lag: Lag{Least: 12, Most: 20, Cost: make([]int32, 9)}}, {Lag: Lag{Most: 40}}}
	m := &Model{Step: 1, Horizon: 200, Families: []Family{f}, Demands: []Demand{{Due: 30, Units: 1, Value: 1}, {Due: 120, Units: 1, Value: 1}}}
	for _, mode := range []Mode{long, soon} {
		m.Begun = append(m.Begun, Begun{Mode: mode, Starts: []int{-1}, Workers: []int{-1}})
	}
	_, _, bound := boundOf(m)
	if bound.Jobs > 0 || bound.Short > 0 {
		t.Errorf("bound %+v, but the jobs under way serve everything", bound)
	}
}

// A day limit that takes very many trials to keep: the bound may not say that
// what is merely hard to find cannot be.
func TestBoundSurvivesManyDayLimitTrials(t *testing.T) {
	m := &Model{Step: 1, Horizon: 40}
	var acts []Activity
	for i := 0; i < 12; i++ {
		acts = append(acts, Activity{Work: 2, Workers: []int{0, 1}, Lag: Lag{Cost: []int32{0}}})
	}
	acts[11].Lag = Lag{Most: 40}
	for w := 0; w < 2; w++ {
		m.Workers = append(m.Workers, Worker{Windows: []Span{{0, 40}}, Days: []Day{{0, 40, 12}}})
	}
	m.Families = []Family{{Keeps: 10, Supply: -1, Modes: []Mode{{Amount: 1, Units: 1, Acts: acts}}}}
	m.Demands = []Demand{{Due: 30, Units: 1, Value: 1}}
	_, _, bound := boundOf(m)
	if bound.Short > 0 {
		t.Errorf("bound %+v, but the work divides in halves", bound)
	}
}

// The cheap part of a dear chain must not hide a chain cheaper in all.
func TestPlaceLooksBeyondADearFirstLag(t *testing.T) {
	m := &Model{Step: 1, Horizon: 40}
	acts := []Activity{
		{Lag: Lag{Least: 1, Most: 2, Cost: []int32{200, 0}}},
		{Lag: Lag{Least: 5, Most: 6, Cost: []int32{40, 10}}},
		{Work: 1, Workers: []int{0}, Lag: Lag{Most: 40}},
	}
	m.Workers = []Worker{{Windows: []Span{{7, 8}}}}
	m.Families = []Family{{Keeps: 30, Supply: -1, Modes: []Mode{{Amount: 1, Units: 1, Acts: acts}}}}
	s := newSchedule(m)
	q := &query{mode: &m.Families[0].Modes[0], k: 1, facts: 1, begun: true, starts: []int{0}, workers: []int{-1}, supply: -1, readyMax: 20, end: 20}
	j, ok := s.place(q)
	if !ok || j.Bother != 40 {
		t.Errorf("got %+v, want the chain that costs 0 and 40, not 200 and 10", j)
	}
}
