package global

import "ripeby/schedule/cp/kernel"

// refuteMost is the most literals that a reason may have which says that a near task
// fits nowhere in its window. A longer one would hardly ever be met again, and the
// task is let be.
const refuteMost = 40

// refute makes the open literal of a near task false when the task would be too much:
// where it must run, or wherever it may.
func (c *cumulative) refute(s *kernel.Solver, i int32, open kernel.Lit) bool {
	t := &c.tasks[i]
	held := t.demand.least(s)
	if held == 0 || s.False(open) {
		return true
	}
	if t.least > 0 && held > c.capacity {
		c.lits = but(c.lits[:0], t.ifs, open)
		c.weigh(i, held, held-c.capacity-1)
		return s.Enqueue(open.Not(), s.Because(c.lits...))
	}
	if c.highest <= c.capacity-held {
		return true
	}
	w := &t.seen[0]
	begin, end := w.from.most(s), w.until.least(s)
	for k := c.at(begin); k < len(c.layout) && c.layout[k].from < end; k++ {
		p := &c.layout[k]
		if begin < end && p.height > c.capacity-held {
			x := middle(max(begin, p.from), min(end, p.until))
			c.lits = append(but(c.lits[:0], t.ifs, open), w.from.le(x), w.until.ge(x+1))
			c.blame(s, i, 0, x, x+1, c.capacity-p.gone, held)
			return s.Enqueue(open.Not(), s.Because(c.lits...))
		}
	}
	if t.least > 0 && c.nowhere(s, i, open) {
		return s.Enqueue(open.Not(), s.Because(c.lits...))
	}
	return true
}

// nowhere reports whether a near task of some length cannot begin anywhere between
// its bounds, with the reason in lits: stretches without room, each of which is
// reached from the end of the one before.
//
//	window      [..................]
//	no room   ████████   ████   ████████        gaps shorter than the least length
func (c *cumulative) nowhere(s *kernel.Solver, i int32, open kernel.Lit) bool {
	t := &c.tasks[i]
	w := &t.seen[0]
	held := t.demand.least(s)
	room := c.capacity - held
	begin, last := w.from.least(s), w.from.most(s)
	c.lits = but(c.lits[:0], t.ifs, open)
	first := true
	for k := c.at(begin); begin <= last; k++ {
		if k == len(c.layout) || c.layout[k].from >= begin+t.least || len(c.lits) > refuteMost {
			return false
		}
		p := &c.layout[k]
		if p.height <= room || p.until <= begin {
			continue
		}
		lo, hi := p.from, p.until
		if p.gone > max(0, room) {
			run := c.gone[0].run(p.from, room)
			lo, hi = run.From, run.Until
			c.weigh(i, held, run.Units+held-c.capacity-1)
		} else {
			hi = max(lo+1, min(hi, last+1)) // no later than need be
			c.blame(s, i, 0, lo, hi, c.capacity-p.gone, held)
		}
		if first {
			c.lits = append(c.lits, w.from.ge(lo-t.least+1))
			first = false
		}
		begin = hi
	}
	c.lits = append(c.lits, w.from.le(begin-1))
	return len(c.lits) <= refuteMost
}

// shrink lowers the size of a here task to what there is room for where it must run.
func (c *cumulative) shrink(s *kernel.Solver, i int32) bool {
	t := &c.tasks[i]
	if t.least > 0 && t.demand.most(s) > c.capacity {
		if !c.cap(s, i) {
			return false
		}
	}
	if !t.demand.sized() || !c.runs[i] || c.highest-c.held[i]+t.demand.most(s) <= c.capacity {
		return true
	}
	w := &t.seen[0]
	for k := c.at(c.begin[i]); k < len(c.layout) && c.layout[k].from < c.end[i]; k++ {
		p := &c.layout[k]
		room := c.capacity - c.others(i, p)
		if t.demand.most(s) <= room {
			continue
		}
		fit := t.demand.within(room)
		x := middle(p.from, p.until)
		c.lits = append(append(c.lits[:0], t.ifs...), w.from.le(x), w.until.ge(x+1))
		spare := c.choose(s, 0, x, x+1, c.capacity-p.gone-t.demand.of(fit+1), i)
		c.tell(s, 0, x, x+1, spare)
		if !s.Enqueue(t.demand.By.Le(fit), s.Because(c.lits...)) {
			return false
		}
	}
	return true
}

// cap lowers the size of a here task of some length to what the thing has at all.
func (c *cumulative) cap(s *kernel.Solver, i int32) bool {
	t := &c.tasks[i]
	fit := t.demand.within(c.capacity)
	if fit < 0 {
		return s.Fail(t.ifs...)
	}
	return s.Enqueue(t.demand.By.Le(fit), s.Because(t.ifs...))
}
