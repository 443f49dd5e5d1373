package cp

import (
	"context"
	"math/rand/v2"
	"testing"
)

// Models with nothing in them, or no time, are answered, not panicked on.
func TestSolveAnswersEmptyModels(t *testing.T) {
	acts := []Activity{{Work: 1, Workers: []int{0}, Lag: Lag{Most: 10}}}
	fam := Family{Keeps: 5, Supply: -1, Modes: []Mode{{Amount: 1, Units: 1, Acts: acts}}}
	dem := []Demand{{Due: 5, Units: 2, Value: 3}}
	tests := []struct {
		name  string
		m     Model
		short int64
	}{
		{"nothing", Model{Step: 1}, 0},
		{"nobody there", Model{Step: 1, Horizon: 10, Workers: []Worker{{}}, Families: []Family{fam}, Demands: dem}, 6},
		{"no mode", Model{Step: 1, Horizon: 10, Families: []Family{{Supply: -1}}, Demands: dem}, 6},
		{"no units", Model{Step: 1, Horizon: 10, Workers: []Worker{{Windows: []Span{{0, 10}}}}, Families: []Family{{Keeps: 5, Supply: -1,
			Modes: []Mode{{Amount: 1, Acts: acts}}}}, Demands: dem}, 6},
		{"due before the start", Model{Step: 5, From: 20, Horizon: 40, Workers: []Worker{{Windows: []Span{{0, 40}}}}, Families: []Family{fam}, Demands: dem}, 6},
		{"horizon before the start", Model{Step: 5, From: 100, Horizon: 0, Workers: []Worker{{Windows: []Span{{0, 40}}, Avoid: []Span{{0, 9}}}},
			Families: []Family{fam}, Demands: dem}, 6},
		{"all before time zero", Model{Step: 1, From: -90, Horizon: -50, Workers: []Worker{{Windows: []Span{{-90, -50}}}}, Families: []Family{fam},
			Demands: []Demand{{Due: -60, Units: 2, Value: 3}}}, 0},
	}
	for _, tt := range tests {
		r := Solve(context.Background(), &tt.m, Options{Budget: 10_000})
		if r.Cost.Short != tt.short {
			t.Errorf("%s: short %d, want %d", tt.name, r.Cost.Short, tt.short)
		}
		if f := faultOf(&tt.m, r); f != "" {
			t.Errorf("%s: %s", tt.name, f)
		}
	}
}

// Capacities, amounts and lags without limit do not overflow.
func TestInfiniteIsNeverReached(t *testing.T) {
	acts := []Activity{
		{Work: 2, Workers: []int{0}, Lag: Lag{Least: 1, Most: 3, Cost: []int32{0, 0, 0}}},
		{Lag: Lag{Most: Infinite}},
	}
	m := &Model{Step: 1, Horizon: 50, Workers: []Worker{{Windows: []Span{{-Infinite, Infinite}}, Days: []Day{{-Infinite, Infinite, Infinite}}}},
		Pools: []Pool{{Infinite}}, Spaces: []Space{{Capacity: Infinite}}, Kinds: []Kind{{}},
		Intakes: []Intake{{Ready: -Infinite, Until: Infinite, Amount: Infinite}},
		Families: []Family{{Keeps: Infinite, Modes: []Mode{{Amount: 1 << 30, Units: 1 << 20, Acts: acts,
			Runs: []Run{{0, 1, 1 << 30, []PoolChoice{{0, 5}}}}, Stays: []Stay{{0, 1, 0, 1 << 30, []int{0}}}}}}},
		Demands: []Demand{{Due: 30, Units: 3, Value: 1 << 30}, {Due: 45, Units: 2, Value: 1 << 30, Promised: true}},
	}
	r := Solve(context.Background(), m, Options{Budget: 10_000})
	if r.Cost.Short != 0 || r.Cost.PromisedShort != 0 || r.Cost.Jobs != 1 {
		t.Errorf("cost %+v, want one job that serves all", r.Cost)
	}
	if f := faultOf(m, r); f != "" {
		t.Error(f)
	}
}

