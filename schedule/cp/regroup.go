package cp

// Grouping anew: what the jobs of one family served that were taken out is shared
// among new jobs by a cheapest walk of its own, one drawn from all there are.

// coverLeft walks what is unmet of a family and due in a stretch.
func coverLeft(s *schedule, family int, within Span) *coverer {
	f := &s.m.Families[family]
	c := &coverer{s: s, family: family, serves: f.Serves, ahead: uneven(s.m, family), states: 1, modeFor: modeForUnits(f)}
	for _, d := range s.prep.byDue[family] {
		if within.holds(s.m.Demands[d].Due) {
			c.owe(d, s.unmet[d])
		}
	}
	c.inOrder()
	return c
}

// regroup places the jobs of such a walk, in any order; what does not fit is left to
// fill.
func (im *improver) regroup(family int) {
	s := im.s
	c := coverLeft(&s.schedule, family, im.focus)
	if len(c.units) == 0 {
		return
	}
	c.firstPass()
	im.placeAll(family, c.sample(im.pick))
}

// placeAll places orders in any order, each as far as it is still to be served.
func (im *improver) placeAll(family int, orders []order) {
	s := im.s
	im.shuffle(len(orders), func(i, k int) { orders[i], orders[k] = orders[k], orders[i] })
	for _, o := range orders {
		var shares []Share
		for _, sh := range o.shares {
			if n := min(sh.Units, s.unmet[sh.Demand]); n > 0 {
				shares = append(shares, Share{sh.Demand, n})
			}
		}
		if j, ok := s.placeOrder(family, shares); ok {
			s.add(j)
		}
	}
}
