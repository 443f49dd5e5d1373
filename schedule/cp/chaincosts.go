package cp

import "ripeby/schedule/cp/global"

// chainCosts is what chains of one slot cost at the least with the kitchen to
// themselves, by the start of one activity:
//
//	through(i, t) = cheapest way to t  +  cheapest way on from t
//
// It bounds the bother of the job from the bounds of any one of its starts, and
// says which starts are out of the question.
type chainCosts struct {
	sizes []*sizeCosts
	lo    []int32 // of each activity, least first step over all sizes
	hi    []int32
	// least[i][k] has, by start, the least of through over the sizes from k on.
	least [][]costRow
	// starts[i][w] has, by size, the starts at which worker w can do the work, and those of
	// every larger size: what only a larger one has is let in, and found out by the chain.
	starts [][][][]global.Range
}

// tableShare is how many looks at a table are one unit of counted work, and lookUnits how many
// of those of placing and of the covers: the kernel does not do more in the time of one unit.
const (
	tableShare = 4
	lookUnits  = 4
)

// sizeCosts is the part of one size.
type sizeCosts struct {
	lo, hi []int32            // of each activity, in steps; lo > hi when there is no chain
	work   []int32            // length of each activity, in steps
	own    [][][]int32        // of each activity and worker, by start: what the work costs there
	any    [][]int32          // the least of own
	at     [][]int32          // starts at which somebody can work, of each activity, sorted
	can    [][]global.Range   // the same as a set
	open   [][][]global.Range // of each activity and worker; for what is nobody's work one that is all
	lags   [][]int32          // cost of each lag from the least on, in steps
	bands  [][]band           // the same, the cheapest first
	least  []int32            // least lag after each activity
	first  []int32            // cost of the lag that runs now, by start of the first open activity
}

// chainKey names the chains of a slot: of all new jobs with one last delivery, packed so
// long before it at the least, or of one job under way. With flat, all that can be costs
// nothing.
type chainKey struct {
	last  slotKey
	ahead int
	begun int
	flat  bool
}

// chainsOf gives the tables of a slot; false when there is no chain of any size. They
// do not go by the plan, so the model is stated again without working them out again.
func (s *schedule) chainsOf(g grid, p *prospect) (*chainCosts, bool) {
	key := chainKey{last: slotKey{p.family, p.due}, begun: p.begun, flat: s.flat}
	if p.begun < 0 {
		key.ahead = s.aheadOf(p.family, p.due)
	}
	c, known := s.prep.chains[key]
	if !known {
		var ok bool
		if c, ok = s.newChains(g, p); !ok {
			c = nil
		}
		s.prep.chains[key] = c
	}
	return c, c != nil
}

// newChains works the tables out.
func (s *schedule) newChains(g grid, p *prospect) (*chainCosts, bool) {
	n := p.acts()
	c := &chainCosts{lo: make([]int32, n), hi: make([]int32, n), least: make([][]costRow, n)}
	some, sets := false, s.flat
	for k := range p.modes {
		z := s.sizeCostsOf(g, p, k)
		c.sizes = append(c.sizes, z)
		if z.lo == nil {
			continue
		}
		for i := p.fixed; i < n; i++ {
			if !some || z.lo[i] < c.lo[i] {
				c.lo[i] = z.lo[i]
			}
			if !some || z.hi[i] > c.hi[i] {
				c.hi[i] = z.hi[i]
			}
		}
		some, sets = true, sets && z.fewBands()
	}
	switch {
	case !some:
		return c, false
	case sets:
		some = c.fillSets(p.fixed, s)
	default:
		c.fillRows(p.fixed, s)
		some = c.trim(p.fixed)
	}
	if some {
		c.nestStarts(p)
	}
	return c, some
}

// fillRows fills least, for all starts from lo to hi.
func (c *chainCosts) fillRows(fixed int, s *schedule) {
	through := make([][][]int32, len(c.sizes))
	for k, z := range c.sizes {
		if z.lo != nil {
			through[k] = z.through(fixed, s)
		}
	}
	for i := fixed; i < len(c.lo); i++ {
		width := int(c.hi[i]-c.lo[i]) + 1
		c.least[i] = make([]costRow, len(c.sizes))
		for k := len(c.sizes) - 1; k >= 0; k-- {
			row := make([]int32, width)
			for x := range row {
				row[x] = unreachable
				if k+1 < len(c.sizes) {
					row[x] = c.least[i][k+1].cost[x]
				}
			}
			if z := c.sizes[k]; z.lo != nil {
				for x, v := range through[k][i] {
					at := x + int(z.lo[i]-c.lo[i])
					row[at] = min(row[at], v)
				}
			}
			c.least[i][k].cost = row
		}
	}
}

// trim narrows lo and hi to starts that some chain has; false when there is none.
func (c *chainCosts) trim(fixed int) bool {
	for i := fixed; i < len(c.lo); i++ {
		row := c.least[i][0].cost
		a, b := 0, len(row)
		for a < b && row[a] >= unreachable {
			a++
		}
		for b > a && row[b-1] >= unreachable {
			b--
		}
		if a == b {
			return false
		}
		for k := range c.least[i] {
			c.least[i][k] = newCostRow(c.least[i][k].cost[a:b])
		}
		c.lo[i], c.hi[i] = c.lo[i]+int32(a), c.lo[i]+int32(b)-1
	}
	return true
}

