package explain

import (
	"context"
	"testing"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
)

// tableModel is a model with something of all that chains depend on.
func tableModel() *problem.Model {
	act := func(work int, cost ...int32) problem.Activity {
		return problem.Activity{Work: work, Workers: []int{0}, Lag: problem.Lag{Least: 2, Most: 1 + len(cost), Cost: cost}}
	}
	mode := func(amount int64) problem.Mode {
		return problem.Mode{Amount: amount, Units: 2, Acts: []problem.Activity{act(1, 3, 0, 1), act(2, 0, 1), {Lag: problem.Lag{Most: 30}}}}
	}
	return &problem.Model{Step: 1, Horizon: 60, FitFloor: tiny.LinePacking,
		Families: []problem.Family{{Modes: []problem.Mode{mode(4), mode(6)}, Keeps: 30, Supply: 0}},
		Workers:  []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 20}, {From: 22, Until: 60}}}},
		Intakes:  []problem.Intake{{Supply: 0, Ready: 0, Until: 10, Amount: 20}, {Supply: 0, Ready: 12, Until: 40, Amount: 20}},
		Demands:  []problem.Demand{{Family: 0, Due: 40, Units: 2, Value: 1}, {Family: 0, Due: 50, Units: 0, Value: 1, Promised: true}},
		Begun:    []problem.Begun{{Family: 0, Mode: mode(4), Starts: []int{0}, Workers: []int{0}}},
	}
}

// What is worked out of chains is lent to a model whose chains are the same, whatever else
// is, and to no other; what has begun is another's own.
func TestTablesAreLentToTheSameChainsOnly(t *testing.T) {
	m := tableModel()
	r := solved(context.Background(), m, search.Options{Budget: 200_000})
	with := tiny.InForce(m, r)
	with.Demands[1].Units = 2
	q := Inquire(context.Background(), with, 1, -1, 2_000_000, nil)
	if q == nil || !q.Stands() {
		t.Fatal("the plan in force does not stand")
	}
	q.Most(2)
	tables := q.Tables()
	own := 0
	for key := range tables.chains {
		if key.Begun >= 0 {
			t.Errorf("the chain of what has begun is lent: %+v", key)
		}
		own++
	}
	if own == 0 || len(q.r.s.Prep.Chains) == own {
		t.Fatalf("got %d chains to lend of %d: nothing is tested", own, len(q.r.s.Prep.Chains))
	}
	tests := []struct {
		name   string
		change func(*problem.Model)
		want   bool
	}{
		{"the same", func(*problem.Model) {}, true},
		{"other demands", func(m *problem.Model) { m.Demands[1].Due = 44 }, true},
		{"a pool more", func(m *problem.Model) { m.Pools = append(m.Pools, problem.Pool{Capacity: 1}) }, true},
		{"nothing under way", func(m *problem.Model) { m.Begun = nil }, true},
		{"another step", func(m *problem.Model) { m.Step = 2 }, false},
		{"from another moment on", func(m *problem.Model) { m.From = 1 }, false},
		{"another horizon", func(m *problem.Model) { m.Horizon = 61 }, false},
		{"a family more", func(m *problem.Model) { m.Families = append(m.Families, m.Families[0]) }, false},
		{"a mode less", func(m *problem.Model) { m.Families[0].Modes = m.Families[0].Modes[:1] }, false},
		{"it keeps longer", func(m *problem.Model) { m.Families[0].Keeps++ }, false},
		{"another supply", func(m *problem.Model) { m.Families[0].Supply = -1 }, false},
		{"another amount", func(m *problem.Model) { m.Families[0].Modes[1].Amount++ }, false},
		{"more work", func(m *problem.Model) { m.Families[0].Modes[1].Acts[1].Work++ }, false},
		{"nobody to do it", func(m *problem.Model) { m.Families[0].Modes[1].Acts[1].Workers = nil }, false},
		{"a shorter lag", func(m *problem.Model) { m.Families[0].Modes[1].Acts[0].Lag.Least-- }, false},
		{"a longer lag", func(m *problem.Model) { m.Families[0].Modes[1].Acts[2].Lag.Most++ }, false},
		{"a lag that costs otherwise", func(m *problem.Model) { m.Families[0].Modes[1].Acts[0].Lag.Cost[1] = 2 }, false},
		{"other hours", func(m *problem.Model) { m.Workers[0].Windows[1].From = 23 }, false},
		{"a worker more", func(m *problem.Model) { m.Workers = append(m.Workers, problem.Worker{}) }, false},
		{"milk at another time", func(m *problem.Model) { m.Intakes[1].Ready = 13 }, false},
		{"milk once only", func(m *problem.Model) { m.Intakes = m.Intakes[:1] }, false},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			other := tableModel()
			c.change(other)
			if got := tables.holdFor(other); got != c.want {
				t.Errorf("lent: %v, want %v", got, c.want)
			}
		})
	}
}

// Costs that begin alike in the memory are told apart by their lengths.
func TestCostsOfTwoLengthsAreComparedEach(t *testing.T) {
	model := func(cost ...int32) *problem.Model {
		m := tableModel()
		for k, n := range []int{2, 3} {
			m.Families[0].Modes[k].Acts[0].Lag = problem.Lag{Least: 2, Most: 1 + n, Cost: cost[:n]}
		}
		return m
	}
	tables := &Tables{of: model(1, 2, 3)}
	if !tables.holdFor(model(1, 2, 3)) || tables.holdFor(model(1, 2, 4)) {
		t.Errorf("lent for the same: %v, for others: %v", tables.holdFor(model(1, 2, 3)), tables.holdFor(model(1, 2, 4)))
	}
}
