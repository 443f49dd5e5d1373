package global

import (
	"math"

	"ripeby/schedule/cp/kernel"
)

// Way is one way to do a thing: while If is true, x must lie in Sets[size] (sorted,
// apart ranges); Sets[k+1] is a subset of Sets[k]. A size past the last set counts as
// the last, one below 0 as the first; with no sets no value is right.
type Way struct {
	If   kernel.Lit
	Sets [][]Range
}

// set is the values that are right for a size.
func (w *Way) set(size int32) []Range {
	if len(w.Sets) == 0 {
		return nil
	}
	return w.Sets[max(0, min(size, int32(len(w.Sets)-1)))]
}

// allowed keeps a variable in the set of the way that is taken, for the size taken.
// While no way is taken yet it keeps it in the union of those still open.
//
//	way 1        ▒▒▒▒▒▒▒        ▒▒▒▒
//	way 2          ▒▒▒▒▒▒▒▒         ▒▒▒▒
//	x in     [   |............]             x >= the first value of way 1
//
// A reason names the widest gap around the values left out, the smallest size that
// has none of them, and of the ways that are out only those that would have some.
// Cost: O(ways x log ranges) a call.
type allowed struct {
	x, size kernel.Var
	top     int32 // the greatest size that has a set of its own
	ways    []Way
	when    []kernel.Lit
	lits    []kernel.Lit
}

// AddAllowed has x lie in the set of one of the ways whose literal is not false, and
// of the way whose literal is true, given the size, by which the Sets go. It filters
// the bounds of x past gaps, makes a way's literal false when no value between the
// bounds of x is in its set, and lowers the size's upper bound where only smaller
// sizes have values. The rule holds only while all of when are true; with one
// undecided and no value left, that literal becomes false.
//
// The caller states that one of the ways is true while all of when are; the rule
// counts on it, and demands nothing when all ways are false. Where no way has more
// than one set, size is not looked at.
func AddAllowed(s *kernel.Solver, x kernel.Var, size kernel.Var, ways []Way, when ...kernel.Lit) {
	a := &allowed{x: x, size: size, ways: append([]Way(nil), ways...), when: distinct(when)}
	wake := onTrue(both(nil, x), a.when)
	for _, w := range a.ways {
		a.top = max(a.top, int32(len(w.Sets)-1))
		wake = append(wake, w.If.B, w.If.Not().B)
	}
	if a.top > 0 {
		wake = append(wake, size.Up())
	}
	s.AddPropagator(a, 1, once(wake)...)
}

// least and most are the bounds of the size, as far as it matters.
func (a *allowed) least(s *kernel.Solver) int32 {
	if a.top == 0 {
		return 0
	}
	return max(0, min(s.Min(a.size), a.top))
}

func (a *allowed) most(s *kernel.Solver) int32 {
	if a.top == 0 {
		return 0
	}
	return max(0, min(s.Max(a.size), a.top))
}

// Propagate implements [kernel.Propagator].
func (a *allowed) Propagate(s *kernel.Solver) bool {
	open, n := undecided(s, a.when)
	switch {
	case n < 0 || n > 1:
		return true
	case n == 1:
		return a.refute(s, open)
	}
	taken := false
	for i := range a.ways {
		w := &a.ways[i]
		if s.False(w.If) {
			continue
		}
		if !a.shut(s, w) {
			return false
		}
		if s.True(w.If) {
			taken = true
			if !a.narrow(s, a.ways[i:i+1]) {
				return false
			}
		}
	}
	return taken || a.narrow(s, a.ways)
}

// empty reports whether no way that is not out has a value in [lo, hi]; some is
// whether there is such a way at all.
func (a *allowed) empty(s *kernel.Solver, ways []Way, size, lo, hi int32) (none, some bool) {
	for i := range ways {
		if s.False(ways[i].If) {
			continue
		}
		some = true
		if _, ok := gap(ways[i].set(size), lo, hi); !ok {
			return false, true
		}
	}
	return true, some
}

// refute makes the one open condition false when no value is left with it: a way
// that is taken has none, or none of the open ones has.
func (a *allowed) refute(s *kernel.Solver, open kernel.Lit) bool {
	lo, hi, size := s.Min(a.x), s.Max(a.x), a.least(s)
	ways := a.ways
	none, some := a.empty(s, ways, size, lo, hi)
	for i := range a.ways {
		if none || !s.True(a.ways[i].If) {
			continue
		}
		if _, ok := gap(a.ways[i].set(size), lo, hi); ok {
			ways, none, some = a.ways[i:i+1], true, true
		}
	}
	if !none || !some {
		return true
	}
	a.lits = but(a.lits[:0], a.when, open)
	a.because(s, ways, a.lightest(s, ways, lo, hi), lo, hi, true, true)
	return s.Enqueue(open.Not(), s.Because(a.lits...))
}

