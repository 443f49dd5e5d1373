package rules_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/cmd/cpbench/rules"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/kernel/oracle"
	"ripeby/schedule/testrun"
)

// Whole searches over models that are small enough to try every assignment: every
// reason, conflict and learned clause is held against all solutions.

// model is a small model; the rules of this package that it may have are its methods.
type model struct{ oracle.Model }

// table is a thing of some capacity that all variables' tasks use.
type table struct {
	length, demand []int32
	capacity       int32
	edge           bool
}

// table adds that the tasks keep within the capacity.
func (m *model) table(t table) {
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("table %+v", t),
		Add: func(s *kernel.Solver) {
			var list []rules.Interval
			for i, length := range t.length {
				list = append(list, rules.Interval{Start: kernel.Var(i), Length: length, Demand: t.demand[i]})
			}
			rules.AddTimetable(s, list, t.capacity)
			if t.edge {
				rules.AddEdgeFind(s, list, t.capacity)
			}
		},
		Holds: func(v []int32) bool {
			for _, at := range v { // where a task starts the most is taken
				if sum := t.taken(v, at); sum > t.capacity {
					return false
				}
			}
			return true
		},
	})
}

// taken is how much is taken at a moment.
func (t *table) taken(v []int32, at int32) int32 {
	sum := int32(0)
	for i := range v {
		if v[i] <= at && at < v[i]+t.length[i] {
			sum += t.demand[i]
		}
	}
	return sum
}

// holes adds that x is in none of them.
func (m *model) holes(x kernel.Var, holes []rules.Hole) {
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("x%d in none of %+v", x, holes),
		Add:  func(s *kernel.Solver) { rules.AddHoles(s, []kernel.Var{x}, holes) },
		Holds: func(v []int32) bool {
			return !slices.ContainsFunc(holes, func(h rules.Hole) bool { return h.From <= v[x] && v[x] < h.Until })
		},
	})
}

// arc adds that y is at least x + add.
func (m *model) arc(x, y kernel.Var, add int32) {
	m.Add(oracle.Rule{
		Text:  fmt.Sprintf("x%d >= x%d%+d", y, x, add),
		Add:   func(s *kernel.Solver) { s.AddArc(x, y, add) },
		Holds: func(v []int32) bool { return v[y] >= v[x]+add },
	})
}

// kind says which rules a random model has.
type kind struct {
	name                                string
	arcs, tables, edges, holes, crowded bool // crowded: tasks that all need something, for longer
}

// random makes a model of a kind, with a few clauses.
func random(r *rand.Rand, with kind) *model {
	m := &model{}
	n := 3 + r.IntN(3)
	for range n {
		low := int32(r.IntN(5) - 2)
		m.Variable(low, low+int32(1+r.IntN(8-n)+r.IntN(2)))
	}
	some := func() kernel.Var { return kernel.Var(r.IntN(n)) }
	if with.arcs {
		for range r.IntN(3) {
			m.arc(some(), some(), int32(r.IntN(5)-3))
		}
	}
	if with.tables {
		for range 1 + r.IntN(2) {
			m.table(someTable(r, n, with))
		}
	}
	for i := 0; with.holes && i < 1+n/2; i++ {
		var list []rules.Hole
		for range 1 + r.IntN(3) {
			from := int32(r.IntN(9) - 3)
			list = append(list, rules.Hole{From: from, Until: from + int32(r.IntN(4))})
		}
		m.holes(some(), list)
	}
	m.Clauses(r, 3)
	return m
}

func someTable(r *rand.Rand, tasks int, with kind) table {
	t := table{capacity: int32(1 + r.IntN(4)), edge: with.edges}
	for range tasks {
		length, demand := int32(r.IntN(4)), int32(r.IntN(int(t.capacity)+1))
		if with.crowded {
			length, demand = max(length, int32(1+r.IntN(2))), max(demand, 1)
		}
		t.length, t.demand = append(t.length, length), append(t.demand, demand)
	}
	return t
}

// TestEveryStepHolds: bounds, answers, solutions and every step of the way.
func TestEveryStepHolds(t *testing.T) {
	for _, k := range []kind{
		{name: "tables", tables: true},
		{name: "tables and arcs", tables: true, arcs: true},
		{name: "tables that are full", tables: true, arcs: true, crowded: true},
		{name: "edges", tables: true, edges: true},
		{name: "edges and arcs", tables: true, edges: true, arcs: true},
		{name: "edges of what is full", tables: true, edges: true, crowded: true},
		{name: "holes", holes: true},
		{name: "holes and arcs", holes: true, arcs: true},
		{name: "everything", tables: true, edges: true, holes: true, arcs: true},
	} {
		t.Run(k.name, func(t *testing.T) {
			var seen oracle.Tally
			for seed := range uint64(testrun.Rounds(400, 1000)) {
				r := rand.New(rand.NewPCG(seed, 5))
				random(r, k).Check(t, seed, r, &seen)
			}
			seen.Enough(t, testrun.Rounds(40, 100))
		})
	}
}

// full makes one thing that is used for about as long as there is.
func full(r *rand.Rand) *model {
	m := &model{}
	t := table{capacity: int32(1 + r.IntN(3)), edge: true}
	energy := int32(0)
	for range 5 {
		length, demand := int32(1+r.IntN(3)), int32(1+r.IntN(int(t.capacity)))
		t.length, t.demand = append(t.length, length), append(t.demand, demand)
		energy += length * demand
	}
	end := min(energy/t.capacity+int32(r.IntN(3)), 8)
	for _, length := range t.length {
		low := int32(r.IntN(2))
		m.Variable(low, max(end-length-int32(r.IntN(2)), low))
	}
	m.table(t)
	return m
}

// TestEnergyStepsHold does the same where only energy says that tasks do not fit: wide
// windows, and about as much work as there is room.
func TestEnergyStepsHold(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(1000) {
		r := rand.New(rand.NewPCG(seed, 6))
		full(r).Check(t, seed, r, &seen)
	}
	seen.Enough(t, 150)
}
