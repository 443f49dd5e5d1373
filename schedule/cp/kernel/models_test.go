package kernel_test

import (
	"fmt"
	"math/rand/v2"
	"slices"

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
}

// table adds that the tasks keep within the capacity.
func (m *small) table(t table) {
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("table %+v", t),
		Add: func(s *kernel.Solver) {
			var list []global.Task
			for i, length := range t.length {
				start := global.Moment{X: kernel.Var(i)}
				list = append(list, global.Task{From: start, Until: global.Moment{X: start.X, Add: length}, Least: length,
					Demand: global.Amount{Table: t.demand[i : i+1]}})
			}
			global.AddCumulative(s, list, t.capacity, nil)
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

// hole is values that are left out: from is the first, until the first after them.
type hole struct{ from, until int32 }

// holes adds that x is in none of them.
func (m *small) holes(x int, holes []hole) {
	holds := func(v int32) bool {
		return !slices.ContainsFunc(holes, func(o hole) bool { return o.from <= v && v < o.until })
	}
	var left []global.Range
	for v := m.Low[x]; v <= m.High[x]; v++ {
		if holds(v) {
			left = append(left, global.Range{From: v, To: v})
		}
	}
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("x%d in none of %+v", x, holes),
		Add: func(s *kernel.Solver) {
			x, always := kernel.Var(x), kernel.Var(x).Ge(m.Low[x])
			global.AddAllowed(s, x, x, []global.Way{{If: always, Sets: [][]global.Range{left}}})
		},
		Holds: func(v []int32) bool { return holds(v[x]) },
	})
}

// rules says which kinds of rule a random model may have.
type rules struct{ arcs, guards, clauses, tables, holes, tight bool }

var everything = rules{arcs: true, guards: true, clauses: true, tables: true, holes: true}

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
			var holes []hole
			for range 1 + r.IntN(3) {
				from := int32(r.IntN(9) - 3)
				holes = append(holes, hole{from, from + int32(r.IntN(4))})
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
	t := table{capacity: int32(1 + r.IntN(4))}
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
	return t
}
