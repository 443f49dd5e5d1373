package global

import "ripeby/schedule/cp/kernel"

// choose picks here tasks that must run over all of [lo, hi) and together hold more
// than room, largest first, and gives what they hold beyond need. Task except is left
// out; there are enough without it.
func (c *cumulative) choose(s *kernel.Solver, d int, lo, hi, room, except int32) (spare int32) {
	c.chosen = c.chosen[:0]
	if room < 0 {
		return -room - 1
	}
	for _, i := range c.here {
		t := &c.tasks[i]
		if i == except || t.seen[d].from.most(s) > lo || t.seen[d].until.least(s) < hi {
			continue
		}
		units := t.demand.least(s)
		if units == 0 {
			continue
		}
		k := len(c.chosen)
		c.chosen = append(c.chosen, i)
		for k > 0 && c.tasks[c.chosen[k-1]].demand.least(s) < units {
			c.chosen[k] = c.chosen[k-1]
			k--
		}
		c.chosen[k] = i
	}
	sum := int32(0)
	for k, i := range c.chosen {
		sum += c.tasks[i].demand.least(s)
		if sum > room {
			c.chosen = c.chosen[:k+1]
			break
		}
	}
	return sum - room - 1
}

// tell appends why the chosen tasks hold what they do over [lo, hi), less what there
// is to spare.
func (c *cumulative) tell(s *kernel.Solver, d int, lo, hi, spare int32) {
	for _, i := range c.chosen {
		t := &c.tasks[i]
		c.lits = append(c.lits, t.ifs...)
		c.lits = append(c.lits, t.seen[d].from.le(lo), t.seen[d].until.ge(hi))
		spare = c.weigh(i, t.demand.least(s), spare)
	}
}

// weigh appends why task i holds so many units, less what there is to spare, and
// gives what is left to spare.
func (c *cumulative) weigh(i, units, spare int32) int32 {
	less := min(spare, units)
	var left int32
	c.lits, left = c.tasks[i].demand.sure(c.lits, units, less)
	return spare - less + left
}
