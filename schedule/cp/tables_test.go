package cp

import (
	"context"
	"testing"
)

// tableModel is a model with something of all that chains depend on.
func tableModel() *Model {
	act := func(work int, cost ...int32) Activity {
		return Activity{Work: work, Workers: []int{0}, Lag: Lag{Least: 2, Most: 1 + len(cost), Cost: cost}}
	}
	mode := func(amount int64) Mode {
		return Mode{Amount: amount, Units: 2, Acts: []Activity{act(1, 3, 0, 1), act(2, 0, 1), {Lag: Lag{Most: 30}}}}
	}
	return &Model{Step: 1, Horizon: 60, Packing: linePacking,
		Families: []Family{{Modes: []Mode{mode(4), mode(6)}, Keeps: 30, Supply: 0}},
		Workers:  []Worker{{Windows: []Span{{0, 20}, {22, 60}}}},
		Intakes:  []Intake{{Supply: 0, Ready: 0, Until: 10, Amount: 20}, {Supply: 0, Ready: 12, Until: 40, Amount: 20}},
		Demands:  []Demand{{Family: 0, Due: 40, Units: 2, Value: 1}, {Family: 0, Due: 50, Units: 0, Value: 1, Promised: true}},
		Begun:    []Begun{{Family: 0, Mode: mode(4), Starts: []int{0}, Workers: []int{0}}},
	}
}

// What is worked out of chains is lent to a model whose chains are the same, whatever else
// is, and to no other; what has begun is another's own.
func TestTablesAreLentToTheSameChainsOnly(t *testing.T) {
	m := tableModel()
	r := solved(context.Background(), m, Options{Budget: 200_000})
	with := inForce(m, r)
	with.Demands[1].Units = 2
	q := Inquire(context.Background(), with, 1, -1, 2_000_000, nil)
	if q == nil || !q.Stands() {
		t.Fatal("the plan in force does not stand")
	}
	q.Most(2)
	tables := q.Tables()
	own := 0
	for key := range tables.chains {
		if key.begun >= 0 {
			t.Errorf("the chain of what has begun is lent: %+v", key)
		}
		own++
	}
	if own == 0 || len(q.r.s.prep.chains) == own {
		t.Fatalf("got %d chains to lend of %d: nothing is tested", own, len(q.r.s.prep.chains))
	}
	tests := []struct {
		name   string
		change func(*Model)
		want   bool
	}{
		{"the same", func(*Model) {}, true},
		{"other demands", func(m *Model) { m.Demands[1].Due = 44 }, true},
		{"a pool more", func(m *Model) { m.Pools = append(m.Pools, Pool{Capacity: 1}) }, true},
		{"nothing under way", func(m *Model) { m.Begun = nil }, true},
		{"another step", func(m *Model) { m.Step = 2 }, false},
		{"from another moment on", func(m *Model) { m.From = 1 }, false},
		{"another horizon", func(m *Model) { m.Horizon = 61 }, false},
		{"a family more", func(m *Model) { m.Families = append(m.Families, m.Families[0]) }, false},
		{"a mode less", func(m *Model) { m.Families[0].Modes = m.Families[0].Modes[:1] }, false},
		{"it keeps longer", func(m *Model) { m.Families[0].Keeps++ }, false},
		{"another supply", func(m *Model) { m.Families[0].Supply = -1 }, false},
		{"another amount", func(m *Model) { m.Families[0].Modes[1].Amount++ }, false},
		{"more work", func(m *Model) { m.Families[0].Modes[1].Acts[1].Work++ }, false},
		{"nobody to do it", func(m *Model) { m.Families[0].Modes[1].Acts[1].Workers = nil }, false},
		{"a shorter lag", func(m *Model) { m.Families[0].Modes[1].Acts[0].Lag.Least-- }, false},
		{"a longer lag", func(m *Model) { m.Families[0].Modes[1].Acts[2].Lag.Most++ }, false},
		{"a lag that costs otherwise", func(m *Model) { m.Families[0].Modes[1].Acts[0].Lag.Cost[1] = 2 }, false},
		{"other hours", func(m *Model) { m.Workers[0].Windows[1].From = 23 }, false},
		{"a worker more", func(m *Model) { m.Workers = append(m.Workers, Worker{}) }, false},
		{"milk at another time", func(m *Model) { m.Intakes[1].Ready = 13 }, false},
		{"milk once only", func(m *Model) { m.Intakes = m.Intakes[:1] }, false},
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
	model := func(cost ...int32) *Model {
		m := tableModel()
		for k, n := range []int{2, 3} {
			m.Families[0].Modes[k].Acts[0].Lag = Lag{Least: 2, Most: 1 + n, Cost: cost[:n]}
		}
		return m
	}
	tables := &Tables{of: model(1, 2, 3)}
	if !tables.holdFor(model(1, 2, 3)) || tables.holdFor(model(1, 2, 4)) {
		t.Errorf("lent for the same: %v, for others: %v", tables.holdFor(model(1, 2, 3)), tables.holdFor(model(1, 2, 4)))
	}
}
