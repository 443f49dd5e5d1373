package kernel_test

import (
	"fmt"
	"math/rand/v2"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/kernel/oracle"
)

// small is a model small enough to try every assignment.
type small struct {
	oracle.Model
	hasten int // restarts and dropping of clauses from so few on; 0 as usual
}

// solver states the model to the kernel.
func (m *small) solver() *kernel.Solver {
	s := kernel.New()
	if m.hasten > 0 {
		s.Hasten(m.hasten, int64(m.hasten))
	}
	m.State(s)
	return s
}

// arc adds that y is at least x + add.
func (m *small) arc(x, y int, add int32) {
	m.Add(oracle.Rule{
		Text:  fmt.Sprintf("x%d >= x%d%+d", y, x, add),
		Add:   func(s *kernel.Solver) { s.AddArc(kernel.Var(x), kernel.Var(y), add) },
		Holds: func(v []int32) bool { return v[y] >= v[x]+add },
	})
}

// arcIf adds that y is at least x + add while the guard holds.
func (m *small) arcIf(guard kernel.Lit, x, y int, add int32) {
	m.Add(oracle.Rule{
		Text:  fmt.Sprintf("x%d >= x%d%+d if %v", y, x, add, guard),
		Add:   func(s *kernel.Solver) { s.AddArcIf(guard, kernel.Var(x), kernel.Var(y), add) },
		Holds: func(v []int32) bool { return !oracle.True(guard, v) || v[y] >= v[x]+add },
	})
}

// table is a thing of some capacity that all variables' tasks use.
type table struct {
	length, demand []int32
	capacity       int32
	timetable      bool
	edge           bool
}

// table adds that the tasks keep within the capacity.
func (m *small) table(t table) {
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("table %+v", t),
		Add: func(s *kernel.Solver) {
			var list []global.Interval
			for i := range t.length {
				list = append(list, global.Interval{Start: kernel.Var(i), Length: t.length[i], Demand: t.demand[i]})
			}
			if t.timetable {
				global.AddTimetable(s, list, t.capacity)
			}
			if t.edge {
				global.AddEdgeFind(s, list, t.capacity)
			}
		},
		Holds: t.holds,
	})
}

func (t *table) holds(v []int32) bool {
	for moment := int32(-12); moment < 30; moment++ {
		sum := int32(0)
		for i := range v {
			if v[i] <= moment && moment < v[i]+t.length[i] {
				sum += t.demand[i]
			}
		}
		if sum > t.capacity {
			return false
		}
	}
	return true
}

// holes adds that x is in none of them.
func (m *small) holes(x int, holes []global.Hole) {
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("x%d in none of %+v", x, holes),
		Add:  func(s *kernel.Solver) { global.AddHoles(s, []kernel.Var{kernel.Var(x)}, holes) },
		Holds: func(v []int32) bool {
			for _, o := range holes {
				if o.From <= v[x] && v[x] < o.Until {
					return false
				}
			}
			return true
		},
	})
}

// rules says which kinds of rule a random model may have.
type rules struct{ arcs, guards, clauses, tables, edges, holes, tight bool }

var everything = rules{arcs: true, guards: true, clauses: true, tables: true, edges: true, holes: true}

// random makes a model; about half of them have solutions.
func random(r *rand.Rand, with rules) *small {
	n := 3 + r.IntN(3)
	m := &small{hasten: r.IntN(5)}
	for range n {
		low := int32(r.IntN(5) - 2)
		m.Variable(low, low+int32(1+r.IntN(8-n)+r.IntN(2)))
	}
	if with.arcs {
		for range r.IntN(3) {
			m.arc(r.IntN(n), r.IntN(n), int32(r.IntN(5)-3))
		}
	}
	if with.guards {
		for range r.IntN(3) {
			x, y, add := r.IntN(n), r.IntN(n), int32(r.IntN(6)-2)
			m.arcIf(m.Literal(r), x, y, add)
		}
	}
	if with.clauses {
		m.someClauses(r, with)
	}
	if with.tables {
		for range 1 + r.IntN(2) {
			m.table(m.someTable(r, with))
		}
	}
	if with.holes {
		for range r.IntN(3) {
			x := r.IntN(n)
			var holes []global.Hole
			for range 1 + r.IntN(3) {
				from := int32(r.IntN(9) - 3)
				holes = append(holes, global.Hole{From: from, Until: from + int32(r.IntN(4))})
			}
			m.holes(x, holes)
		}
	}
	return m
}

func (m *small) someClauses(r *rand.Rand, with rules) {
	most := 6
	if with.tight {
		most = 24
	}
	for range r.IntN(most) {
		var c []kernel.Lit
		for range 2 + r.IntN(3) {
			c = append(c, m.Literal(r))
		}
		m.Clause(c...)
	}
}

func (m *small) someTable(r *rand.Rand, with rules) table {
	t := table{capacity: int32(1 + r.IntN(4)), timetable: true}
	for range m.Low {
		t.length = append(t.length, int32(r.IntN(4)))
		t.demand = append(t.demand, int32(r.IntN(int(t.capacity)+1)))
	}
	if with.tight {
		for i := range t.length {
			t.length[i] = max(t.length[i], int32(1+r.IntN(2)))
			t.demand[i] = max(t.demand[i], 1)
		}
	}
	if with.edges {
		t.edge = r.IntN(2) == 0
	}
	return t
}

// full makes one thing that is used for about as long as there is.
func full(r *rand.Rand) *small {
	m := &small{hasten: r.IntN(3)}
	t := table{capacity: int32(1 + r.IntN(3)), timetable: true, edge: true}
	energy := int32(0)
	for range 5 {
		length, demand := int32(1+r.IntN(3)), int32(1+r.IntN(int(t.capacity)))
		t.length, t.demand = append(t.length, length), append(t.demand, demand)
		energy += length * demand
	}
	end := min(energy/t.capacity+int32(r.IntN(3)), 8)
	for i := range t.length {
		low := int32(r.IntN(2))
		m.Variable(low, max(end-t.length[i]-int32(r.IntN(2)), low))
	}
	m.table(t)
	return m
}
