package global

import (
	"math"

	"ripeby/schedule/cp/kernel"
)

// level is a stretch of time with one height of what must run and what is taken, and
// what of it is taken.
type level struct{ from, until, height, gone int32 }

// lay lays out what must run and what is taken in the stretch that is looked at; false when that is too
// much.
func (c *cumulative) lay(s *kernel.Solver) bool {
	Resort(c.byBegin, c.begin)
	Resort(c.byEnd, c.end)
	c.layout, c.highest, c.backward = c.layout[:0], 0, false
	taken := c.gone[0].within(c.stretch)
	held, units := int32(0), int32(0)
	i, k, g := c.next(c.byBegin, 0), c.next(c.byEnd, 0), 0
	running := false // the last level has no end yet
	for k < len(c.byEnd) || g < len(taken) {
		at := int32(math.MaxInt32)
		if g < len(taken) {
			at = taken[g].From
			if units > 0 {
				at = taken[g].Until
			}
		}
		if i < len(c.byBegin) {
			at = min(at, c.begin[c.byBegin[i]])
		}
		if k < len(c.byEnd) {
			at = min(at, c.end[c.byEnd[k]])
		}
		if running && !c.ends(s, at) {
			return false
		}
		for ; i < len(c.byBegin) && c.begin[c.byBegin[i]] == at; i = c.next(c.byBegin, i+1) {
			held += c.held[c.byBegin[i]]
		}
		for ; k < len(c.byEnd) && c.end[c.byEnd[k]] == at; k = c.next(c.byEnd, k+1) {
			held -= c.held[c.byEnd[k]]
		}
		if units > 0 && taken[g].Until == at {
			units = 0
			g++
		}
		if units == 0 && g < len(taken) && taken[g].From == at {
			units = taken[g].Units
		}
		running = held+units > 0
		if running {
			c.layout = append(c.layout, level{at, at, held + units, units})
			c.highest = max(c.highest, held+units)
		}
	}
	return true
}

// ends gives the last level its end; false when the tasks on it are too much.
func (c *cumulative) ends(s *kernel.Solver, at int32) bool {
	p := &c.layout[len(c.layout)-1]
	p.until = at
	if p.height <= c.capacity { // so it is where all is taken and nothing held
		return true
	}
	x := middle(p.from, p.until)
	spare := c.choose(s, 0, x, x+1, c.capacity-p.gone, -1)
	c.lits = c.lits[:0]
	c.tell(s, 0, x, x+1, spare)
	return s.Fail(c.lits...)
}

// next is the place from k on of a task of the list that must run at all.
func (c *cumulative) next(list []int32, k int) int {
	for k < len(list) && !c.runs[list[k]] {
		k++
	}
	return k
}

// middle is a moment in the middle of [from, until).
func middle(from, until int32) int32 { return from + (until-from-1)/2 }

// turn turns the layout round.
func (c *cumulative) turn() {
	n := len(c.layout)
	for i := 0; i < (n+1)/2; i++ {
		a, b := &c.layout[i], &c.layout[n-1-i]
		*a, *b = *b, *a
		a.from, a.until = -a.until, -a.from
		if a != b {
			b.from, b.until = -b.until, -b.from
		}
	}
	c.backward = !c.backward
}

// at is the first level that ends after a moment, in the direction of the layout.
func (c *cumulative) at(moment int32) int {
	lo, hi := 0, len(c.layout)
	for lo < hi {
		mid := (lo + hi) / 2
		if c.layout[mid].until <= moment {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// others is the height of a level without a task's own part of it.
func (c *cumulative) others(i int32, p *level) int32 {
	if !c.runs[i] {
		return p.height
	}
	begin, end := c.begin[i], c.end[i]
	if c.backward {
		begin, end = -end, -begin
	}
	if begin <= p.from && p.from < end {
		return p.height - c.held[i]
	}
	return p.height
}
