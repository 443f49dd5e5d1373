package cheapest

import (
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/kernel"
)

// Chain is the work of one job that may be, as the kernel has it. Its starts are in steps of the grid.
type Chain struct {
	Here  kernel.Lit // the job is made
	Size  kernel.Var
	Start []kernel.Var   // of each piece of work
	Who   [][]kernel.Lit // of each piece of work, one for each of its workers; none for what is nobody's
	Fixed int            // so many pieces of work have begun
	Cost  kernel.Var     // that is kept at what the chain costs at the least
	By    *chain.Costs   // what chains cost
}

// rule keeps the cost of a chain. First each start by itself, which needs one or two bounds as
// premises; then, where the size is known, the whole chain. It runs before what the kitchen has room
// for: most dead ends of a proof are found here.
type rule struct {
	Chain
	of   []int  // the piece of work whose start each view that wakes it is of, or one of those below
	look []bool // pieces of work whose single starts are to be looked at
	lits []kernel.Lit
	rows [][]reached // of each piece of work, by start: the least cost up to there
	next []reached   // the least cost from there on, of the piece of work that was looked at last
	room []reached   // memory for the next of these
	best way
	most int32 // that the cost can be while nothing is asked of it
}

// Add has the kernel keep the cost of a chain. One of which all has begun has nothing to keep.
func Add(s *kernel.Solver, c Chain) {
	b := &rule{Chain: c, look: make([]bool, len(c.Start)), rows: make([][]reached, len(c.Start)), best: newWay(len(c.Start)), most: s.Max(c.Cost)}
	var wake []kernel.View
	put := func(of int, views ...kernel.View) {
		for _, v := range views {
			wake, b.of = append(wake, v), append(b.of, of)
		}
	}
	put(allOfThem, c.Here.B, c.Size.Up(), c.Cost.Down())
	put(noneOfThem, c.Size.Down())
	for i := c.Fixed; i < len(c.Start); i++ {
		put(i, c.Start[i].Up(), c.Start[i].Down())
		for _, l := range c.Who[i] {
			put(noneOfThem, l.B, l.B.Opposite())
		}
	}
	b.lookAt(allOfThem)
	s.AddPropagator(b, 1, wake...)
}

// Views that are of no start may matter for every one, or for the whole chain alone.
const (
	allOfThem  = -1
	noneOfThem = -2
)

func (b *rule) lookAt(of int) {
	switch of {
	case allOfThem:
		for i := b.Fixed; i < len(b.look); i++ {
			b.look[i] = true
		}
	case noneOfThem:
	default:
		b.look[of] = true
	}
}

// Hear implements [kernel.Listener]. What is noted stays until it has been looked at:
// at worst a start is looked at again that has not changed.
func (b *rule) Hear(s *kernel.Solver, place int32) bool {
	if s.False(b.Here) {
		return false
	}
	b.lookAt(b.of[place])
	return true
}

// Propagate implements [kernel.Propagator].
func (b *rule) Propagate(s *kernel.Solver) bool {
	if s.False(b.Here) {
		return true
	}
	here := s.True(b.Here)
	for i := b.Fixed; i < len(b.look); i++ {
		if b.look[i] && (!b.single(s, i) || here && !b.edge(s, i)) {
			return false
		}
		b.look[i] = false
	}
	if here && s.Fixed(b.Size) {
		return b.whole(s)
	}
	return true
}

// conclude states that the cost is at least v, from the premises in lits; that
// the job is not made where that is too much and it is still open.
func (b *rule) conclude(s *kernel.Solver, v, need int32) bool {
	if !s.True(b.Here) {
		if v < chain.Unreachable {
			b.lits = append(b.lits, b.Cost.Le(need-1))
		}
		return s.Enqueue(b.Here.Not(), s.Because(b.lits...))
	}
	b.lits = append(b.lits, b.Here)
	if v >= chain.Unreachable {
		return s.Fail(b.lits...)
	}
	return s.Enqueue(b.Cost.Ge(v), s.Because(b.lits...))
}
