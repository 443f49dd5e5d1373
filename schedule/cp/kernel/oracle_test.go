package kernel_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// small is a model small enough to try every assignment. What its rules mean is
// said again in holds, which shares nothing with the kernel.
type small struct {
	low, high []int32
	arcs      []smallArc
	clauses   [][]kernel.Lit
	tables    []smallTable
	holes     []smallHoles
	hasten    int // restarts and dropping of clauses from so few on; 0 as usual
}

// smallArc is vars[y] >= vars[x] + add, while the guard holds if there is one.
type smallArc struct {
	x, y    int
	add     int32
	guarded bool
	guard   kernel.Lit
}

// smallTable is a thing of some capacity that all variables' tasks use.
type smallTable struct {
	length, demand []int32
	capacity       int32
	timetable      bool
	edge           bool
}

type smallHoles struct {
	x     int
	holes []global.Hole
}

func isTrue(l kernel.Lit, v []int32) bool {
	if l.B%2 == 0 {
		return v[l.B/2] >= l.V
	}
	return -v[l.B/2] >= l.V
}

func allTrue(lits []kernel.Lit, v []int32) bool {
	for _, l := range lits {
		if !isTrue(l, v) {
			return false
		}
	}
	return true
}

func anyTrue(lits []kernel.Lit, v []int32) bool {
	for _, l := range lits {
		if isTrue(l, v) {
			return true
		}
	}
	return false
}

func (m *small) holds(v []int32) bool {
	for _, a := range m.arcs {
		if (!a.guarded || isTrue(a.guard, v)) && v[a.y] < v[a.x]+a.add {
			return false
		}
	}
	for _, c := range m.clauses {
		if !anyTrue(c, v) {
			return false
		}
	}
	for _, t := range m.tables {
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
	}
	for _, h := range m.holes {
		for _, o := range h.holes {
			if o.From <= v[h.x] && v[h.x] < o.Until {
				return false
			}
		}
	}
	return true
}

// solutions tries every assignment.
func (m *small) solutions() [][]int32 {
	var out [][]int32
	v := append([]int32(nil), m.low...)
	for {
		if m.holds(v) {
			out = append(out, append([]int32(nil), v...))
		}
		i := 0
		for ; i < len(v); i++ {
			if v[i]++; v[i] <= m.high[i] {
				break
			}
			v[i] = m.low[i]
		}
		if i == len(v) {
			return out
		}
	}
}

// solver states the model to the kernel.
func (m *small) solver() *kernel.Solver {
	s := kernel.New()
	if m.hasten > 0 {
		s.Hasten(m.hasten, int64(m.hasten))
	}
	vars := make([]kernel.Var, len(m.low))
	for i := range vars {
		vars[i] = s.NewVar(m.low[i], m.high[i])
	}
	for _, a := range m.arcs {
		if a.guarded {
			s.AddArcIf(a.guard, vars[a.x], vars[a.y], a.add)
		} else {
			s.AddArc(vars[a.x], vars[a.y], a.add)
		}
	}
	for _, c := range m.clauses {
		s.AddClause(c...)
	}
	for _, t := range m.tables {
		var list []global.Interval
		for i, x := range vars {
			list = append(list, global.Interval{Start: x, Length: t.length[i], Demand: t.demand[i]})
		}
		if t.timetable {
			global.AddTimetable(s, list, t.capacity)
		}
		if t.edge {
			global.AddEdgeFind(s, list, t.capacity)
		}
	}
	for _, h := range m.holes {
		global.AddHoles(s, []kernel.Var{vars[h.x]}, h.holes)
	}
	return s
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
		m.low = append(m.low, low)
		m.high = append(m.high, low+int32(1+r.IntN(8-n)+r.IntN(2)))
	}
	if with.arcs {
		for range r.IntN(3) {
			m.arcs = append(m.arcs, smallArc{x: r.IntN(n), y: r.IntN(n), add: int32(r.IntN(5) - 3)})
		}
	}
	if with.guards {
		for range r.IntN(3) {
			m.arcs = append(m.arcs, smallArc{r.IntN(n), r.IntN(n), int32(r.IntN(6) - 2), true, m.literal(r)})
		}
	}
	if with.clauses {
		most := 6
		if with.tight {
			most = 24
		}
		for range r.IntN(most) {
			var c []kernel.Lit
			for range 2 + r.IntN(3) {
				c = append(c, m.literal(r))
			}
			m.clauses = append(m.clauses, c)
		}
	}
	if with.tables {
		for range 1 + r.IntN(2) {
			m.tables = append(m.tables, m.table(r, with))
		}
	}
	if with.holes {
		for range r.IntN(3) {
			h := smallHoles{x: r.IntN(n)}
			for range 1 + r.IntN(3) {
				from := int32(r.IntN(9) - 3)
				h.holes = append(h.holes, global.Hole{From: from, Until: from + int32(r.IntN(4))})
			}
			m.holes = append(m.holes, h)
		}
	}
	return m
}

