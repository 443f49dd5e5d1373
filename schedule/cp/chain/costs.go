package chain

import (
	"slices"

	"ripeby/schedule/cp/lags"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/steps"
)

// Costs is what chains of one slot cost at the least with the kitchen to
// themselves, by the start of one activity:
//
//	through(i, t) = cheapest way to t  +  cheapest way on from t
//
// It bounds the penalty of the job from the bounds of any one of its starts, and
// says which starts are out of the question.
type Costs struct {
	Sizes []*SizeCosts
	Lo    []int32 // of each activity, least first step over all sizes
	Hi    []int32
	// least[i][k] has, by start, the least of through over the sizes from k on.
	Least [][]Row
	// starts[i][w] has, by size, the starts at which worker w can do the work, and those of
	// every larger size: what only a larger one has is let in, and found out by the chain.
	Starts [][][][]steps.Range
}

// tableShare is how many looks at a table are one unit of counted work, and LookUnits how many
// of those of placing and of the covers: the kernel does not do more in the time of one unit.
const (
	tableShare = 4
	LookUnits  = 4
)

// SizeCosts is the part of one size.
type SizeCosts struct {
	Lo, hi []int32           // of each activity, in steps; lo > hi when there is no chain
	Work   []int32           // length of each activity, in steps
	Own    [][][]int32       // of each activity and worker, by start: what the work costs there
	Any    [][]int32         // the least of own
	At     [][]int32         // starts at which somebody can work, of each activity, sorted
	can    [][]steps.Range   // the same as a set
	open   [][][]steps.Range // of each activity and worker; for what is nobody's work one that is all
	Lags   [][]int32         // cost of each lag from the least on, in steps
	lags   []*lags.Table     // the same as a table
	Least  []int32           // least lag after each activity
	turns  [][]lagTurn       // its turns; nil where it has none
	First  []int32           // cost of the lag that runs now, by start of the first open activity
}

// Key names the chains of a slot: of all new jobs with one last delivery, packed so
// long before it at the least, or of one job under way. With flat, all that can be costs
// nothing.
type Key struct {
	last  problem.Delivery
	ahead int
	Begun int
	flat  bool
	by    measure
}

// ChainsOf gives the tables of a slot; false when there is no chain of any size. They
// do not go by the plan, so the model is stated again without working them out again.
func (s *Schedule) ChainsOf(g problem.Grid, p *Prospect) (*Costs, bool) {
	return s.chainsBy(g, p, bother)
}

// LatenessOf gives the tables of how late a slot's chains are at the least; nil where none can be
// late.
func (s *Schedule) LatenessOf(g problem.Grid, p *Prospect) *Costs {
	for i := max(p.Fixed-1, 0); i < p.Acts()-1; i++ {
		if p.Modes[0].Acts[i].Lag.MostLate() > 0 {
			c, _ := s.chainsBy(g, p, lateness)
			return c
		}
	}
	return nil
}

func (s *Schedule) chainsBy(g problem.Grid, p *Prospect, by measure) (*Costs, bool) {
	key := Key{last: problem.Delivery{Family: p.Family, Due: p.Due}, Begun: p.Begun, flat: s.Flat && by == bother, by: by}
	if p.Begun < 0 {
		key.ahead = s.aheadOf(p.Family, p.Due)
	}
	c, known := s.Prep.Chains[key]
	if !known {
		var ok bool
		if c, ok = s.newChains(g, p, by); !ok {
			c = nil
		}
		s.Prep.Chains[key] = c
	}
	return c, c != nil
}

