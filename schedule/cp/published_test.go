package cp

import (
	"context"
	"testing"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
)

// A published critical path example: seven jobs, A6; B2, C2 after A; D3 after B;
// F2 after C; E4 after D and F; G1 after E; it takes 16. Its table of earliest and
// latest times: studylib.net/doc/8378728. The two paths A-B-D-E-G and A-C-F-E-G
// share A, E and G, which have no slack, so each path is a chain whose shared
// activities are pinned by the other's: the chain's latest starts are the table's.
func TestSlipsOfThePublishedCriticalPath(t *testing.T) {
	tests := []struct {
		name  string
		works []int
		slips []int // LS of the table
	}{
		{"A-B-D-E-G", []int{6, 2, 3, 4, 1}, []int{0, 6, 8, 11, 15}},
		{"A-C-F-E-G", []int{6, 2, 2, 4, 1}, []int{0, 7, 9, 11, 15}},
	}
	for _, tt := range tests {
		m := &problem.Model{Step: 1, Horizon: 16}
		var acts []problem.Activity
		for i, w := range tt.works {
			m.Workers = append(m.Workers, problem.Worker{Windows: []problem.Span{{From: 0, Until: 16}}})
			lag := problem.Lag{Most: 16, Cost: make([]int32, 17)}
			acts = append(acts, problem.Activity{Work: w, Workers: []int{i}, Lag: lag})
		}
		m.Workers[0].Windows = []problem.Span{{From: 0, Until: 6}} // A, critical by the other path
		m.Families = []problem.Family{{Keeps: 16, Supply: -1, Modes: []problem.Mode{{Units: 1, Acts: acts}}}}
		m.Demands = []problem.Demand{{Due: 16, Units: 1, Value: 1}}
		r := Solve(context.Background(), m, search.Options{Budget: 100_000})
		if len(r.Jobs) != 1 {
			t.Fatalf("%s: %d jobs, want 1", tt.name, len(r.Jobs))
		}
		for i, want := range tt.slips {
			if got := r.Jobs[0].Slips[i]; got != want {
				t.Errorf("%s: activity %d may start at %d at the latest, want %d", tt.name, i, got, want)
			}
			// The plan is the latest one, so each may go back to the end of the one before.
			end := 0
			if i > 0 {
				end = r.Jobs[0].Starts[i-1] + tt.works[i-1]
			}
			if got := r.Jobs[0].Soonest[i]; got != end {
				t.Errorf("%s: activity %d may start at %d at the earliest, want %d", tt.name, i, got, end)
			}
		}
	}
}

// Without work for it nothing slips, and that is said; with it the job's slips are known.
func TestSlipsStopAtTheWorkAllowed(t *testing.T) {
	m := tardy([]int{3}, []int{50})
	s := search.NewPlan(m)
	j, ok := s.PlaceOrder(0, []problem.Share{{Demand: 0, Units: 1}})
	if !ok {
		t.Fatal("the job cannot be placed")
	}
	s.Add(j)
	s.FillSlips(j, 0)
	if !j.SlipsCut || j.Soonest[0] != j.Starts[0] || j.Slips[0] != j.Starts[0] {
		t.Errorf("without work: cut %v, from %d to %d, want it cut at the start, %d", j.SlipsCut, j.Soonest[0], j.Slips[0], j.Starts[0])
	}
	s.FillSlips(j, chain.SlipWork)
	if j.SlipsCut || j.Soonest[0] != 0 || j.Slips[0] != 47 {
		t.Errorf("with work: cut %v, from %d to %d, want from 0 to 47", j.SlipsCut, j.Soonest[0], j.Slips[0])
	}
}

// tardy makes one worker's jobs with due dates.
func tardy(works, dues []int) *problem.Model {
	m := &problem.Model{Step: 1, Horizon: 300, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 300}}}}}
	for i, w := range works {
		m.Families = append(m.Families, problem.Family{Keeps: 400, Supply: -1, Modes: []problem.Mode{{Amount: 1, Units: 1,
			Acts: []problem.Activity{{Work: w, Workers: []int{0}, Lag: problem.Lag{Most: 400}}}}}})
		m.Demands = append(m.Demands, problem.Demand{Family: i, Due: dues[i], Units: 1, Value: 1})
	}
	return m
}

