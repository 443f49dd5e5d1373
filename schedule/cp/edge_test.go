package cp

import (
	"context"
	"testing"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
)

// Models with nothing in them, or no time, are answered, not panicked on.
func TestSolveAnswersEmptyModels(t *testing.T) {
	acts := []problem.Activity{{Work: 1, Workers: []int{0}, Lag: problem.Lag{Most: 10}}}
	fam := problem.Family{Keeps: 5, Supply: -1, Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: acts}}}
	dem := []problem.Demand{{Due: 5, Units: 2, Value: 3}}
	tests := []struct {
		name  string
		m     problem.Model
		short int64
	}{
		{"nothing", problem.Model{Step: 1}, 0},
		{"nobody there", problem.Model{Step: 1, Horizon: 10, Workers: []problem.Worker{{}}, Families: []problem.Family{fam}, Demands: dem}, 6},
		{"no mode", problem.Model{Step: 1, Horizon: 10, Families: []problem.Family{{Supply: -1}}, Demands: dem}, 6},
		{"no units", problem.Model{Step: 1, Horizon: 10, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 10}}}}, Families: []problem.Family{{Keeps: 5, Supply: -1,
			Modes: []problem.Mode{{Amount: 1, Acts: acts}}}}, Demands: dem}, 6},
		{"due before the start", problem.Model{Step: 5, From: 20, Horizon: 40, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 40}}}}, Families: []problem.Family{fam}, Demands: dem}, 6},
		{"horizon before the start", problem.Model{Step: 5, From: 100, Horizon: 0, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 40}}, Avoid: []problem.Span{{From: 0, Until: 9}}}},
			Families: []problem.Family{fam}, Demands: dem}, 6},
		{"all before time zero", problem.Model{Step: 1, From: -90, Horizon: -50, Workers: []problem.Worker{{Windows: []problem.Span{{From: -90, Until: -50}}}}, Families: []problem.Family{fam},
			Demands: []problem.Demand{{Due: -60, Units: 2, Value: 3}}}, 0},
	}
	for _, tt := range tests {
		r := Solve(context.Background(), &tt.m, search.Options{Budget: 10_000})
		if r.Cost.Short != tt.short {
			t.Errorf("%s: short %d, want %d", tt.name, r.Cost.Short, tt.short)
		}
		if f := tiny.FaultOf(&tt.m, r); f != "" {
			t.Errorf("%s: %s", tt.name, f)
		}
	}
}

// Capacities, amounts and lags without limit do not overflow.
func TestInfiniteIsNeverReached(t *testing.T) {
	acts := []problem.Activity{
		{Work: 2, Workers: []int{0}, Lag: problem.Lag{Least: 1, Most: 3, Cost: []int32{0, 0, 0}}},
		{Lag: problem.Lag{Most: problem.Infinite}},
	}
	m := &problem.Model{Step: 1, Horizon: 50, Workers: []problem.Worker{{Windows: []problem.Span{{From: -problem.Infinite, Until: problem.Infinite}}, Days: []problem.Day{{From: -problem.Infinite, Until: problem.Infinite, Limit: problem.Infinite}}}},
		Pools: []problem.Pool{{Capacity: problem.Infinite}}, Spaces: []problem.Space{{Capacity: problem.Infinite}}, Kinds: []problem.Kind{{}},
		Intakes: []problem.Intake{{Ready: -problem.Infinite, Until: problem.Infinite, Amount: problem.Infinite}},
		Families: []problem.Family{{Keeps: problem.Infinite, Modes: []problem.Mode{{Amount: 1 << 30, Units: 1 << 20, Acts: acts,
			Runs: []problem.Run{{First: 0, Last: 1, Amount: 1 << 30, Choices: []problem.PoolChoice{{Pool: 0, Clean: 5}}}}, Stays: []problem.Stay{{First: 0, Last: 1, Kind: 0, Boxes: 1 << 30, Spaces: []int{0}}}}}}},
		Demands: []problem.Demand{{Due: 30, Units: 3, Value: 1 << 30}, {Due: 45, Units: 2, Value: 1 << 30, Promised: true}},
	}
	r := Solve(context.Background(), m, search.Options{Budget: 10_000})
	if r.Cost.Short != 0 || r.Cost.PromisedShort != 0 || r.Cost.Jobs != 1 {
		t.Errorf("cost %+v, want one job that serves all", r.Cost)
	}
	if f := tiny.FaultOf(m, r); f != "" {
		t.Error(f)
	}
}

