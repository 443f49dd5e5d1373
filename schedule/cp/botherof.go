package cp

import (
	"sort"

	"ripeby/schedule/cp/kernel"
)

// botherOf keeps the bother of a slot at what its chain costs at the least, and
// its starts where a chain is cheap enough. First each start by itself, which
// needs one or two bounds as premises; then, where the size is known and little is
// left of the starts, the whole chain. It runs before what the kitchen has room for:
// most dead ends of a proof are found here.
type botherOf struct {
	sl   *slot
	of   []int  // the activity whose start each view that wakes it is of, or one of those below
	look []bool // activities whose single starts are to be looked at
	lits []kernel.Lit
	row  [2][]int32
}

// chainTries is how many pairs of starts of neighbouring activities the whole
// chain is worked out for; with more left open the single starts must do.
const chainTries = 4000

func (k *asked) addBother(sl *slot) {
	b := &botherOf{sl: sl, look: make([]bool, sl.acts())}
	var wake []kernel.View
	put := func(of int, views ...kernel.View) {
		for _, v := range views {
			wake, b.of = append(wake, v), append(b.of, of)
		}
	}
	put(allOfThem, sl.here.Up(), sl.size.Up(), sl.bother.Down())
	put(noneOfThem, sl.size.Down())
	for i := sl.fixed; i < sl.acts(); i++ {
		put(i, sl.start[i].Up(), sl.start[i].Down())
		for _, l := range sl.who[i] {
			put(noneOfThem, l.B, l.B.Opposite())
		}
	}
	b.lookAt(allOfThem)
	k.k.AddPropagator(b, 1, wake...)
}

// Views that are of no activity's start may matter for every one, or for the whole
// chain alone.
const (
	allOfThem  = -1
	noneOfThem = -2
)

func (b *botherOf) lookAt(of int) {
	switch of {
	case allOfThem:
		for i := b.sl.fixed; i < len(b.look); i++ {
			b.look[i] = true
		}
	case noneOfThem:
	default:
		b.look[of] = true
	}
}

// Hear implements [kernel.Listener]. What is noted stays until it has been looked at:
// at worst a start is looked at again that has not changed.
func (b *botherOf) Hear(s *kernel.Solver, place int32) bool {
	if s.False(b.sl.present()) {
		return false
	}
	b.lookAt(b.of[place])
	return true
}

// Propagate implements [kernel.Propagator].
func (b *botherOf) Propagate(s *kernel.Solver) bool {
	sl := b.sl
	if s.False(sl.present()) {
		return true
	}
	here := s.True(sl.present())
	for i := sl.fixed; i < sl.acts(); i++ {
		if b.look[i] && (!b.single(s, i) || here && !b.edge(s, i)) {
			return false
		}
		b.look[i] = false
	}
	if here && s.Fixed(sl.size) {
		return b.whole(s)
	}
	return true
}

// single bounds the bother by the bounds of one start.
func (b *botherOf) single(s *kernel.Solver, i int) bool {
	sl, c := b.sl, b.sl.chains
	size := s.Min(sl.size)
	row := c.least[i][size]
	last := int32(len(row.cost)) - 1
	lo, hi := max(s.Min(sl.start[i])-c.lo[i], 0), min(s.Max(sl.start[i])-c.lo[i], last)
	// Most calls end here: some start that is still open costs no more than is known.
	enough := s.Min(sl.bother)
	if !s.True(sl.present()) {
		enough = s.Max(sl.bother)
	}
	v := row.within(lo, hi, enough)
	if v <= enough {
		return true
	}
	// As weak as it can be: the bounds may go out while nothing cheaper is let in. Where
	// no chain is left at all, only past such starts: the reason then asks nothing of the bother.
	need := v
	if v < unreachable && !s.True(sl.present()) {
		need = min(v, s.Max(sl.bother)+1)
	}
	lo, _ = row.downward(lo-1, need-1)
	hi, _ = row.upward(hi+1, need-1)
	lo, hi = lo+1, hi-1
	b.lits = append(b.lits[:0], sl.size.Ge(size))
	if lo > 0 {
		b.lits = append(b.lits, sl.start[i].Ge(lo+c.lo[i]))
	}
	if hi < last {
		b.lits = append(b.lits, sl.start[i].Le(hi+c.lo[i]))
	}
	return b.conclude(s, v, need)
}

// conclude states that the bother is at least v, from the premises in lits; that
// the job is not made where that is too much and it is still open.
func (b *botherOf) conclude(s *kernel.Solver, v, need int32) bool {
	sl := b.sl
	if !s.True(sl.present()) {
		if v < unreachable {
			b.lits = append(b.lits, sl.bother.Le(need-1))
		}
		return s.Enqueue(sl.present().Not(), s.Because(b.lits...))
	}
	b.lits = append(b.lits, sl.present())
	if v >= unreachable {
		return s.Fail(b.lits...)
	}
	return s.Enqueue(sl.bother.Ge(v), s.Because(b.lits...))
}

