package cheapest

import (
	"sort"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/kernel"
)

// reached is a start and the least cost of a chain up to there, or from there on.
type reached struct{ t, v int32 }

// way is the cheapest chain that was found last.
type way struct {
	known      bool
	size, cost int32
	start      []int32
	who        []int // of each piece of work, -1 for what is nobody's
}

func newWay(n int) way { return way{start: make([]int32, n), who: make([]int, n)} }

// pairsMost is how many pairs of starts of neighbouring pieces of work the whole chain is worked out
// for, and pairsFew while nothing is asked of the cost; with more left open the single starts must do.
const (
	pairsMost = 400_000
	pairsFew  = 4_000
)

// whole bounds the cost by the cheapest chain within the bounds of all starts.
func (b *rule) whole(s *kernel.Solver) bool {
	size, enough, most := s.Min(b.Size), s.Min(b.Cost), s.Max(b.Cost)
	z := b.By.Sizes[size]
	b.lits = append(b.lits[:0], b.Size.Ge(size), b.Size.Le(size))
	if z.Lo == nil {
		return b.conclude(s, chain.Unreachable, chain.Unreachable)
	}
	if b.left(s, size, enough) || b.tooMany(s, z) {
		return true
	}
	v, last := b.forward(s, z, size, most)
	if v <= enough {
		return true
	}
	b.weaken(s, z, size, v, last)
	return b.conclude(s, v, v)
}

// left reports whether the cheapest chain found last may still be, and costs no more than enough.
func (b *rule) left(s *kernel.Solver, size, enough int32) bool {
	w := &b.best
	if !w.known || w.size != size || w.cost > enough {
		return false
	}
	for i := b.Fixed; i < len(b.Start); i++ {
		if t := w.start[i]; t < s.Min(b.Start[i]) || t > s.Max(b.Start[i]) {
			return false
		}
		if x := w.who[i]; x >= 0 && s.False(b.Who[i][x]) {
			return false
		}
	}
	return true
}

// tooMany reports whether there are too many starts to look at.
func (b *rule) tooMany(s *kernel.Solver, z *chain.SizeCosts) bool {
	before, pairs := 0, 0
	for i := b.Fixed; i < len(b.Start); i++ {
		from, to := z.Within(i, s.Min(b.Start[i]), s.Max(b.Start[i]))
		pairs += (to - from) * before
		before = to - from
	}
	return pairs > pairsMost || pairs > pairsFew && s.Max(b.Cost) >= b.most
}

// forward fills the rows with what costs no more than most, and gives the least cost of a chain; where
// there is none of no more than most, most + 1 and the piece of work up to which there is none. What
// the tables say costs more with all of the kitchen left is passed over.
func (b *rule) forward(s *kernel.Solver, z *chain.SizeCosts, size, most int32) (least int32, last int) {
	for i := b.Fixed; i < len(b.Start); i++ {
		from, to := z.Within(i, s.Min(b.Start[i]), s.Max(b.Start[i]))
		row := b.rows[i][:0]
		for _, t := range z.At[i][from:to] {
			if !b.cheap(i, size, t, most+1) {
				continue
			}
			if v := b.upTo(s, z, i, t, b.ownAt(s, z, i, t), most+1); v <= most {
				row = append(row, reached{t, v})
			}
		}
		if b.rows[i] = row; len(row) == 0 {
			return most + 1, i
		}
	}
	last = len(b.Start) - 1
	end := b.rows[last][0]
	for _, r := range b.rows[last] {
		if r.v < end.v {
			end = r
		}
	}
	b.remember(s, z, size, end)
	return end.v, last
}

// remember notes the cheapest chain, which ends with a start.
func (b *rule) remember(s *kernel.Solver, z *chain.SizeCosts, size int32, end reached) {
	w := &b.best
	w.known, w.size, w.cost = true, size, end.v
	t := end.t
	for i := len(b.Start) - 1; i >= b.Fixed; i-- {
		w.start[i], w.who[i] = t, -1
		own := chain.Unreachable
		for x := range z.Own[i] {
			if v := z.Own[i][x][t-z.Lo[i]]; v < own && !s.False(b.Who[i][x]) {
				own, w.who[i] = v, x
			}
		}
		if i > b.Fixed {
			_, t = b.before(s, z, i, t)
		}
	}
}

// cheap reports whether some chain through a start costs less than so much by the tables.
func (b *rule) cheap(i int, size, t, than int32) bool {
	row := b.By.Least[i][size].Cost
	x := t - b.By.Lo[i]
	return x >= 0 && int(x) < len(row) && row[x] < than
}

// ownAt is what the work costs by those who may still do it.
func (b *rule) ownAt(s *kernel.Solver, z *chain.SizeCosts, i int, t int32) int32 {
	x := t - z.Lo[i]
	if len(z.Own[i]) == 0 {
		return z.Any[i][x]
	}
	v := chain.Unreachable
	for w, l := range b.Who[i] {
		if !s.False(l) {
			v = min(v, z.Own[i][w][x])
		}
	}
	return v
}

// upTo is the least cost of a chain up to a start whose own work costs so much; it may be anything from
// than on where it is no less than that.
func (b *rule) upTo(s *kernel.Solver, z *chain.SizeCosts, i int, t, own, than int32) int32 {
	switch {
	case own >= than:
		return own
	case i > b.Fixed:
		v, _ := b.before(s, z, i, t)
		return own + v
	case i > 0:
		return own + z.First[t-z.Lo[i]]
	}
	return own
}

// before is the least cost of the chain before a start of a piece of work that is not the first, and
// the start of the one before it.
func (b *rule) before(s *kernel.Solver, z *chain.SizeCosts, i int, t int32) (least, at int32) {
	cost, row := z.Lags[i-1], b.rows[i-1]
	latest := t - z.Work[i-1] - z.Least[i-1]
	from := sort.Search(len(row), func(k int) bool { return row[k].t > latest-int32(len(cost)) })
	least = chain.Unreachable
	k := from
	for ; k < len(row) && row[k].t <= latest; k++ {
		lag := cost[latest-row[k].t]
		if z.Turns(i - 1) {
			lag = z.CostOf(i-1, row[k].t, t)
		}
		if v := row[k].v + lag; v < least {
			least, at = v, row[k].t
		}
	}
	s.Counted.Looks += int64(k - from)
	return least, at
}

// after is the least cost of the chain after a start of a piece of work that is not the last.
func (b *rule) after(s *kernel.Solver, z *chain.SizeCosts, i int, t int32) int32 {
	cost, row := z.Lags[i], b.next
	first := t + z.Work[i] + z.Least[i]
	from := sort.Search(len(row), func(k int) bool { return row[k].t >= first })
	least := chain.Unreachable
	k := from
	for ; k < len(row) && int(row[k].t-first) < len(cost); k++ {
		lag := cost[row[k].t-first]
		if z.Turns(i) {
			lag = z.CostOf(i, t, row[k].t)
		}
		least = min(least, row[k].v+lag)
	}
	s.Counted.Looks += int64(k - from)
	return least
}