// Three runs of one job in one pool, two of them by cleaning: in pairs they fit,
// together they do not.
func TestPlaceCountsThreeRunsOfOneJob(t *testing.T) {
	lag := problem.Lag{Least: 2, Most: 2, Cost: []int32{0}}
	acts := []problem.Activity{{Work: 1, Workers: []int{0}, Lag: lag}, {Work: 1, Workers: []int{0}, Lag: lag}, {Work: 1, Workers: []int{0}, Lag: problem.Lag{Most: 9}}}
	at := func(i, clean int) problem.Run {
		return problem.Run{First: i, Last: i, Amount: 1, Choices: []problem.PoolChoice{{Pool: 0, Clean: clean}}}
	}
	for capacity, want := range []bool{false, false, false, true} {
		m := &problem.Model{Step: 1, Horizon: 40, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 40}}}}, Pools: []problem.Pool{{Capacity: capacity}},
			Families: []problem.Family{{Keeps: 9, Supply: -1, Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: acts, Runs: []problem.Run{at(0, 9), at(1, 9), at(2, 0)}}}}},
			Demands:  []problem.Demand{{Due: 30, Units: 1, Value: 1}}}
		r := Solve(context.Background(), m, search.Options{Budget: 50_000})
		if f := tiny.FaultOf(m, r); f != "" {
			t.Errorf("%d in the pool: %s", capacity, f)
		}
		if got := r.Cost.Short == 0; got != want {
			t.Errorf("%d in the pool: placed %v, want %v", capacity, got, want)
		}
	}
}

// Who has the last of very many workers is still told apart from nobody.
func TestManyWorkers(t *testing.T) {
	const n = 1000
	m := &problem.Model{Step: 1, Horizon: 20, Workers: make([]problem.Worker, n)}
	act := problem.Activity{Work: 1, Lag: problem.Lag{Most: 9}}
	for w := range m.Workers {
		act.Workers = append(act.Workers, w)
	}
	m.Workers[n-1].Windows = []problem.Span{{From: 0, Until: 20}}
	m.Families = []problem.Family{{Keeps: 9, Supply: -1, Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: []problem.Activity{act}}}}}
	m.Demands = []problem.Demand{{Due: 15, Units: 1, Value: 1}}
	r := Solve(context.Background(), m, search.Options{Budget: 50_000})
	if len(r.Jobs) != 1 || r.Jobs[0].Workers[0] != n-1 {
		t.Errorf("got %+v, want one job by worker %d", r.Jobs, n-1)
	}
}

// Two jobs under way, each waiting in what the other wants next, and a third
// that must let go first: nobody counts on what is still held.
func TestJobsUnderWayWaitForOneAnother(t *testing.T) {
	lag := func(least, most int) problem.Lag {
		return problem.Lag{Least: least, Most: most, Cost: make([]int32, most-least+1)}
	}
	mode := func(least, most, here, next int) problem.Mode {
		return problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Lag: lag(least, most)}, {Work: 1, Workers: []int{0}, Lag: lag(2, 2)}, {Lag: problem.Lag{Most: 50}}},
			Runs: []problem.Run{{First: 0, Last: 0, Amount: 1, Choices: []problem.PoolChoice{{Pool: here, Clean: 0}}}, {First: 1, Last: 1, Amount: 1, Choices: []problem.PoolChoice{{Pool: next, Clean: 0}}}}}
	}
	m := &problem.Model{Step: 1, Horizon: 60, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 60}}}}, Pools: []problem.Pool{{Capacity: 1}, {Capacity: 1}, {Capacity: 1}}, Families: []problem.Family{{Keeps: 9, Supply: -1}}}
	for _, md := range []problem.Mode{mode(0, 10, 0, 1), mode(3, 20, 1, 2)} {
		m.Begun = append(m.Begun, problem.Begun{Mode: md, Starts: []int{-1}, Workers: []int{-1}, Choices: []int{0, 0}})
	}
	r := Solve(context.Background(), m, search.Options{Budget: 50_000})
	if f := tiny.FaultOf(m, r); f != "" {
		t.Errorf("%s: %+v", f, r.Jobs)
	}
}