// newChains works the tables out.
func (s *Schedule) newChains(g problem.Grid, p *Prospect, by measure) (*Costs, bool) {
	n := p.Acts()
	c := &Costs{Lo: make([]int32, n), Hi: make([]int32, n), Least: make([][]Row, n)}
	some, sets := false, s.Flat && by == bother
	for k := range p.Modes {
		z := s.sizeCostsOf(g, p, k, by)
		c.Sizes = append(c.Sizes, z)
		if z.Lo == nil {
			continue
		}
		for i := p.Fixed; i < n; i++ {
			if !some || z.Lo[i] < c.Lo[i] {
				c.Lo[i] = z.Lo[i]
			}
			if !some || z.hi[i] > c.Hi[i] {
				c.Hi[i] = z.hi[i]
			}
		}
		some, sets = true, sets && z.fewBands()
	}
	switch {
	case !some:
		return c, false
	case sets:
		some = c.fillSets(p.Fixed, s)
	default:
		c.fillRows(p.Fixed, s)
		some = c.trim(p.Fixed)
	}
	if some {
		c.nestStarts(p)
	}
	return c, some
}

// fillRows fills least, for all starts from lo to hi.
func (c *Costs) fillRows(fixed int, s *Schedule) {
	through := make([][][]int32, len(c.Sizes))
	took := int64(0) // work of the size before: it counts for each
	for k, z := range c.Sizes {
		switch {
		case z.Lo == nil:
		case k > 0 && z.like(c.Sizes[k-1]):
			through[k] = through[k-1]
			s.Spent += took
		default:
			before := s.Spent
			through[k] = z.through(fixed, s)
			took = s.Spent - before
		}
	}
	for i := fixed; i < len(c.Lo); i++ {
		width := int(c.Hi[i]-c.Lo[i]) + 1
		c.Least[i] = make([]Row, len(c.Sizes))
		for k := len(c.Sizes) - 1; k >= 0; k-- {
			row := make([]int32, width)
			for x := range row {
				row[x] = Unreachable
				if k+1 < len(c.Sizes) {
					row[x] = c.Least[i][k+1].Cost[x]
				}
			}
			if z := c.Sizes[k]; z.Lo != nil {
				for x, v := range through[k][i] {
					at := x + int(z.Lo[i]-c.Lo[i])
					row[at] = min(row[at], v)
				}
			}
			c.Least[i][k].Cost = row
		}
	}
}

// trim narrows lo and hi to starts that some chain has; false when there is none.
func (c *Costs) trim(fixed int) bool {
	for i := fixed; i < len(c.Lo); i++ {
		row := c.Least[i][0].Cost
		a, b := 0, len(row)
		for a < b && row[a] >= Unreachable {
			a++
		}
		for b > a && row[b-1] >= Unreachable {
			b--
		}
		if a == b {
			return false
		}
		for k := range c.Least[i] {
			c.Least[i][k] = newRow(c.Least[i][k].Cost[a:b])
		}
		c.Lo[i], c.Hi[i] = c.Lo[i]+int32(a), c.Lo[i]+int32(b)-1
	}
	return true
}

// slotQuery asks for a chain of one size alone in the kitchen.
func (s *Schedule) slotQuery(p *Prospect, k int) *query {
	if p.Begun >= 0 {
		return s.BegunQuery(p.Begun, nil)
	}
	w := problem.Window{ReadyMin: p.Due - s.Model.Families[p.Family].Keeps, ReadyMax: p.Due - s.aheadOf(p.Family, p.Due), End: p.Due}
	return s.Query(p.Family, k, w)
}

// aheadOf is the least that a family's demands due at a moment are to be ready before it.
func (s *Schedule) aheadOf(family, due int) int {
	ahead := problem.Infinite
	for _, d := range s.Prep.ByDue[family] {
		if dm := &s.Model.Demands[d]; dm.Due == due {
			ahead = min(ahead, dm.Ahead)
		}
	}
	return ahead
}