// Fewest late jobs on one machine. Ten jobs: data from a published exercise
// "Minimize tardy jobs" in a mathematics collection, the answer by Moore's rule
// and by trying all sets. Five jobs: Pinedo, Scheduling, chapter 3, from memory.
func TestSolveFindsTheFewestTardyJobs(t *testing.T) {
	tests := []struct {
		name        string
		works, dues []int
		short       int64
	}{
		{"ten jobs", []int{19, 23, 5, 31, 17, 8, 32, 41, 26, 18}, []int{48, 75, 170, 215, 205, 240, 85, 67, 100, 95}, 2},
		{"five jobs", []int{7, 8, 4, 6, 6}, []int{9, 17, 18, 19, 21}, 2},
	}
	for _, tt := range tests {
		m := tardy(tt.works, tt.dues)
		r := Solve(context.Background(), m, search.Options{Budget: 20_000_000})
		if r.Cost.Short != tt.short {
			t.Errorf("%s: %d late, want %d", tt.name, r.Cost.Short, tt.short)
		}
		if r.Bound.Short > tt.short {
			t.Errorf("%s: bound %d, though only %d need be late", tt.name, r.Bound.Short, tt.short)
		}
		if f := tiny.FaultOf(m, r); f != "" {
			t.Errorf("%s: %s", tt.name, f)
		}
	}
}

// cheeseShaped is one maker, two pots and one press in hours, as three chains:
// 1(2h maker, pot) 3(4h pot) 6(2h maker); 2(3h maker, pot) 4(1h maker, press)
// 5(5h press); 7(2h maker, pot) 8(4h press). The last piece, 9 (1h maker), comes
// after all three. Derived by trying all 560 orders that keep the rules: 14 hours,
// 9 at hour 13; so the chains must be over at 13, and cannot be at 12.
func cheeseShaped(over int) *problem.Model {
	m := &problem.Model{Step: 1, Horizon: over, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: over}}}}, Pools: []problem.Pool{{Capacity: 2}, {Capacity: 1}}}
	at := func(n int) problem.Lag { return problem.Lag{Least: n, Most: n, Cost: []int32{0}} }
	upTo := func(n int) problem.Lag { return problem.Lag{Least: n, Most: over, Cost: make([]int32, over-n+1)} }
	maker := func(w int, l problem.Lag) problem.Activity {
		return problem.Activity{Work: w, Workers: []int{0}, Lag: l}
	}
	none := func(l problem.Lag) problem.Activity { return problem.Activity{Lag: l} }
	end := problem.Lag{Most: over}
	pot := func(first, last int) problem.Run {
		return problem.Run{First: first, Last: last, Amount: 1, Choices: []problem.PoolChoice{{Pool: 0}}}
	}
	press := func(first, last int) problem.Run {
		return problem.Run{First: first, Last: last, Amount: 1, Choices: []problem.PoolChoice{{Pool: 1}}}
	}
	chains := []problem.Mode{
		// 3 may begin later than 1 ends: the pot is let go between them.
		{Acts: []problem.Activity{maker(2, upTo(0)), none(at(4)), none(upTo(0)), maker(2, end)}, Runs: []problem.Run{pot(1, 1)}},
		// The press is held from 4 to the end of 5: 5 follows at once, as in the optimum.
		{Acts: []problem.Activity{maker(3, upTo(0)), maker(1, at(0)), none(at(5)), none(end)}, Runs: []problem.Run{press(1, 2)}},
		{Acts: []problem.Activity{maker(2, upTo(0)), none(at(4)), none(end)}, Runs: []problem.Run{press(1, 1)}},
	}
	// The pot of 1, 2 and 7 is held during the maker's work only: never by more than
	// one of them at a time, and 3 is the only other, so two pots are enough.
	for i := range chains {
		chains[i].Amount, chains[i].Units = 1, 1
		m.Families = append(m.Families, problem.Family{Keeps: over, Supply: -1, Modes: []problem.Mode{chains[i]}})
		m.Demands = append(m.Demands, problem.Demand{Family: i, Due: over, Units: 1, Value: 1})
	}
	return m
}

func TestSolveFindsTheCheeseShapedOptimum(t *testing.T) {
	for _, tt := range []struct {
		over  int
		short bool
	}{{13, false}, {12, true}} {
		m := cheeseShaped(tt.over)
		r := Solve(context.Background(), m, search.Options{Budget: 5_000_000})
		if f := tiny.FaultOf(m, r); f != "" {
			t.Error(f)
		}
		if got := r.Cost.Short > 0; got != tt.short {
			t.Errorf("over by %d: %d chains missing; want some missing: %v", tt.over, r.Cost.Short, tt.short)
		}
	}
}
