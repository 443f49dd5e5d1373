package global

import (
	"math"

	"ripeby/schedule/cp/kernel"
)

// noted is the things of a rule that woke it since it last came to rest: it looks at them, and at what
// they can meet. All else was at rest before the decision in force, and is so still.
//
// What is noted stays until the rule has come to rest: of a decision that was taken back at worst a
// thing is looked at again that has not changed.
type noted struct {
	is   []bool
	list []int32
}

// allNoted is so many things, all to be looked at.
func allNoted(n int) noted {
	c := noted{is: make([]bool, n)}
	for i := range n {
		c.note(int32(i))
	}
	return c
}

func (c *noted) note(i int32) {
	if !c.is[i] {
		c.is[i] = true
		c.list = append(c.list, i)
	}
}

// rest notes that nothing is left to look at.
func (c *noted) rest() {
	for _, i := range c.list {
		c.is[i] = false
	}
	c.list = c.list[:0]
}

// stretch is from a moment until another; noStretch is of no time.
type stretch struct{ from, until int32 }

var noStretch = stretch{math.MaxInt32, math.MinInt32}

func (a stretch) some() bool { return a.from < a.until }

// widen makes a stretch wide enough for another, if that is of any length.
func (a *stretch) widen(b stretch) {
	if b.some() {
		a.from, a.until = min(a.from, b.from), max(a.until, b.until)
	}
}

// meets reports whether two stretches have a moment in common.
func (a stretch) meets(b stretch) bool { return max(a.from, b.from) < min(a.until, b.until) }

// holds reports whether a moment is in the stretch.
func (a stretch) holds(at int32) bool { return a.from <= at && at < a.until }

// window is where a task may be, forced where it must run.
func (t *occupation) window(s *kernel.Solver) stretch {
	w := &t.seen[0]
	return stretch{w.from.least(s), max(w.until.most(s), w.from.most(s)+t.least)}
}

func (t *occupation) forced(s *kernel.Solver) stretch {
	w := &t.seen[0]
	return stretch{w.from.most(s), w.until.least(s)}
}