// slotQuery asks for a chain of one size alone in the kitchen.
func (s *schedule) slotQuery(p *prospect, k int) *query {
	if p.begun >= 0 {
		return s.begunQuery(p.begun, nil)
	}
	w := window{p.due - s.m.Families[p.family].Keeps, p.due - s.aheadOf(p.family, p.due), p.due}
	return s.query(p.family, k, w)
}

// aheadOf is the least that a family's demands due at a moment are to be ready before it.
func (s *schedule) aheadOf(family, due int) int {
	ahead := Infinite
	for _, d := range s.prep.byDue[family] {
		if dm := &s.m.Demands[d]; dm.Due == due {
			ahead = min(ahead, dm.Ahead)
		}
	}
	return ahead
}

// sizeCostsOf fills the tables of one size; lo is nil when it has no chain.
func (s *schedule) sizeCostsOf(g grid, p *prospect, k int) *sizeCosts {
	mode := p.modes[k]
	n := len(mode.Acts)
	z := &sizeCosts{}
	q := s.slotQuery(p, k)
	if p.fixed < n && !s.ranges(q) {
		return z
	}
	z.own, z.any, z.at = make([][][]int32, n), make([][]int32, n), make([][]int32, n)
	z.can, z.open = make([][]global.Range, n), make([][][]global.Range, n)
	z.lags, z.least, z.work = make([][]int32, n), make([]int32, n), make([]int32, n)
	z.bands = make([][]band, n)
	lo, hi := make([]int32, n), make([]int32, n)
	spent := int64(0)
	for i := p.fixed; i < n; i++ {
		lo[i], hi[i] = g.up(q.lo[i]), g.down(q.hi[i])
		spent += s.takeWork(g, q, i, z)
		z.work[i] = g.long(mode.Acts[i].Work)
		if len(z.at[i]) == 0 {
			return z
		}
		if i < n-1 {
			lag := s.lagCosts(g, &mode.Acts[i])
			z.least[i], z.lags[i], z.bands[i] = lag.least, lag.cost, lag.bands
		}
	}
	if k := p.fixed; k > 0 && k < n {
		// The lag that runs began at any tick: by start of the next activity.
		lag, from := &mode.Acts[k-1].Lag, q.starts[k-1]+mode.Acts[k-1].Work
		for x := lo[k]; x <= hi[k]; x++ {
			z.first = append(z.first, costOfLag(lag, g.tick(x)-from))
		}
		if s.flat {
			flatten(z.first)
		}
	}
	s.spent += spent
	z.lo, z.hi = lo, hi
	return z
}

// through is the least cost of a chain through every start of every activity.
func (z *sizeCosts) through(fixed int, s *schedule) [][]int32 {
	n := len(z.at)
	out := make([][]int32, n)
	for i := fixed; i < n; i++ {
		out[i] = make([]int32, len(z.any[i]))
		for x := range out[i] {
			out[i][x] = unreachable
		}
		if i > fixed {
			z.fill(out[i-1], s)
		}
		for _, t := range z.at[i] {
			x := t - z.lo[i]
			v := z.any[i][x]
			switch {
			case i > fixed:
				v += z.cheapest(i-1, t, s)
			case fixed > 0:
				v += z.first[x]
			}
			out[i][x] = min(v, unreachable)
		}
	}
	rest := make([]int32, len(z.any[n-1]))
	for i := n - 2; i >= fixed; i-- {
		next := rest
		for x := range next {
			next[x] = min(next[x]+z.any[i+1][x], unreachable)
		}
		z.fill(next, s)
		rest = make([]int32, len(z.any[i]))
		for x := range rest {
			rest[x] = unreachable
		}
		for _, t := range z.at[i] {
			rest[t-z.lo[i]] = z.onward(i, t, s)
		}
		for x := range out[i] {
			out[i][x] = min(out[i][x]+rest[x], unreachable)
		}
	}
	return out
}

// fill makes the table answer for a row of costs by start.
func (z *sizeCosts) fill(row []int32, s *schedule) {
	s.prep.table.fill(row)
	s.spent += int64(len(row))/tableShare + 1
}

// cheapest is the least of the table, which has the costs before, and the lag after
// activity i, for its next one to start at t.
func (z *sizeCosts) cheapest(i int, t int32, s *schedule) int32 {
	return z.overLags(i, -1, int(t-z.work[i]-z.lo[i]), s)
}

// onward is the least cost after activity i started at t: its lag, and what the table
// has of the next activity.
func (z *sizeCosts) onward(i int, t int32, s *schedule) int32 {
	return z.overLags(i, 1, int(t+z.work[i]-z.lo[i+1]), s)
}

// overLags is the least of a lag's cost and the table's at so much after a place, or
// before it; the cheapest lags come first, and it ends when no dearer one could do
// better.
func (z *sizeCosts) overLags(i, way, at int, s *schedule) int32 {
	table := &s.prep.table
	least := int(z.least[i])
	floor := table.within(way, at, least, least+len(z.lags[i])-1)
	best, tried := unreachable, 0
	for x := range z.bands[i] {
		b := &z.bands[i][x]
		if floor >= unreachable || b.cost+floor >= best {
			break
		}
		tried++
		best = min(best, b.cost+table.within(way, at, int(b.from), int(b.to)))
	}
	s.spent += int64(tried)/tableShare + 1
	return best
}