// A job under way that serves nothing leaves its last place before that closes.
func TestCarryOnLeavesBeforeAClosing(t *testing.T) {
	lag := problem.Lag{Least: 1, Most: 4, Cost: make([]int32, 4)}
	mode := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Lag: lag}, {Work: 1, Workers: []int{0}, Lag: lag}, {Lag: problem.Lag{Most: 30}}},
		Stays: []problem.Stay{{First: 1, Last: 2, Kind: 0, Boxes: 1, Spaces: []int{0}}}}
	m := &problem.Model{Step: 1, Horizon: 60, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 60}}}}, Kinds: []problem.Kind{{}},
		Spaces: []problem.Space{{Capacity: 1, Closed: []problem.Span{{From: 40, Until: 45}}}}, Families: []problem.Family{{Keeps: 9, Supply: -1}},
		Begun: []problem.Begun{{Mode: mode, Starts: []int{-1}, Workers: []int{-1}, Homes: []int{-1}}}}
	r := Solve(context.Background(), m, search.Options{Budget: 10_000})
	if f := tiny.FaultOf(m, r); f != "" {
		t.Errorf("%s: %+v", f, r.Jobs)
	}
}

// A large job has more boxes than its place holds, so that it can be packed only for one
// delivery, at once; a small one has pieces for the delivery before that and for the one
// after it. No bound may take it that the two could exchange deliveries and be packed still.
func TestWhatMustLeaveAtOnceCannotExchangeDeliveries(t *testing.T) {
	mode := func(amount int64, units, boxes int) problem.Mode {
		return problem.Mode{Amount: amount, Units: units, Acts: []problem.Activity{{Work: 1, Workers: []int{0}, Lag: problem.Lag{Least: 5, Most: 9, Cost: make([]int32, 5)}}, {Work: 1, Workers: []int{0}, Lag: problem.Lag{Most: 40}}},
			Stays: []problem.Stay{{First: 1, Last: 1, Boxes: boxes, Spaces: []int{0}}}}
	}
	for _, floors := range [][]problem.Floor{nil, {{Size: problem.Rect{W: 1, D: 1}, Height: 1}}} {
		m := &problem.Model{Step: 1, Horizon: 60, FitFloor: tiny.LinePacking, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 60}}}},
			Spaces: []problem.Space{{Capacity: 1, Floors: floors}}, Kinds: []problem.Kind{{Size: problem.Rect{W: 1, D: 1}, Height: 1}},
			Families: []problem.Family{{Modes: []problem.Mode{mode(2, 2, 1), mode(4, 4, 2)}, Keeps: 20, Supply: -1, Serves: 1}},
			Demands:  []problem.Demand{{Due: 20, Units: 1, Value: 1}, {Due: 30, Units: 4, Value: 1}, {Due: 35, Units: 1, Value: 1}}}
		r := Solve(context.Background(), m, search.Options{Budget: 2_000_000})
		if r.Cost.Short > 0 || r.Cost.Jobs != 2 || r.Cost.Amount != 6 {
			t.Errorf("floors %v: got %+v, want 2 jobs of 6", floors, r.Cost)
		}
		if r.Bound.Jobs != 2 || r.Bound.Amount != 6 {
			t.Errorf("floors %v: got the bound %+v, want 2 jobs of 6", floors, r.Bound)
		}
	}
}