// sizeCostsOf fills the tables of one size; lo is nil when it has no chain.
func (s *Schedule) sizeCostsOf(g problem.Grid, p *Prospect, k int, by measure) *SizeCosts {
	mode := p.Modes[k]
	n := len(mode.Acts)
	z := &SizeCosts{}
	q := s.slotQuery(p, k)
	q.measure = by
	if p.Fixed < n && !s.Ranges(q) {
		return z
	}
	z.Own, z.Any, z.At = make([][][]int32, n), make([][]int32, n), make([][]int32, n)
	z.can, z.open = make([][]steps.Range, n), make([][][]steps.Range, n)
	z.Lags, z.Least, z.Work = make([][]int32, n), make([]int32, n), make([]int32, n)
	z.lags, z.turns = make([]*lags.Table, n), make([][]lagTurn, n)
	lo, hi := make([]int32, n), make([]int32, n)
	spent := int64(0)
	for i := p.Fixed; i < n; i++ {
		lo[i], hi[i] = g.Up(q.Lo[i]), g.Down(q.Hi[i])
		spent += s.takeWork(g, q, i, z)
		z.Work[i] = g.Long(mode.Acts[i].Work)
		if len(z.At[i]) == 0 {
			return z
		}
		if i < n-1 {
			lag := s.lagOf(&mode.Acts[i], by)
			z.Least[i], z.Lags[i], z.lags[i] = int32(lag.Least), lag.Costs(), lag
			z.turns[i] = s.lagTurnsOf(g, &mode.Acts[i], by)
		}
	}
	if k := p.Fixed; k > 0 && k < n {
		// The lag that runs began at any tick: by start of the next activity.
		from := q.starts[k-1] + mode.Acts[k-1].Work
		lag := mode.Acts[k-1].Lag.At(from)
		for x := lo[k]; x <= hi[k]; x++ {
			c := costOfLag(lag, g.Tick(x)-from)
			if c < Unreachable && by == lateness {
				c = int32(lag.LateOf(g.Tick(x) - from))
			}
			z.First = append(z.First, c)
		}
		if s.Flat && by == bother {
			lags.Flatten(z.First)
		}
	}
	s.Spent += spent
	z.Lo, z.hi = lo, hi
	return z
}

// like reports whether two sizes of a new job have the same chains at the same cost: many differ
// by less than a step of work.
func (z *SizeCosts) like(o *SizeCosts) bool {
	same := len(z.First) == 0 && o.Lo != nil && slices.Equal(z.Lo, o.Lo) && slices.Equal(z.hi, o.hi) && slices.Equal(z.Work, o.Work) && slices.Equal(z.lags, o.lags)
	for i := range z.Any {
		same = same && len(z.Any[i]) == len(o.Any[i]) && (len(z.Any[i]) == 0 || &z.Any[i][0] == &o.Any[i][0])
	}
	return same
}

// through is the least cost of a chain through every start of every activity.
func (z *SizeCosts) through(fixed int, s *Schedule) [][]int32 {
	n := len(z.At)
	out := make([][]int32, n)
	for i := fixed; i < n; i++ {
		out[i] = make([]int32, len(z.Any[i]))
		for x := range out[i] {
			out[i][x] = Unreachable
		}
		var before []int32 // by place in at
		if i > fixed {
			before = z.cheapestInto(i, out[i-1], s)
		}
		for k, t := range z.At[i] {
			x := t - z.Lo[i]
			v := z.Any[i][x]
			switch {
			case i > fixed:
				v += before[k]
			case fixed > 0:
				v += z.First[x]
			}
			out[i][x] = min(v, Unreachable)
		}
	}
	rest := make([]int32, len(z.Any[n-1]))
	for i := n - 2; i >= fixed; i-- {
		next := rest
		for x := range next {
			next[x] = min(next[x]+z.Any[i+1][x], Unreachable)
		}
		onward := z.cheapestOn(i, next, s)
		rest = make([]int32, len(z.Any[i]))
		for x := range rest {
			rest[x] = Unreachable
		}
		for k, t := range z.At[i] {
			rest[t-z.Lo[i]] = onward[k]
		}
		for x := range out[i] {
			out[i][x] = min(out[i][x]+rest[x], Unreachable)
		}
	}
	return out
}

// leastSums is, for each of some starts, the least of a lag's cost and of a
// row's, whose places are so much further on; it holds until it is asked for the next.
func (z *SizeCosts) leastSums(at []int32, lag *lags.Table, way int, row []int32, shift int32, s *Schedule) []int32 {
	f := &s.Prep.sums
	f.Over(lag, way, row)
	for _, t := range at {
		f.Add(int(t+shift), len(row)-1)
	}
	f.Find(Unreachable)
	s.Spent += f.Looks/tableShare + 1
	return f.Out
}
