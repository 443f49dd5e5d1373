package cp

import (
	"math/rand/v2"
	"sort"
)

// opening is what a plan starts from: what stock and jobs under way serve, and
// the orders for new jobs. Starts hold where an earlier plan had them.
type opening struct {
	stock  [][]Share
	serve  [][]Share // of each job under way
	starts [][]int   // likewise; nil for free
	orders []order
}

// chooseOpening covers each family by itself, and bounds the cost.
func (s *plan) chooseOpening() (opening, Cost) {
	m := s.m
	o := opening{stock: make([][]Share, len(m.Stocks)), serve: make([][]Share, len(m.Begun)), starts: make([][]int, len(m.Begun))}
	covers, bound := s.relax.cover(&s.schedule)
	for _, c := range covers {
		o.orders = append(o.orders, c.orders...)
		for _, given := range c.sources {
			if given.source.stock >= 0 {
				o.stock[given.source.stock] = given.shares
			} else {
				o.serve[given.source.begun] = given.shares
			}
		}
	}
	return o, bound
}

// hintedOpening is the earlier plan again, as far as the demands still want it;
// false when there is none.
func (s *plan) hintedOpening() (opening, bool) {
	m := s.m
	o := opening{stock: make([][]Share, len(m.Stocks)), serve: make([][]Share, len(m.Begun)), starts: make([][]int, len(m.Begun))}
	left := append([]int(nil), s.unmet...)
	for i := range m.Hints {
		h := &m.Hints[i]
		var shares []Share
		units := s.unitsOfHint(h)
		for _, sh := range h.Shares {
			if n := min(sh.Units, left[sh.Demand], units); n > 0 && (h.Stock < 0 || s.m.stockServes(h.Stock, sh.Demand)) {
				shares = addShare(shares, sh.Demand, n)
				left[sh.Demand] -= n
				units -= n
			}
		}
		switch {
		case h.Stock >= 0:
			o.stock[h.Stock] = shares
		case h.Begun >= 0:
			o.serve[h.Begun], o.starts[h.Begun] = shares, h.Starts
		case len(shares) > 0:
			o.orders = append(o.orders, order{h.Family, shares, h.Starts, h.Stood})
		}
	}
	s.spreadStock(&o, left)
	return o, len(m.Hints) > 0
}

// unitsOfHint is the most that a hint's job or stock can give now: it may have
// become less since the earlier plan.
func (s *plan) unitsOfHint(h *Hint) int {
	switch {
	case h.Stock >= 0:
		return s.m.Stocks[h.Stock].Units
	case h.Begun >= 0:
		return s.m.Begun[h.Begun].Mode.Units
	}
	return Infinite
}

// stockServes reports whether stock keeps until a demand is due.
func (m *Model) stockServes(i, d int) bool {
	st, dm := &m.Stocks[i], &m.Demands[d]
	return st.Ready <= dm.Due-dm.Ahead && dm.Due <= st.Ready+m.Families[st.Family].Keeps
}

// spreadStock gives what stock has left to what is left of the demands, the
// soonest due first.
func (s *plan) spreadStock(o *opening, left []int) {
	for i := range s.m.Stocks {
		st := &s.m.Stocks[i]
		units := st.Units - unitsOf(o.stock[i])
		for _, d := range s.prep.byDue[st.Family] {
			if n := min(units, left[d]); n > 0 && s.m.stockServes(i, d) {
				o.stock[i] = addShare(o.stock[i], d, n)
				left[d] -= n
				units -= n
			}
		}
	}
}

// firstPlan builds a plan from each opening in several orders and keeps the best:
// the earlier plan's when nothing is better.
func (s *plan) firstPlan(covered opening) *improver {
	var best *improver
	keep := func(im *improver) {
		if best == nil || im.cost.Less(best.cost) {
			best = im
		}
		s.spent = im.s.spent
	}
	if hinted, ok := s.hintedOpening(); ok {
		keep(s.build(hinted, 0))
	}
	for way := 0; way < 3; way++ {
		keep(s.build(covered, way))
	}
	best.s.spent = s.spent
	return best
}

// build places an opening beside nothing else: jobs under way first, then the
// orders in one of three ways, then whatever more fits.
func (s *plan) build(o opening, way int) *improver {
	n := s.emptied(s.m)
	n.homes, n.spent = s.homes, s.spent
	n.stocks = append([]StockPlan(nil), s.stocks...)
	im := &improver{s: n, focus: everywhere(), rng: rand.New(rand.NewPCG(20, 27))}
	for i := range s.m.Stocks {
		n.keepStock(i, o.stock[i])
	}
	n.beginAll(o.serve, o.starts)
	turn := append([]order(nil), o.orders...)
	sort.SliceStable(turn, func(i, k int) bool {
		a, b := n.m.windowOf(turn[i].family, turn[i].shares), n.m.windowOf(turn[k].family, turn[k].shares)
		switch way {
		case 0:
			return a.readyMax < b.readyMax
		case 1:
			return a.readyMax > b.readyMax
		default:
			return a.readyMax-a.readyMin < b.readyMax-b.readyMin
		}
	})
	var loose []order
	for _, or := range turn {
		if or.starts == nil {
			loose = append(loose, or)
			continue
		}
		if j, ok := n.placeAt(or.family, or.shares, or.starts, or.stood); ok {
			n.add(j)
		} else {
			loose = append(loose, or)
		}
	}
	for _, or := range loose {
		if j, ok := n.placeOrder(or.family, or.shares); ok {
			n.add(j)
		}
	}
	im.fillAll(nil)
	im.cost = n.cost()
	return im
}
