package rules

import "ripeby/schedule/cp/kernel"

// Interval is a task of fixed length and fixed demand for a cumulative thing.
type Interval struct {
	Start  kernel.Var
	Length int32
	Demand int32
}

// mirrored is an interval seen in one direction of time: at is the view whose
// lower bound is the earliest start that way; last is its opposite.
//
//	forward   at = start          earliest start, latest start = -low(last)
//	backward  at = -(start+length), shifted by the length into a start again
type mirrored struct {
	at     kernel.View
	length int32
	demand int32
	shift  int32 // added to the view's value to give a start
}

// seen gives the intervals in one direction.
func seen(list []Interval, backward bool) []mirrored {
	out := make([]mirrored, len(list))
	for i, v := range list {
		out[i] = mirrored{v.Start.Up(), v.Length, v.Demand, 0}
		if backward {
			out[i].at, out[i].shift = v.Start.Down(), -v.Length
		}
	}
	return out
}

// est is the earliest start in the direction seen.
func (m *mirrored) est(s *kernel.Solver) int32 { return s.Low(m.at) + m.shift }

// lst is the latest start in the direction seen.
func (m *mirrored) lst(s *kernel.Solver) int32 { return -s.Low(m.at.Opposite()) + m.shift }

// from is the literal "starts at v or later"; until is "starts at v or before".
func (m *mirrored) from(v int32) kernel.Lit { return kernel.Lit{B: m.at, V: v - m.shift} }

func (m *mirrored) until(v int32) kernel.Lit {
	return kernel.Lit{B: m.at.Opposite(), V: m.shift - v}
}
