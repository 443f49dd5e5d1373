package search

import (
	"math/rand/v2"
	"sort"

	"ripeby/schedule/cp/bound"
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// opening is what a plan starts from: what stock and jobs under way serve, and
// the orders for new jobs. Starts hold where an earlier plan had them.
type opening struct {
	stock  [][]problem.Share
	serve  [][]problem.Share // of each job under way
	starts [][]int           // likewise; nil for free
	orders []bound.Order
}

// chooseOpening covers each family by itself, and bounds the cost.
func (s *Plan) chooseOpening() (opening, problem.Cost) {
	m := s.Model
	o := opening{stock: make([][]problem.Share, len(m.Stocks)), serve: make([][]problem.Share, len(m.Begun)), starts: make([][]int, len(m.Begun))}
	s.Relax.Most = relaxMost(s.Limit)
	covers, bound := s.Relax.Cover(&s.Schedule)
	for _, c := range covers {
		o.orders = append(o.orders, c.Orders...)
		for _, given := range c.Sources {
			if given.Source.Stock >= 0 {
				o.stock[given.Source.Stock] = given.Shares
			} else {
				o.serve[given.Source.Begun] = given.Shares
			}
		}
	}
	if s.Relax.Cut {
		s.spreadStock(&o, s.leftBy(&o))
	}
	return o, bound
}

// One part in relaxShare of the work goes to one relaxation at the most, and relaxFloor however
// little there is; what would take more is left out, and bounds less.
const (
	relaxShare = 8
	relaxFloor = 1_000_000
)

// relaxMost is the work that one relaxation may take.
func relaxMost(l chain.Limit) int64 { return max(l.Until/relaxShare, relaxFloor) }

// leftBy is what an opening leaves of each demand.
func (s *Plan) leftBy(o *opening) []int {
	left := append([]int(nil), s.Unmet...)
	take := func(shares []problem.Share) {
		for _, sh := range shares {
			left[sh.Demand] -= sh.Units
		}
	}
	for _, shares := range append(append([][]problem.Share(nil), o.stock...), o.serve...) {
		take(shares)
	}
	for _, or := range o.orders {
		take(or.Shares)
	}
	return left
}

// hintedOpening is the earlier plan again, as far as the demands still want it;
// false when there is none.
func (s *Plan) hintedOpening() (opening, bool) {
	m := s.Model
	o := opening{stock: make([][]problem.Share, len(m.Stocks)), serve: make([][]problem.Share, len(m.Begun)), starts: make([][]int, len(m.Begun))}
	left := append([]int(nil), s.Unmet...)
	for i := range m.Hints {
		h := &m.Hints[i]
		var shares []problem.Share
		units := s.unitsOfHint(h)
		for _, sh := range h.Shares {
			if n := min(sh.Units, left[sh.Demand], units); n > 0 && (h.Stock < 0 || s.Model.StockServes(h.Stock, sh.Demand)) {
				shares = problem.AddShare(shares, sh.Demand, n)
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
			o.orders = append(o.orders, bound.Order{Family: h.Family, Shares: shares, Hint: h})
		}
	}
	s.spreadStock(&o, left)
	return o, len(m.Hints) > 0
}

// unitsOfHint is the most that a hint's job or stock can give now: it may have
// become less since the earlier plan.
func (s *Plan) unitsOfHint(h *problem.Hint) int {
	switch {
	case h.Stock >= 0:
		return s.Model.Stocks[h.Stock].Units
	case h.Begun >= 0:
		return s.Model.Begun[h.Begun].Mode.Units
	}
	return problem.Infinite
}

// spreadStock gives what stock has left to what is left of the demands, the
// soonest due first.
func (s *Plan) spreadStock(o *opening, left []int) {
	for i := range s.Model.Stocks {
		st := &s.Model.Stocks[i]
		units := st.Units - problem.UnitsOf(o.stock[i])
		for _, d := range s.Prep.ByDue[st.Family] {
			if n := min(units, left[d]); n > 0 && s.Model.StockServes(i, d) {
				o.stock[i] = problem.AddShare(o.stock[i], d, n)
				left[d] -= n
				units -= n
			}
		}
	}
}

// firstPlan builds a plan from each opening in several orders and keeps the best:
// the earlier plan's when nothing is better.
func (s *Plan) firstPlan(covered opening) *improver {
	var best *improver
	keep := func(im *improver) {
		if best == nil || im.cost.Less(best.cost) {
			best = im
		}
		s.Spent = im.s.Spent
	}
	if hinted, ok := s.hintedOpening(); ok {
		keep(s.build(hinted, 0))
	}
	for way := 0; way < 3 && (best == nil || !s.Over()); way++ {
		keep(s.build(covered, way))
	}
	best.s.Spent = s.Spent
	return best
}

// build places an opening beside nothing else: jobs under way first, then the
// orders in one of three ways, then whatever more fits.
func (s *Plan) build(o opening, way int) *improver {
	n := s.Emptied(s.Model)
	n.Homes, n.Spent = s.Homes, s.Spent
	n.Stocks = append([]problem.StockPlan(nil), s.Stocks...)
	im := &improver{s: n, focus: problem.Always(), rng: rand.New(rand.NewPCG(20, 27))}
	for i := range s.Model.Stocks {
		n.KeepStock(i, o.stock[i])
	}
	n.carrier().All(o.serve, o.starts)
	turn := append([]bound.Order(nil), o.orders...)
	sort.SliceStable(turn, func(i, k int) bool {
		a, b := n.Model.WindowOf(turn[i].Family, turn[i].Shares), n.Model.WindowOf(turn[k].Family, turn[k].Shares)
		switch way {
		case 0:
			return a.ReadyMax < b.ReadyMax
		case 1:
			return a.ReadyMax > b.ReadyMax
		default:
			return a.ReadyMax-a.ReadyMin < b.ReadyMax-b.ReadyMin
		}
	})
	for _, or := range n.putBack(turn) {
		if n.OutOfWork() {
			break
		}
		if j, ok := n.PlaceOrder(or.Family, or.Shares); ok {
			n.Add(j)
		}
	}
	im.fillAll(nil)
	im.cost = n.Cost()
	return im
}
