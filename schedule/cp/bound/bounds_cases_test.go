package bound

import (
	"testing"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// Two jobs whose deliveries cross: only so does each rest ten ticks before its
// last delivery. Jobs at 0 and 1 serve 5 and 20, 6 and 15.
func TestBoundLetsRestingDeliveriesCross(t *testing.T) {
	m := &problem.Model{Step: 1, Horizon: 40, Families: []problem.Family{tiny.PlainFamily(10, 30)}}
	for _, due := range []int{5, 6, 15, 20} {
		m.Demands = append(m.Demands, problem.Demand{Due: due, Units: 1, Value: 1})
	}
	_, _, bound := boundOf(m)
	if bound.Short > 0 || bound.Jobs > 2 {
		t.Errorf("bound %+v, but two jobs serve everything", bound)
	}
}

// A unit that is worth nothing lets a job rest long enough before its last delivery.
func TestBoundLetsAJobEndWithWhatIsWorthNothing(t *testing.T) {
	m := &problem.Model{Step: 1, Horizon: 40, Families: []problem.Family{tiny.PlainFamily(10, 30)}}
	m.Demands = []problem.Demand{{Due: 5, Units: 1, Value: 1}, {Due: 12, Units: 1}}
	_, _, bound := boundOf(m)
	if bound.Short > 0 {
		t.Errorf("bound %+v, but a job that starts at once and ends at 12 serves what has a value", bound)
	}
}

// A job under way that is ready whenever it likes and one that is ready soon:
// the first serves the late unit, the second the early one.
func TestBoundLetsTheFlexibleJobServeLast(t *testing.T) {
	lag := problem.Lag{Least: 0, Most: 100, Cost: make([]int32, 101)}
	f := tiny.PlainFamily(0, 50)
	long := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Lag: lag}, {Lag: problem.Lag{Most: 40}}}}
	soon := long
	soon.Acts = []problem.Activity{{Lag: problem.Lag{Least: 12, Most: 20, Cost: make([]int32, 9)}}, {Lag: problem.Lag{Most: 40}}}
	m := &problem.Model{Step: 1, Horizon: 200, Families: []problem.Family{f}, Demands: []problem.Demand{{Due: 30, Units: 1, Value: 1}, {Due: 120, Units: 1, Value: 1}}}
	for _, mode := range []problem.Mode{long, soon} {
		m.Begun = append(m.Begun, problem.Begun{Mode: mode, Starts: []int{-1}, Workers: []int{-1}})
	}
	_, _, bound := boundOf(m)
	if bound.Jobs > 0 || bound.Short > 0 {
		t.Errorf("bound %+v, but the jobs under way serve everything", bound)
	}
}

// A day limit that takes very many trials to keep: the bound may not say that
// what is merely hard to find cannot be.
func TestBoundSurvivesManyDayLimitTrials(t *testing.T) {
	m := &problem.Model{Step: 1, Horizon: 40}
	var acts []problem.Activity
	for i := 0; i < 12; i++ {
		acts = append(acts, problem.Activity{Work: 2, Workers: []int{0, 1}, Lag: problem.Lag{Cost: []int32{0}}})
	}
	acts[11].Lag = problem.Lag{Most: 40}
	for w := 0; w < 2; w++ {
		m.Workers = append(m.Workers, problem.Worker{Windows: []problem.Span{{From: 0, Until: 40}}, Days: []problem.Day{{From: 0, Until: 40, Limit: 12}}})
	}
	m.Families = []problem.Family{{Keeps: 10, Supply: -1, Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: acts}}}}
	m.Demands = []problem.Demand{{Due: 30, Units: 1, Value: 1}}
	_, _, bound := boundOf(m)
	if bound.Short > 0 {
		t.Errorf("bound %+v, but the work divides in halves", bound)
	}
}

// What is worth nothing needs no job, and may be left out between two that do.
func TestBoundLeavesOutWhatIsWorthNothing(t *testing.T) {
	m := &problem.Model{Step: 1, Horizon: 40, Families: []problem.Family{tiny.PlainFamily(0, 20)}}
	for i, value := range []int64{2, 0, 2} {
		m.Demands = append(m.Demands, problem.Demand{Due: 20 + i, Units: 1, Value: value})
	}
	_, _, bound := boundOf(m)
	if bound.Short > 0 || bound.Jobs > 1 {
		t.Errorf("bound %+v, but one job serves all that is worth something", bound)
	}
}