// edge moves the bounds of one start past those that cost too much.
func (b *botherOf) edge(s *kernel.Solver, i int) bool {
	sl, c := b.sl, b.sl.chains
	size, most := s.Min(sl.size), s.Max(sl.bother)
	row := c.least[i][size]
	lo, hi := s.Min(sl.start[i])-c.lo[i], s.Max(sl.start[i])-c.lo[i]
	if x, least := row.upward(max(lo, 0), most); x > lo {
		from, _ := row.downward(lo-1, least-1)
		b.lits = append(b.lits[:0], sl.present(), sl.size.Ge(size), sl.start[i].Ge(from+1+c.lo[i]))
		if least < unreachable {
			b.lits = append(b.lits, sl.bother.Le(least-1))
		}
		if !s.Enqueue(sl.start[i].Ge(x+c.lo[i]), s.Because(b.lits...)) {
			return false
		}
	}
	if x, least := row.downward(min(hi, int32(len(row.cost))-1), most); x < hi {
		to, _ := row.upward(hi+1, least-1)
		b.lits = append(b.lits[:0], sl.present(), sl.size.Ge(size), sl.start[i].Le(to-1+c.lo[i]))
		if least < unreachable {
			b.lits = append(b.lits, sl.bother.Le(least-1))
		}
		return s.Enqueue(sl.start[i].Le(x+c.lo[i]), s.Because(b.lits...))
	}
	return true
}

// whole works out the cheapest chain within the bounds of all starts.
func (b *botherOf) whole(s *kernel.Solver) bool {
	sl := b.sl
	size := s.Min(sl.size)
	z := sl.chains.sizes[size]
	v := unreachable
	if z.lo != nil {
		var ok bool
		if v, ok = b.cheapest(s, z); !ok {
			return true
		}
	}
	if v <= s.Min(sl.bother) && v < unreachable {
		return true
	}
	b.lits = append(b.lits[:0], sl.size.Ge(size), sl.size.Le(size))
	for i := sl.fixed; i < sl.acts(); i++ {
		b.lits = append(b.lits, sl.start[i].Ge(s.Min(sl.start[i])), sl.start[i].Le(s.Max(sl.start[i])))
		for _, l := range sl.who[i] {
			if s.False(l) {
				b.lits = append(b.lits, l.Not())
			}
		}
	}
	return b.conclude(s, v, v)
}

// cheapest is the least cost of a chain within bounds; not ok when there are too
// many to look at.
func (b *botherOf) cheapest(s *kernel.Solver, z *sizeCosts) (int32, bool) {
	sl := b.sl
	n := sl.acts()
	before, tries := int32(0), int32(0)
	for i := sl.fixed; i < n; i++ {
		from, to := z.within(i, s.Min(sl.start[i]), s.Max(sl.start[i]))
		tries += int32(to-from) * before
		before = int32(to - from)
		if tries > chainTries {
			return 0, false
		}
	}
	row, next := b.row[0][:0], b.row[1][:0]
	prevFrom := 0
	for i := sl.fixed; i < n; i++ {
		from, to := z.within(i, s.Min(sl.start[i]), s.Max(sl.start[i]))
		next = next[:0]
		for x := from; x < to; x++ {
			t := z.at[i][x]
			v := b.ownAt(s, z, i, t)
			switch {
			case v >= unreachable:
			case i > sl.fixed:
				v = min(v+b.into(z, i, t, row, prevFrom), unreachable)
			case sl.fixed > 0:
				v = min(v+z.first[t-z.lo[i]], unreachable)
			}
			next = append(next, v)
		}
		row, next = next, row
		prevFrom = from
	}
	b.row[0], b.row[1] = row, next
	best := unreachable
	for _, v := range row {
		best = min(best, v)
	}
	return best, true
}

// within is the part of an activity's starts between two bounds.
func (z *sizeCosts) within(i int, lo, hi int32) (from, to int) {
	at := z.at[i]
	from = sort.Search(len(at), func(k int) bool { return at[k] >= lo })
	to = from + sort.Search(len(at)-from, func(k int) bool { return at[from+k] > hi })
	return from, to
}

// ownAt is what the work costs by those who may still do it.
func (b *botherOf) ownAt(s *kernel.Solver, z *sizeCosts, i int, t int32) int32 {
	x := t - z.lo[i]
	if len(z.own[i]) == 0 {
		return z.any[i][x]
	}
	v := unreachable
	for w, l := range b.sl.who[i] {
		if !s.False(l) {
			v = min(v, z.own[i][w][x])
		}
	}
	return v
}

// into is the least cost of the chain before activity i, which starts at t.
func (b *botherOf) into(z *sizeCosts, i int, t int32, row []int32, from int) int32 {
	cost := z.lags[i-1]
	latest := t - z.work[i-1] - z.least[i-1]
	best := unreachable
	at := z.at[i-1][from:]
	for x, v := range row {
		if lag := latest - at[x]; lag >= 0 && int(lag) < len(cost) {
			best = min(best, v+cost[lag])
		}
	}
	return best
}
