package rules

import (
	"cmp"
	"slices"

	"ripeby/schedule/cp/kernel"
)

// Hole is a stretch of values that a variable must not take: From is the first,
// Until the first after it. A hole that ends before it begins is none.
type Hole struct{ From, Until int32 }

// Holes keeps a variable out of forbidden stretches: a bound that falls into one
// jumps over it.
//
//	x in        [  ..................  ]
//	holes          ████     ██████   ███
//	x in           |   [............]       x >= from  =>  x >= until
//
// Values between two holes are never told apart, so that no literal is made for a
// value in a hole. Cost: O(log holes) a call.
type Holes struct {
	at    kernel.View
	holes []Hole // of the view, in order, apart
}

// AddHoles keeps each of the variables out of all the holes, which may come in any
// order and overlap. Variables with like holes share one list.
func AddHoles(s *kernel.Solver, vars []kernel.Var, holes []Hole) {
	up := apart(holes)
	if len(up) == 0 {
		return
	}
	// x in [from, until) is -x in [1-until, 1-from).
	down := make([]Hole, len(up))
	for i, h := range up {
		down[len(up)-1-i] = Hole{1 - h.Until, 1 - h.From}
	}
	for _, x := range vars {
		s.AddPropagator(&Holes{x.Up(), up}, 0, x.Up())
		s.AddPropagator(&Holes{x.Down(), down}, 0, x.Down())
	}
}

// apart is the holes in order, with those that touch made one.
func apart(holes []Hole) []Hole {
	sorted := slices.Clone(holes)
	slices.SortFunc(sorted, func(a, b Hole) int { return cmp.Compare(a.From, b.From) })
	out := sorted[:0]
	for _, h := range sorted {
		switch n := len(out); {
		case h.From >= h.Until:
		case n > 0 && h.From <= out[n-1].Until:
			out[n-1].Until = max(out[n-1].Until, h.Until)
		default:
			out = append(out, h)
		}
	}
	return out
}

// Propagate implements [kernel.Propagator].
func (h *Holes) Propagate(s *kernel.Solver) bool {
	v := s.Low(h.at)
	k, in := slices.BinarySearchFunc(h.holes, v, func(o Hole, v int32) int {
		switch {
		case o.Until <= v:
			return -1
		case o.From > v:
			return 1
		}
		return 0
	})
	if !in {
		return true
	}
	o := h.holes[k]
	return s.Enqueue(kernel.Lit{B: h.at, V: o.Until}, s.Because(kernel.Lit{B: h.at, V: o.From}))
}
