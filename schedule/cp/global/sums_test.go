package global_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/kernel/oracle"
)

// TestOffset: y = x + table[size] over all values, also where x is y's own.
func TestOffset(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 11))
		m := &tiny{}
		for range 3 {
			low := int32(r.IntN(5) - 2)
			m.Variable(low, low+int32(r.IntN(6)))
		}
		size := m.Variable(int32(r.IntN(3)-1), int32(2+r.IntN(2)))
		for range 1 + r.IntN(2) {
			x, y := kernel.Var(r.IntN(3)), kernel.Var(r.IntN(3))
			a := global.Amount{By: size, Table: table(r, int32(r.IntN(5)-3), 3)}
			if r.IntN(10) == 0 {
				a.Table = nil
			}
			m.Add(oracle.Rule{
				Text:  fmt.Sprintf("x%d = x%d + %+v", y, x, a),
				Add:   func(s *kernel.Solver) { global.AddOffset(s, x, a, y) },
				Holds: func(v []int32) bool { return v[y] == v[x]+entry(a.Table, v[size]) },
			})
		}
		m.Clauses(r, 4)
		m.Check(t, seed, r, &seen)
	}
	seen.Enough(t, 700)
}

// TestLinear: weighted sums with conditions, views both ways and named twice.
func TestLinear(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 12))
		m := &tiny{}
		for range 4 {
			low := int32(r.IntN(5) - 3)
			m.Variable(low, low+int32(r.IntN(5)))
		}
		for range 1 + r.IntN(3) {
			m.linear(r)
		}
		m.Clauses(r, 4)
		m.Check(t, seed, r, &seen)
	}
	seen.Enough(t, 700)
}

// linear adds a random sum with a bound that it is near.
func (m *tiny) linear(r *rand.Rand) {
	var terms []global.Term
	least := int64(0)
	for range 1 + r.IntN(4) {
		x := r.IntN(len(m.Low))
		term := global.Term{View: kernel.View(2*x + r.IntN(2)), Times: int64(1 + r.IntN(4))}
		if r.IntN(12) == 0 {
			term.Times = int64(-r.IntN(3))
		}
		least += term.Times * int64(oracle.ValueOf(term.View, m.Low))
		terms = append(terms, term)
	}
	atMost := least + int64(r.IntN(9)-3)
	var when []kernel.Lit
	for range r.IntN(3) {
		when = append(when, m.Literal(r))
	}
	if len(when) > 0 && r.IntN(4) == 0 {
		when = append(when, when[0])
	}
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("sum %+v <= %d when %v", terms, atMost, when),
		Add:  func(s *kernel.Solver) { global.AddLinear(s, terms, atMost, when...) },
		Holds: func(v []int32) bool {
			sum := int64(0)
			for _, t := range terms {
				sum += t.Times * int64(oracle.ValueOf(t.View, v))
			}
			return !oracle.AllTrue(when, v) || sum <= atMost
		},
	})
}

// TestLoad: weights by size that count on conditions and by when they start.
func TestLoad(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(4000) {
		r := rand.New(rand.NewPCG(seed, 13))
		m := &tiny{}
		for range 3 + r.IntN(2) {
			low := int32(r.IntN(3))
			m.Variable(low, low+int32(r.IntN(4)))
		}
		for range 2 {
			m.Variable(0, 1)
		}
		for range 1 + r.IntN(2) {
			m.load(r)
		}
		m.Clauses(r, 3)
		m.Check(t, seed, r, &seen)
	}
	seen.Enough(t, 700)
}

// load adds a random load of a few items.
func (m *tiny) load(r *rand.Rand) {
	from := int32(r.IntN(4))
	until := from + int32(r.IntN(4))
	var items []global.Item
	for range 1 + r.IntN(4) {
		it := global.Item{Weight: global.Amount{By: kernel.Var(r.IntN(len(m.Low))), Table: table(r, int32(r.IntN(3)), 3)}}
		for range r.IntN(3) {
			it.If = append(it.If, m.Literal(r))
		}
		it.Timed, it.Start = r.IntN(2) == 0, kernel.Var(r.IntN(len(m.Low)))
		items = append(items, it)
	}
	atMost := int32(r.IntN(9) - 1)
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("load %+v <= %d in [%d, %d)", items, atMost, from, until),
		Add:  func(s *kernel.Solver) { global.AddLoad(s, items, atMost, from, until) },
		Holds: func(v []int32) bool {
			sum := int32(0)
			for _, it := range items {
				in := !it.Timed || from <= v[it.Start] && v[it.Start] < until
				if in && oracle.AllTrue(it.If, v) {
					sum += entry(it.Weight.Table, v[it.Weight.By])
				}
			}
			return sum <= atMost
		},
	})
}

// TestAllowed: sets with gaps that shrink with the size, by ways, on conditions.
func TestAllowed(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(4000) {
		r := rand.New(rand.NewPCG(seed, 14))
		m := &tiny{}
		low := int32(r.IntN(4) - 2)
		x := m.Variable(low, low+int32(2+r.IntN(8)))
		size := m.Variable(int32(r.IntN(3)-1), int32(2+r.IntN(2)))
		for range 4 {
			m.Variable(0, 1)
		}
		for range 1 + r.IntN(2) {
			m.allowed(r, x, size)
		}
		m.Clauses(r, r.IntN(5))
		m.Check(t, seed, r, &seen)
	}
	seen.Enough(t, 700)
}

// allowed adds a random rule, and that one of its ways is taken while it holds.
func (m *tiny) allowed(r *rand.Rand, x, size kernel.Var) {
	var ways []global.Way
	var when []kernel.Lit
	var some []kernel.Lit
	for range r.IntN(2) * r.IntN(3) {
		when = append(when, m.Literal(r))
		some = append(some, when[len(when)-1].Not())
	}
	sparse := 2 + r.IntN(4)
	for i := range 1 + r.IntN(4) {
		w := global.Way{If: m.Literal(r)}
		if r.IntN(4) > 0 { // more often open than not, and one by one
			w.If = kernel.Var(2 + i).Ge(1)
		}
		in := make([]bool, 13)
		for i := range in {
			in[i] = r.IntN(sparse) == 0
		}
		for range r.IntN(4) {
			w.Sets = append(w.Sets, ranges(in))
			for i := range in {
				in[i] = in[i] && r.IntN(3) > 0
			}
		}
		ways, some = append(ways, w), append(some, w.If)
	}
	m.Clause(some...)
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("x%d by x%d in %+v when %v", x, size, ways, when),
		Add:  func(s *kernel.Solver) { global.AddAllowed(s, x, size, ways, when...) },
		Holds: func(v []int32) bool {
			for _, w := range ways {
				if oracle.AllTrue(when, v) && oracle.True(w.If, v) && !inSet(w.Sets, v[size], v[x]) {
					return false
				}
			}
			return true
		},
	})
}

// ranges turns a list of which of the values from -3 on are in into ranges.
func ranges(in []bool) []global.Range {
	var out []global.Range
	for i, is := range in {
		v := int32(i - 3)
		switch n := len(out); {
		case !is:
		case n > 0 && out[n-1].To == v-1:
			out[n-1].To = v
		default:
			out = append(out, global.Range{From: v, To: v})
		}
	}
	return out
}

func inSet(sets [][]global.Range, size, v int32) bool {
	if len(sets) == 0 {
		return false
	}
	set := sets[max(0, min(int(size), len(sets)-1))]
	return slices.ContainsFunc(set, func(r global.Range) bool { return r.From <= v && v <= r.To })
}