// shut makes a way's literal false when x has no value in its set.
func (a *allowed) shut(s *kernel.Solver, w *Way) bool {
	lo, hi, size := s.Min(a.x), s.Max(a.x), a.least(s)
	g, none := gap(w.set(size), lo, hi)
	if !none {
		return true
	}
	for size > 0 {
		wider, still := gap(w.set(size-1), lo, hi)
		if !still {
			break
		}
		g, size = wider, size-1
	}
	a.lits = append(a.lits[:0], a.when...)
	a.bounds(g, size, true, true)
	return s.Enqueue(w.If.Not(), s.Because(a.lits...))
}

// narrow moves the bounds of x and of the size to what one of the ways allows: of
// all, or of a single one that is taken.
func (a *allowed) narrow(s *kernel.Solver, ways []Way) bool {
	size := a.least(s)
	lo, hi := s.Min(a.x), s.Max(a.x)
	first, last, some := int32(math.MaxInt32), int32(math.MinInt32), false
	for i := range ways {
		if s.False(ways[i].If) {
			continue
		}
		if v, ok := atOrAfter(ways[i].set(size), lo); ok && v <= hi {
			some = true
			first = min(first, v)
			v, _ = atOrBefore(ways[i].set(size), hi)
			last = max(last, v)
		}
	}
	if !some {
		return true // all ways are out
	}
	if first > lo {
		a.lits = append(a.lits[:0], a.when...)
		a.because(s, ways, a.lightest(s, ways, lo, first-1), lo, first-1, true, false)
		if !s.Enqueue(a.x.Ge(first), s.Because(a.lits...)) {
			return false
		}
	}
	if last < hi {
		a.lits = append(a.lits[:0], a.when...)
		a.because(s, ways, a.lightest(s, ways, last+1, hi), last+1, hi, false, true)
		if !s.Enqueue(a.x.Le(last), s.Because(a.lits...)) {
			return false
		}
	}
	return a.shrink(s, ways)
}

// shrink lowers the size to the greatest that has a value.
func (a *allowed) shrink(s *kernel.Solver, ways []Way) bool {
	lo, hi, top := s.Min(a.x), s.Max(a.x), a.most(s)
	k := top
	for k > a.least(s) {
		if none, _ := a.empty(s, ways, k, lo, hi); !none {
			break
		}
		k--
	}
	if k == top {
		return true
	}
	a.lits = append(a.lits[:0], a.when...)
	g := a.out(s, ways, k+1, lo, hi)
	a.bounds(g, 0, true, true)
	return s.Enqueue(a.size.Le(k), s.Because(a.lits...))
}

// lightest is the smallest size for which no way that is not out has a value in
// [lo, hi]; there is none for the present one.
func (a *allowed) lightest(s *kernel.Solver, ways []Way, lo, hi int32) int32 {
	size := a.least(s)
	for size > 0 {
		if none, _ := a.empty(s, ways, size-1, lo, hi); !none {
			break
		}
		size--
	}
	return size
}

// because appends why none of the ways has a value in [lo, hi]; low and high tell
// which end of it is a bound of x, the other being what follows.
func (a *allowed) because(s *kernel.Solver, ways []Way, size, lo, hi int32, low, high bool) {
	a.bounds(a.out(s, ways, size, lo, hi), size, low, high)
}

// out appends the literals of the ways that matter and gives the gap that they all
// have around [lo, hi]. A single way is one that is taken.
func (a *allowed) out(s *kernel.Solver, ways []Way, size, lo, hi int32) Range {
	around := Range{From: math.MinInt32, To: math.MaxInt32}
	if len(ways) == 1 && s.True(ways[0].If) {
		a.lits = append(a.lits, ways[0].If)
	}
	for i := range ways {
		if g, none := gap(ways[i].set(size), lo, hi); none {
			around.From, around.To = max(around.From, g.From), min(around.To, g.To)
		} else {
			a.lits = append(a.lits, ways[i].If.Not())
		}
	}
	return around
}

// bounds appends the bounds of x at the ends of a gap, and the size from which on
// there is that gap.
func (a *allowed) bounds(g Range, size int32, low, high bool) {
	if low && g.From > math.MinInt32 {
		a.lits = append(a.lits, a.x.Ge(g.From))
	}
	if high && g.To < math.MaxInt32 {
		a.lits = append(a.lits, a.x.Le(g.To))
	}
	if size > 0 {
		a.lits = append(a.lits, a.size.Ge(size))
	}
}
