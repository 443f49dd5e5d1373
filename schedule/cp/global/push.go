package global

import "ripeby/schedule/cp/kernel"

// longSteps is how many times its least length a task is moved past one level by
// reasons of a single moment each; past a longer level it goes in one step, for a
// reason of the whole level.
const longSteps = 4

// push moves a here task's earliest begin past the levels that it does not fit on.
// Beginning at v it occupies [v, v+least), and [v, earliest end) too.
func (c *cumulative) push(s *kernel.Solver, i int32, d int) bool {
	t := &c.tasks[i]
	w := &t.seen[d]
	held := t.demand.least(s)
	room := c.capacity - held
	if held == 0 || c.highest <= room || w.from.least(s) == w.from.most(s) {
		return true
	}
	for k := c.at(w.from.least(s)); k < len(c.layout); k++ {
		p := &c.layout[k]
		high := c.others(i, p) > room
		for {
			begin := w.from.least(s)
			end := max(begin+t.least, w.until.least(s))
			if p.from >= end {
				return true
			}
			if !high || max(begin, p.from) >= min(p.until, end) {
				break
			}
			if !c.step(s, i, d, p, begin, end) {
				return false
			}
		}
	}
	return true
}

// step moves task i, which now begins at begin at the earliest and then occupies all
// until end, on over a level that it does not fit on.
func (c *cumulative) step(s *kernel.Solver, i int32, d int, p *level, begin, end int32) bool {
	t := &c.tasks[i]
	w := &t.seen[d]
	held := t.demand.least(s)
	c.lits = append(c.lits[:0], t.ifs...)
	if p.gone > max(0, c.capacity-held) {
		run := c.gone[d].run(p.from, c.capacity-held)
		c.weigh(i, held, run.Units+held-c.capacity-1)
		if t.least == 0 {
			run.Until = min(run.Until, w.until.least(s))
		}
		return c.past(s, i, d, begin, run.From, run.Until)
	}
	free := c.capacity - p.gone
	if t.least > 0 && p.until-min(p.until, end) > longSteps*t.least {
		c.blame(s, i, d, p.from, p.until, free, held)
		return c.past(s, i, d, begin, p.from, p.until)
	}
	x := min(p.until, end) - 1
	c.blame(s, i, d, x, x+1, free, held)
	if begin+t.least > x {
		c.lits = append(c.lits, w.from.ge(x-t.least+1))
	} else {
		c.lits = append(c.lits, w.until.ge(x+1))
	}
	return s.Enqueue(w.from.ge(x+1), s.Because(c.lits...))
}

// past moves task i past the stretch [lo, hi), no moment of which it can be on: a
// task of some length that begins in it, or before it and ends after its first
// moment, is on one. One that may be of no length is on those before its end.
func (c *cumulative) past(s *kernel.Solver, i int32, d int, begin, lo, hi int32) bool {
	t := &c.tasks[i]
	w := &t.seen[d]
	switch {
	case t.least == 0:
		c.lits = append(c.lits, w.until.ge(hi))
	case begin+t.least > lo:
		c.lits = append(c.lits, w.from.ge(lo-t.least+1))
	default:
		c.lits = append(c.lits, w.until.ge(lo+1))
	}
	return s.Enqueue(w.from.ge(hi), s.Because(c.lits...))
}

// blame appends why task i, with so many units held, has no room on [lo, hi) beside
// the others, where so many units are free for all.
func (c *cumulative) blame(s *kernel.Solver, i int32, d int, lo, hi, free, held int32) {
	spare := c.choose(s, d, lo, hi, free-held, i)
	spare = c.weigh(i, held, spare)
	c.tell(s, d, lo, hi, spare)
}