// Three runs of one job in one pool, two of them by cleaning: in pairs they fit,
// together they do not.
func TestPlaceCountsThreeRunsOfOneJob(t *testing.T) {
	lag := Lag{Least: 2, Most: 2, Cost: []int32{0}}
	acts := []Activity{{Work: 1, Workers: []int{0}, Lag: lag}, {Work: 1, Workers: []int{0}, Lag: lag}, {Work: 1, Workers: []int{0}, Lag: Lag{Most: 9}}}
	at := func(i, clean int) Run { return Run{i, i, 1, []PoolChoice{{0, clean}}} }
	for capacity, want := range []bool{false, false, false, true} {
		m := &Model{Step: 1, Horizon: 40, Workers: []Worker{{Windows: []Span{{0, 40}}}}, Pools: []Pool{{capacity}},
			Families: []Family{{Keeps: 9, Supply: -1, Modes: []Mode{{Amount: 1, Units: 1, Acts: acts, Runs: []Run{at(0, 9), at(1, 9), at(2, 0)}}}}},
			Demands:  []Demand{{Due: 30, Units: 1, Value: 1}}}
		r := Solve(context.Background(), m, Options{Budget: 50_000})
		if f := faultOf(m, r); f != "" {
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
	m := &Model{Step: 1, Horizon: 20, Workers: make([]Worker, n)}
	act := Activity{Work: 1, Lag: Lag{Most: 9}}
	for w := range m.Workers {
		act.Workers = append(act.Workers, w)
	}
	m.Workers[n-1].Windows = []Span{{0, 20}}
	m.Families = []Family{{Keeps: 9, Supply: -1, Modes: []Mode{{Amount: 1, Units: 1, Acts: []Activity{act}}}}}
	m.Demands = []Demand{{Due: 15, Units: 1, Value: 1}}
	r := Solve(context.Background(), m, Options{Budget: 50_000})
	if len(r.Jobs) != 1 || r.Jobs[0].Workers[0] != n-1 {
		t.Errorf("got %+v, want one job by worker %d", r.Jobs, n-1)
	}
}

// Two jobs under way, each waiting in what the other wants next, and a third
// that must let go first: nobody counts on what is still held.
func TestJobsUnderWayWaitForOneAnother(t *testing.T) {
	lag := func(least, most int) Lag { return Lag{Least: least, Most: most, Cost: make([]int32, most-least+1)} }
	mode := func(least, most, here, next int) Mode {
		return Mode{Amount: 1, Units: 1, Acts: []Activity{{Lag: lag(least, most)}, {Work: 1, Workers: []int{0}, Lag: lag(2, 2)}, {Lag: Lag{Most: 50}}},
			Runs: []Run{{0, 0, 1, []PoolChoice{{here, 0}}}, {1, 1, 1, []PoolChoice{{next, 0}}}}}
	}
	m := &Model{Step: 1, Horizon: 60, Workers: []Worker{{Windows: []Span{{0, 60}}}}, Pools: []Pool{{1}, {1}, {1}}, Families: []Family{{Keeps: 9, Supply: -1}}}
	for _, md := range []Mode{mode(0, 10, 0, 1), mode(3, 20, 1, 2)} {
		m.Begun = append(m.Begun, Begun{Mode: md, Starts: []int{-1}, Workers: []int{-1}, Choices: []int{0, 0}})
	}
	r := Solve(context.Background(), m, Options{Budget: 50_000})
	if f := faultOf(m, r); f != "" {
		t.Errorf("%s: %+v", f, r.Jobs)
	}
}

// While jobs under way are taken out and built again, what they are doing now is
// still being done: worker 1 is at work until 1.
func TestRebuildingKeepsWorkThatIsGoingOn(t *testing.T) {
	wait := Mode{Amount: 1, Units: 1, Acts: []Activity{{Lag: Lag{Least: 2, Most: 8, Cost: make([]int32, 7)}}, {Work: 2, Workers: []int{0, 1}, Lag: Lag{Most: 30}}}}
	work := Mode{Amount: 1, Units: 1, Acts: []Activity{{Work: 2, Workers: []int{1}, Lag: Lag{Most: 30}}}}
	m := &Model{Step: 2, Horizon: 20, Workers: []Worker{{Windows: []Span{{1, 20}}}, {Windows: []Span{{0, 20}}}},
		Families: []Family{{Keeps: 4, Supply: -1, Modes: []Mode{work}}, {Keeps: 4, Supply: -1, Modes: []Mode{wait}}},
		Demands:  []Demand{{Due: 2, Ahead: 2, Units: 2, Value: 3}},
		Begun: []Begun{{Family: 1, Mode: wait, Starts: []int{-2}, Workers: []int{-1}},
			{Family: 0, Mode: work, Starts: []int{-1}, Workers: []int{1}}}}
	s := newPlan(m)
	s.settleHomes()
	o, _ := s.chooseOpening()
	im := s.build(o, 0)
	for seed := uint64(0); seed < 20; seed++ {
		im.rng = rand.New(rand.NewPCG(seed, 1))
		before := append([]*Job(nil), im.s.jobs...)
		for _, j := range before {
			im.s.remove(j)
		}
		if ok := im.rebuild(before); !ok {
			im.restore(before)
			continue
		}
		if f := faultOf(m, im.s.result(Cost{})); f != "" {
			t.Fatal(f)
		}
	}
}

// A job under way that serves nothing leaves its last place before that closes.
func TestCarryOnLeavesBeforeAClosing(t *testing.T) {
	lag := Lag{Least: 1, Most: 4, Cost: make([]int32, 4)}
	mode := Mode{Amount: 1, Units: 1, Acts: []Activity{{Lag: lag}, {Work: 1, Workers: []int{0}, Lag: lag}, {Lag: Lag{Most: 30}}},
		Stays: []Stay{{1, 2, 0, 1, []int{0}}}}
	m := &Model{Step: 1, Horizon: 60, Workers: []Worker{{Windows: []Span{{0, 60}}}}, Kinds: []Kind{{}},
		Spaces: []Space{{Capacity: 1, Closed: []Span{{40, 45}}}}, Families: []Family{{Keeps: 9, Supply: -1}},
		Begun: []Begun{{Mode: mode, Starts: []int{-1}, Workers: []int{-1}, Homes: []int{-1}}}}
	r := Solve(context.Background(), m, Options{Budget: 10_000})
	if f := faultOf(m, r); f != "" {
		t.Errorf("%s: %+v", f, r.Jobs)
	}
}

// What is worth nothing needs no job, and may be left out between two that do.
func TestBoundLeavesOutWhatIsWorthNothing(t *testing.T) {
	m := &Model{Step: 1, Horizon: 40, Families: []Family{plainFamily(0, 20)}}
	for i, value := range []int64{2, 0, 2} {
		m.Demands = append(m.Demands, Demand{Due: 20 + i, Units: 1, Value: value})
	}
	_, _, bound := boundOf(m)
	if bound.Short > 0 || bound.Jobs > 1 {
		t.Errorf("bound %+v, but one job serves all that is worth something", bound)
	}
}

// A large job has more boxes than its place holds, so that it can be packed only for one
// delivery, at once; a small one has pieces for the delivery before that and for the one
// after it. No bound may take it that the two could exchange deliveries and be packed still.
func TestWhatMustLeaveAtOnceCannotExchangeDeliveries(t *testing.T) {
	mode := func(amount int64, units, boxes int) Mode {
		return Mode{Amount: amount, Units: units, Acts: []Activity{{Work: 1, Workers: []int{0}, Lag: Lag{Least: 5, Most: 9, Cost: make([]int32, 5)}}, {Work: 1, Workers: []int{0}, Lag: Lag{Most: 40}}},
			Stays: []Stay{{First: 1, Last: 1, Boxes: boxes, Spaces: []int{0}}}}
	}
	for _, floors := range [][]Floor{nil, {{Size: Rect{1, 1}, Height: 1}}} {
		m := &Model{Step: 1, Horizon: 60, Packing: linePacking, Workers: []Worker{{Windows: []Span{{0, 60}}}},
			Spaces: []Space{{Capacity: 1, Floors: floors}}, Kinds: []Kind{{Size: Rect{1, 1}, Height: 1}},
			Families: []Family{{Modes: []Mode{mode(2, 2, 1), mode(4, 4, 2)}, Keeps: 20, Supply: -1, Serves: 1}},
			Demands:  []Demand{{Due: 20, Units: 1, Value: 1}, {Due: 30, Units: 4, Value: 1}, {Due: 35, Units: 1, Value: 1}}}
		r := Solve(context.Background(), m, Options{Budget: 2_000_000})
		if r.Cost.Short > 0 || r.Cost.Jobs != 2 || r.Cost.Amount != 6 {
			t.Errorf("floors %v: got %+v, want 2 jobs of 6", floors, r.Cost)
		}
		if r.Bound.Jobs != 2 || r.Bound.Amount != 6 {
			t.Errorf("floors %v: got the bound %+v, want 2 jobs of 6", floors, r.Bound)
		}
	}
}