// full makes one thing that is used for about as long as there is.
func full(r *rand.Rand) *small {
	m := &small{hasten: r.IntN(3)}
	t := smallTable{capacity: int32(1 + r.IntN(3)), timetable: true, edge: true}
	energy := int32(0)
	for range 5 {
		length, demand := int32(1+r.IntN(3)), int32(1+r.IntN(int(t.capacity)))
		t.length, t.demand = append(t.length, length), append(t.demand, demand)
		energy += length * demand
	}
	end := min(energy/t.capacity+int32(r.IntN(3)), 8)
	for i := range t.length {
		m.low = append(m.low, int32(r.IntN(2)))
		m.high = append(m.high, max(end-t.length[i]-int32(r.IntN(2)), m.low[i]))
	}
	m.tables = []smallTable{t}
	return m
}

func (m *small) literal(r *rand.Rand) kernel.Lit {
	x := r.IntN(len(m.low))
	v := m.low[x] + int32(r.IntN(int(m.high[x]-m.low[x])+2))
	if r.IntN(2) == 0 {
		return kernel.Var(x).Ge(v)
	}
	return kernel.Var(x).Le(v - 1)
}

func (m *small) table(r *rand.Rand, with rules) smallTable {
	t := smallTable{capacity: int32(1 + r.IntN(4)), timetable: true}
	for range m.low {
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

func (m *small) String() string {
	return fmt.Sprintf("low %v high %v\narcs %+v\nclauses %v\ntables %+v\nholes %+v", m.low, m.high, m.arcs, m.clauses, m.tables, m.holes)
}

// audited checks every step of s against the solutions; those past the limit that
// limit gives are left out, for a search that is told to better a value.
func audited(t *testing.T, s *kernel.Solver, all [][]int32, still func(v []int32) bool) {
	within := func(premises []kernel.Lit) {
		for _, p := range premises {
			if !s.True(p) {
				t.Fatalf("premise %v of %v is not true when used", p, premises)
			}
		}
	}
	s.SetAudit(&kernel.Audit{
		Implied: func(l kernel.Lit, premises []kernel.Lit) {
			within(premises)
			for _, v := range all {
				if allTrue(premises, v) && !isTrue(l, v) && still(v) {
					t.Fatalf("%v was said to follow from %v, but not in solution %v", l, premises, v)
				}
			}
		},
		Conflict: func(premises []kernel.Lit) {
			within(premises)
			for _, v := range all {
				if allTrue(premises, v) && still(v) {
					t.Fatalf("%v were said to be impossible together, but hold in solution %v", premises, v)
				}
			}
		},
		Learned: func(clause []kernel.Lit) {
			for _, v := range all {
				if !anyTrue(clause, v) && still(v) {
					t.Fatalf("learned %v, which solution %v breaks", clause, v)
				}
			}
		},
	})
}

func always([]int32) bool { return true }
