package search

import (
	"ripeby/schedule/cp/bound"
	"ripeby/schedule/cp/problem"
)

// regroup places the jobs of such a walk, in any order; what does not fit is left to
// fill.
func (im *improver) regroup(family int) {
	s := im.s
	c := bound.CoverLeft(&s.Schedule, family, im.focus)
	if len(c.Units) == 0 {
		return
	}
	c.FirstPass()
	im.placeAll(family, c.Sample(im.pick))
}

// placeAll places orders in any order, each as far as it is still to be served.
func (im *improver) placeAll(family int, orders []bound.Order) {
	s := im.s
	im.shuffle(len(orders), func(i, k int) { orders[i], orders[k] = orders[k], orders[i] })
	for _, o := range orders {
		var shares []problem.Share
		for _, sh := range o.Shares {
			if n := min(sh.Units, s.Unmet[sh.Demand]); n > 0 {
				shares = append(shares, problem.Share{Demand: sh.Demand, Units: n})
			}
		}
		if j, ok := s.PlaceOrder(family, shares); ok {
			s.Add(j)
		}
	}
}
