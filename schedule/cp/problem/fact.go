package problem

import "cmp"

// FactKind is a kind of fact that somebody could change, and that can stand in the
// way of a demand.
type FactKind int

// The facts, in the order in which they are named.
const (
	FactServes FactKind = iota // Index the family: its least number on demands
	FactPool                   // Index the pool: it has no more units
	FactSpace                  // Index the space: it holds no more
	FactWorker                 // Index the worker: its hours from From until Until, one thing at a time; lifted, work may lie in them that is wholly in lifted ones
	FactSupply                 // Index the supply: its intakes are as they are
	FactDemand                 // Index another demand: it gets no less than it does
)

// Fact is one fact of a model.
type Fact struct {
	Kind        FactKind
	Index       int
	From, Until int // of a worker's hours, in ticks
}

// Compare puts facts in the order in which they are told.
func (f Fact) Compare(o Fact) int {
	return cmp.Or(cmp.Compare(f.Kind, o.Kind), cmp.Compare(f.Index, o.Index), cmp.Compare(f.From, o.From))
}

// Weight orders facts for shrinking: those of the greatest weight are tried first
// without. Hours come first, since a reason that names many days reads badly; then
// what others get, since a reason that holds without them is the stronger one.
func (f Fact) Weight() int {
	switch f.Kind {
	case FactWorker:
		return 5
	case FactDemand:
		return 4
	case FactSpace:
		return 3
	case FactSupply:
		return 2
	case FactPool:
		return 1
	}
	return 0
}

// DayBounds cuts the model's time into days.
func (m *Model) DayBounds() []Span {
	var out []Span
	at := m.From
	for _, t := range m.DayStarts {
		if t > at && t < m.Horizon {
			out = append(out, Span{at, t})
			at = t
		}
	}
	return append(out, Span{at, m.Horizon + 1})
}

// Facts lists what can stand in the way of a demand; the demand's own is among them.
func (m *Model) Facts() []Fact {
	var out []Fact
	for f := range m.Families {
		if m.Families[f].Serves > 1 {
			out = append(out, Fact{Kind: FactServes, Index: f})
		}
	}
	for p := range m.Pools {
		if m.Pools[p].Capacity < Infinite {
			out = append(out, Fact{Kind: FactPool, Index: p})
		}
	}
	for s := range m.Spaces {
		out = append(out, Fact{Kind: FactSpace, Index: s})
	}
	for w := range m.Workers {
		for _, day := range m.DayBounds() {
			out = append(out, Fact{FactWorker, w, day.From, day.Until})
		}
	}
	for s, drawn := range m.Supplies() {
		if drawn {
			out = append(out, Fact{Kind: FactSupply, Index: s})
		}
	}
	for d := range m.Demands {
		if m.Demands[d].Units > 0 {
			out = append(out, Fact{Kind: FactDemand, Index: d})
		}
	}
	return out
}

// Supplies reports for each supply whether a family draws on it.
func (m *Model) Supplies() []bool {
	var out []bool
	for f := range m.Families {
		s := m.Families[f].Supply
		for s >= len(out) {
			out = append(out, false)
		}
		if s >= 0 {
			out[s] = true
		}
	}
	return out
}
