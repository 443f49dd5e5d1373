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
	ifs  [][]kernel.Lit // of each thing
	of   [][]int32      // things that each of the views that wake the rule is of
}

// allNoted is things that count while their literals are true, all to be looked at.
func allNoted(ifs [][]kernel.Lit) noted {
	c := noted{is: make([]bool, len(ifs)), ifs: ifs}
	for i := range ifs {
		c.note(int32(i))
	}
	return c
}

// notedTasks is the same of tasks.
func notedTasks(tasks []occupation) noted {
	ifs := make([][]kernel.Lit, len(tasks))
	for i := range tasks {
		ifs[i] = tasks[i].ifs
	}
	return allNoted(ifs)
}

// hear is [kernel.Listener] for the rule: what becomes of a thing matters once it is here or near.
func (c *noted) hear(s *kernel.Solver, place int32) bool {
	run := false
	for _, i := range c.of[place] {
		if nearly(s, c.ifs[i]) {
			c.note(i)
			run = true
		}
	}
	return run
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
