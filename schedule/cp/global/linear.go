package global

import (
	"math"

	"ripeby/schedule/cp/kernel"
)

// Term is Times x the view's value, Times > 0 (use x.Down() for -x).
type Term struct {
	View  kernel.View
	Times int64
}

// linear keeps a weighted sum of views at most at a bound while literals hold.
//
//	least sum of the others + Times x view <= atMost
//
// What a sum is above the bound beyond need is taken off its premises: first whole
// terms are left out, then one is weakened. Cost: O(terms) a call.
type linear struct {
	terms  []Term
	root   []int32 // least value of each term with no decision: needs no reason
	atMost int64
	when   []kernel.Lit
	lits   []kernel.Lit
	out    []bool // terms left out of a reason
}

// AddLinear keeps the sum of the terms at most atMost while all literals of when are
// true. When exactly one of them is undecided and the least sum is too much, that
// literal becomes false. A term with negative Times counts as the opposite view with
// the positive, one with 0 as nothing. Sums must stay within 64 bits.
func AddLinear(s *kernel.Solver, terms []Term, atMost int64, when ...kernel.Lit) {
	l := &linear{atMost: atMost, when: distinct(when)}
	wake := onTrue(nil, l.when)
	for _, t := range terms {
		if t.Times < 0 {
			t.View, t.Times = t.View.Opposite(), -t.Times
		}
		if t.Times == 0 {
			continue
		}
		l.terms = append(l.terms, t)
		wake = append(wake, t.View)
	}
	l.out, l.root = make([]bool, len(l.terms)), make([]int32, len(l.terms))
	for i := range l.root {
		l.root[i] = math.MinInt32
	}
	l.rooted(s)
	s.AddPropagator(l, 0, once(wake)...)
}

// rooted notes the least values where no decision is in force.
func (l *linear) rooted(s *kernel.Solver) {
	if s.Level() > 0 {
		return
	}
	for i, t := range l.terms {
		l.root[i] = s.Low(t.View)
	}
}

// Propagate implements [kernel.Propagator].
func (l *linear) Propagate(s *kernel.Solver) bool {
	l.rooted(s)
	open, n := undecided(s, l.when)
	if n < 0 || n > 1 {
		return true
	}
	least := int64(0)
	for _, t := range l.terms {
		least += t.Times * int64(s.Low(t.View))
	}
	left := l.atMost - least
	switch {
	case left < 0 && n == 1:
		l.lits = but(l.lits[:0], l.when, open)
		l.explain(s, -1, -left-1)
		return s.Enqueue(open.Not(), s.Because(l.lits...))
	case left < 0:
		l.lits = append(l.lits[:0], l.when...)
		l.explain(s, -1, -left-1)
		return s.Fail(l.lits...)
	case n == 1:
		return true
	}
	return l.cap(s, left)
}

// cap lowers the views whose greatest value takes more than what is left.
func (l *linear) cap(s *kernel.Solver, left int64) bool {
	for i, t := range l.terms {
		low, high := int64(s.Low(t.View)), -int64(s.Low(t.View.Opposite()))
		if t.Times*(high-low) <= left {
			continue
		}
		most := low + left/t.Times
		l.lits = append(l.lits[:0], l.when...)
		l.explain(s, i, t.Times*(most+1-low)-left-1)
		if !s.Enqueue(kernel.Lit{B: t.View, V: int32(most + 1)}.Not(), s.Because(l.lits...)) {
			return false
		}
	}
	return true
}

// explain appends the least values of all terms but one, less what there is to
// spare.
func (l *linear) explain(s *kernel.Solver, except int, spare int64) {
	for i, t := range l.terms {
		low := s.Low(t.View)
		cost := t.Times * (int64(low) - int64(l.root[i]))
		l.out[i] = i == except || cost <= spare
		if i != except && cost <= spare {
			spare -= cost
		}
	}
	for i, t := range l.terms {
		if l.out[i] {
			continue
		}
		less := spare / t.Times
		spare -= less * t.Times
		l.lits = append(l.lits, kernel.Lit{B: t.View, V: s.Low(t.View) - int32(less)})
	}
}
