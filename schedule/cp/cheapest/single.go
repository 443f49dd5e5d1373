package cheapest

import (
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/kernel"
)

// single bounds the penalty by the bounds of one start.
func (b *rule) single(s *kernel.Solver, i int) bool {
	c := b.By
	size := s.Min(b.Size)
	row := c.Least[i][size]
	last := int32(len(row.Cost)) - 1
	lo, hi := max(s.Min(b.Start[i])-c.Lo[i], 0), min(s.Max(b.Start[i])-c.Lo[i], last)
	// Most calls end here: some start that is still open costs no more than is known.
	enough := s.Min(b.Cost)
	if !s.True(b.Here) {
		enough = s.Max(b.Cost)
	}
	v := row.Within(lo, hi, enough)
	if v <= enough {
		return true
	}
	// As weak as it can be: the bounds may go out while nothing cheaper is let in. Where
	// no chain is left at all, only past such starts: the reason then asks nothing of the penalty.
	need := v
	if v < chain.Unreachable && !s.True(b.Here) {
		need = min(v, s.Max(b.Cost)+1)
	}
	lo, _ = row.Downward(lo-1, need-1)
	hi, _ = row.Upward(hi+1, need-1)
	lo, hi = lo+1, hi-1
	b.lits = append(b.lits[:0], b.Size.Ge(size))
	if lo > 0 {
		b.lits = append(b.lits, b.Start[i].Ge(lo+c.Lo[i]))
	}
	if hi < last {
		b.lits = append(b.lits, b.Start[i].Le(hi+c.Lo[i]))
	}
	return b.conclude(s, v, need)
}

// edge moves the bounds of one start past those that cost too much.
func (b *rule) edge(s *kernel.Solver, i int) bool {
	c := b.By
	size, most := s.Min(b.Size), s.Max(b.Cost)
	row := c.Least[i][size]
	lo, hi := s.Min(b.Start[i])-c.Lo[i], s.Max(b.Start[i])-c.Lo[i]
	if x, least := row.Upward(max(lo, 0), most); x > lo {
		from, _ := row.Downward(lo-1, least-1)
		b.lits = append(b.lits[:0], b.Here, b.Size.Ge(size), b.Start[i].Ge(from+1+c.Lo[i]))
		if least < chain.Unreachable {
			b.lits = append(b.lits, b.Cost.Le(least-1))
		}
		if !s.Enqueue(b.Start[i].Ge(x+c.Lo[i]), s.Because(b.lits...)) {
			return false
		}
	}
	if x, least := row.Downward(min(hi, int32(len(row.Cost))-1), most); x < hi {
		to, _ := row.Upward(hi+1, least-1)
		b.lits = append(b.lits[:0], b.Here, b.Size.Ge(size), b.Start[i].Le(to-1+c.Lo[i]))
		if least < chain.Unreachable {
			b.lits = append(b.lits, b.Cost.Le(least-1))
		}
		return s.Enqueue(b.Start[i].Le(x+c.Lo[i]), s.Because(b.lits...))
	}
	return true
}
