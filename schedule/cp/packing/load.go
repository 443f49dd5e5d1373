package packing

import (
	"slices"

	"ripeby/schedule/cp/problem"
)

// What boxes count for on the floors of a space.
//
// Boxes of a kind that shares spots with any others of it cannot be counted in stacks, stay by stay:
// three stays of one box need one spot where three boxes stand on one another. They count each for
// its part of a stack, of the stack for which the part is least, so that a spot never counts for
// less than what stands in it:
//
//	floor       stacks weigh   take        a box counts
//	high             3         3 boxes     min(3/3, 2/2) = 1
//	low              2         2 boxes
//
// Weighed by what they take, the boxes of one kind are counted exactly: stays that are never more
// than the floors take at one moment can stand, each box in a layer of its own, as intervals that
// overlap no more than so many times can be coloured in so many colours. Boxes that share with their
// own stay alone, or with none, count by stacks ([Weighing.Of]).

// Load is one way to count what stands in a space against what its floors have. All counts are
// multiplied by a scale, so that parts of a stack are whole numbers or, where that would be too many,
// are rounded down.
type Load struct {
	Floors []int64 // what each floor has
	m      *problem.Model
	space  int
	weight func(kind, floor int) int64 // of a stack
	scale  int64
}

// loadMost is the most that all floors of a space may have, scaled.
const loadMost = 1 << 24

// Area counts the floor under stacks of some kinds; not ok where that is too much to count.
func Area(m *problem.Model, space int, kinds []int) (l Load, ok bool) {
	floors, unit := m.Spaces[space].Floors, int64(0)
	area := func(r problem.Rect) int64 { return r.W * r.D }
	for i := range floors {
		unit = problem.GCD(unit, area(floors[i].Size))
	}
	for _, k := range kinds {
		unit = problem.GCD(unit, area(m.Kinds[k].Size))
	}
	unit = max(unit, 1)
	l = Load{m: m, space: space, weight: func(kind, _ int) int64 { return area(m.Kinds[kind].Size) / unit }}
	for i := range floors {
		l.Floors = append(l.Floors, area(floors[i].Size)/unit)
	}
	return l.scaled(kinds)
}

// Stacks counts the stacks of some kinds that are at least as large as boxes of one of them, of which
// each floor takes so many stacks, in the ways that say something of up to most boxes.
func Stacks(m *problem.Model, space, kind int, kinds []int, stacks []int64, most int) []Load {
	ways := Weighings(m.Layers(space, kind), stacks, most)
	if !slices.ContainsFunc(kinds, func(k int) bool { return m.Kinds[k].Stack == problem.OnStay }) {
		ways = ways[:1]
	}
	for _, k := range kinds {
		if m.Kinds[k].Stack == problem.OnKind {
			w := Weighing(m.Layers(space, k)).plainest()
			if !slices.ContainsFunc(ways, func(o Weighing) bool { return slices.Equal(o, w) }) {
				ways = append(ways, w)
			}
		}
	}
	var out []Load
	for _, w := range ways {
		l := Load{m: m, space: space, weight: func(k, floor int) int64 {
			if !m.Kinds[k].Size.Covers(m.Kinds[kind].Size) {
				return 0
			}
			return w[floor]
		}}
		for f, n := range stacks {
			l.Floors = append(l.Floors, w[f]*n)
		}
		if l, ok := l.scaled(kinds); ok {
			out = append(out, l)
		}
	}
	return out
}

// plainest is a weighing in the smallest numbers that weigh the same.
func (w Weighing) plainest() Weighing {
	divisor := int64(0)
	for _, n := range w {
		divisor = problem.GCD(divisor, n)
	}
	out := slices.Clone(w)
	for f := range out {
		out[f] /= max(divisor, 1)
	}
	return out
}

// scaled is the load in whole parts of stacks of the kinds, as far as the numbers allow.
func (l Load) scaled(kinds []int) (Load, bool) {
	l.scale = 1
	room := max(l.Room(), 1)
	if room > loadMost {
		return l, false
	}
	for _, k := range kinds {
		if l.m.Kinds[k].Stack != problem.OnKind {
			continue
		}
		for _, n := range l.m.Layers(l.space, k) {
			if n > 0 && l.scale <= loadMost/room {
				l.scale *= n / problem.GCD(l.scale, n)
			}
		}
	}
	l.scale = min(l.scale, loadMost/room)
	for f := range l.Floors {
		l.Floors[f] *= l.scale
	}
	return l, true
}

// Room is what all floors have.
func (l *Load) Room() int64 {
	sum := int64(0)
	for _, n := range l.Floors {
		sum += n
	}
	return sum
}

// Of is what up to most boxes of a kind count for at the least, each number of them; what stands on no
// floor counts more than there is.
func (l *Load) Of(kind, most int) []int64 {
	layers, out, over := l.m.Layers(l.space, kind), make([]int64, most+1), l.Room()+1
	if slices.Max(layers) == 0 || l.m.Kinds[kind].Size.W <= 0 || l.m.Kinds[kind].Size.D <= 0 {
		for n := 1; n <= most; n++ {
			out[n] = over
		}
		return out
	}
	w := make(Weighing, len(layers))
	for f := range w {
		w[f] = l.weight(kind, f)
	}
	if l.m.Kinds[kind].Stack == problem.OnKind {
		for n := 1; n <= most; n++ {
			out[n] = over
			for f, high := range layers {
				if high > 0 {
					out[n] = min(out[n], int64(n)*w[f]*l.scale/high)
				}
			}
		}
		return out
	}
	for n, v := range w.Of(layers, most) {
		out[n] = min(over, v*l.scale)
	}
	return out
}

// OfStacks is what stacks of a kind count for that stand there, a part of a stack for its part of what
// the spot takes.
func (l *Load) OfStacks(kind int, stacks []problem.Standing) int64 {
	sum := int64(0)
	for _, st := range stacks {
		w, k, floor := l.weight(kind, st.Floor)*l.scale, &l.m.Kinds[kind], &l.m.Spaces[l.space].Floors[st.Floor]
		if k.Shares(floor) {
			w = w * int64(st.Boxes) / k.High(floor)
		}
		sum += w
	}
	return sum
}
