package statement

import (
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/kernel"
)

// penalties keeps the penalty of a slot, or how late it is, at what its chain costs at the least, and
// its starts where a chain is cheap enough. First each start by itself, which
// needs one or two bounds as premises; then, where the size is known and little is
// left of the starts, the whole chain. It runs before what the kitchen has room for:
// most dead ends of a proof are found here.
type penalties struct {
	sl   *Slot
	cost kernel.Var
	by   *chain.Costs // what chains cost of it
	of   []int        // the activity whose start each view that wakes it is of, or one of those below
	look []bool       // activities whose single starts are to be looked at
	lits []kernel.Lit
	row  [2][]int32
}

// chainTries is how many pairs of starts of neighbouring activities the whole
// chain is worked out for; with more left open the single starts must do.
const chainTries = 4000

func (k *Statement) addPenalty(sl *Slot) {
	k.addMeasure(sl, sl.Penalty, sl.chains)
	if late := k.Schedule.LatenessOf(k.Grid, &sl.Prospect); late != nil {
		sl.Late = k.Kernel.NewVar(0, plenty)
		k.addMeasure(sl, sl.Late, late)
	}
}

// addMeasure keeps a cost of a slot at what its chains come to by the tables.
func (k *Statement) addMeasure(sl *Slot, cost kernel.Var, by *chain.Costs) {
	b := &penalties{sl: sl, cost: cost, by: by, look: make([]bool, sl.Acts())}
	var wake []kernel.View
	put := func(of int, views ...kernel.View) {
		for _, v := range views {
			wake, b.of = append(wake, v), append(b.of, of)
		}
	}
	put(allOfThem, sl.Here.Up(), sl.Size.Up(), b.cost.Down())
	put(noneOfThem, sl.Size.Down())
	for i := sl.Fixed; i < sl.Acts(); i++ {
		put(i, sl.Start[i].Up(), sl.Start[i].Down())
		for _, l := range sl.Who[i] {
			put(noneOfThem, l.B, l.B.Opposite())
		}
	}
	b.lookAt(allOfThem)
	k.Kernel.AddPropagator(b, 1, wake...)
}

// Views that are of no activity's start may matter for every one, or for the whole
// chain alone.
const (
	allOfThem  = -1
	noneOfThem = -2
)

func (b *penalties) lookAt(of int) {
	switch of {
	case allOfThem:
		for i := b.sl.Fixed; i < len(b.look); i++ {
			b.look[i] = true
		}
	case noneOfThem:
	default:
		b.look[of] = true
	}
}

// Hear implements [kernel.Listener]. What is noted stays until it has been looked at:
// at worst a start is looked at again that has not changed.
func (b *penalties) Hear(s *kernel.Solver, place int32) bool {
	if s.False(b.sl.Present()) {
		return false
	}
	b.lookAt(b.of[place])
	return true
}

// Propagate implements [kernel.Propagator].
func (b *penalties) Propagate(s *kernel.Solver) bool {
	sl := b.sl
	if s.False(sl.Present()) {
		return true
	}
	here := s.True(sl.Present())
	for i := sl.Fixed; i < sl.Acts(); i++ {
		if b.look[i] && (!b.single(s, i) || here && !b.edge(s, i)) {
			return false
		}
		b.look[i] = false
	}
	if here && s.Fixed(sl.Size) {
		return b.whole(s)
	}
	return true
}

// single bounds the penalty by the bounds of one start.
func (b *penalties) single(s *kernel.Solver, i int) bool {
	sl, c := b.sl, b.by
	size := s.Min(sl.Size)
	row := c.Least[i][size]
	last := int32(len(row.Cost)) - 1
	lo, hi := max(s.Min(sl.Start[i])-c.Lo[i], 0), min(s.Max(sl.Start[i])-c.Lo[i], last)
	// Most calls end here: some start that is still open costs no more than is known.
	enough := s.Min(b.cost)
	if !s.True(sl.Present()) {
		enough = s.Max(b.cost)
	}
	v := row.Within(lo, hi, enough)
	if v <= enough {
		return true
	}
	// As weak as it can be: the bounds may go out while nothing cheaper is let in. Where
	// no chain is left at all, only past such starts: the reason then asks nothing of the penalty.
	need := v
	if v < chain.Unreachable && !s.True(sl.Present()) {
		need = min(v, s.Max(b.cost)+1)
	}
	lo, _ = row.Downward(lo-1, need-1)
	hi, _ = row.Upward(hi+1, need-1)
	lo, hi = lo+1, hi-1
	b.lits = append(b.lits[:0], sl.Size.Ge(size))
	if lo > 0 {
		b.lits = append(b.lits, sl.Start[i].Ge(lo+c.Lo[i]))
	}
	if hi < last {
		b.lits = append(b.lits, sl.Start[i].Le(hi+c.Lo[i]))
	}
	return b.conclude(s, v, need)
}

// conclude states that the penalty is at least v, from the premises in lits; that
// the job is not made where that is too much and it is still open.
func (b *penalties) conclude(s *kernel.Solver, v, need int32) bool {
	sl := b.sl
	if !s.True(sl.Present()) {
		if v < chain.Unreachable {
			b.lits = append(b.lits, b.cost.Le(need-1))
		}
		return s.Enqueue(sl.Present().Not(), s.Because(b.lits...))
	}
	b.lits = append(b.lits, sl.Present())
	if v >= chain.Unreachable {
		return s.Fail(b.lits...)
	}
	return s.Enqueue(b.cost.Ge(v), s.Because(b.lits...))
}

// edge moves the bounds of one start past those that cost too much.
func (b *penalties) edge(s *kernel.Solver, i int) bool {
	sl, c := b.sl, b.by
	size, most := s.Min(sl.Size), s.Max(b.cost)
	row := c.Least[i][size]
	lo, hi := s.Min(sl.Start[i])-c.Lo[i], s.Max(sl.Start[i])-c.Lo[i]
	if x, least := row.Upward(max(lo, 0), most); x > lo {
		from, _ := row.Downward(lo-1, least-1)
		b.lits = append(b.lits[:0], sl.Present(), sl.Size.Ge(size), sl.Start[i].Ge(from+1+c.Lo[i]))
		if least < chain.Unreachable {
			b.lits = append(b.lits, b.cost.Le(least-1))
		}
		if !s.Enqueue(sl.Start[i].Ge(x+c.Lo[i]), s.Because(b.lits...)) {
			return false
		}
	}
	if x, least := row.Downward(min(hi, int32(len(row.Cost))-1), most); x < hi {
		to, _ := row.Upward(hi+1, least-1)
		b.lits = append(b.lits[:0], sl.Present(), sl.Size.Ge(size), sl.Start[i].Le(to-1+c.Lo[i]))
		if least < chain.Unreachable {
			b.lits = append(b.lits, b.cost.Le(least-1))
		}
		return s.Enqueue(sl.Start[i].Le(x+c.Lo[i]), s.Because(b.lits...))
	}
	return true
}

// whole works out the cheapest chain within the bounds of all starts.
func (b *penalties) whole(s *kernel.Solver) bool {
	sl := b.sl
	size := s.Min(sl.Size)
	z := b.by.Sizes[size]
	v := chain.Unreachable
	if z.Lo != nil {
		var ok bool
		if v, ok = b.cheapest(s, z); !ok {
			return true
		}
	}
	if v <= s.Min(b.cost) && v < chain.Unreachable {
		return true
	}
	b.lits = append(b.lits[:0], sl.Size.Ge(size), sl.Size.Le(size))
	for i := sl.Fixed; i < sl.Acts(); i++ {
		b.lits = append(b.lits, sl.Start[i].Ge(s.Min(sl.Start[i])), sl.Start[i].Le(s.Max(sl.Start[i])))
		for _, l := range sl.Who[i] {
			if s.False(l) {
				b.lits = append(b.lits, l.Not())
			}
		}
	}
	return b.conclude(s, v, v)
}

// cheapest is the least cost of a chain within bounds; not ok when there are too
// many to look at.
func (b *penalties) cheapest(s *kernel.Solver, z *chain.SizeCosts) (int32, bool) {
	sl := b.sl
	n := sl.Acts()
	before, tries := int32(0), int32(0)
	for i := sl.Fixed; i < n; i++ {
		from, to := z.Within(i, s.Min(sl.Start[i]), s.Max(sl.Start[i]))
		tries += int32(to-from) * before
		before = int32(to - from)
		if tries > chainTries {
			return 0, false
		}
	}
	row, next := b.row[0][:0], b.row[1][:0]
	prevFrom := 0
	for i := sl.Fixed; i < n; i++ {
		from, to := z.Within(i, s.Min(sl.Start[i]), s.Max(sl.Start[i]))
		next = next[:0]
		for x := from; x < to; x++ {
			t := z.At[i][x]
			v := b.ownAt(s, z, i, t)
			switch {
			case v >= chain.Unreachable:
			case i > sl.Fixed:
				v = min(v+b.into(z, i, t, row, prevFrom), chain.Unreachable)
			case sl.Fixed > 0:
				v = min(v+z.First[t-z.Lo[i]], chain.Unreachable)
			}
			next = append(next, v)
		}
		row, next = next, row
		prevFrom = from
	}
	b.row[0], b.row[1] = row, next
	best := chain.Unreachable
	for _, v := range row {
		best = min(best, v)
	}
	return best, true
}

// ownAt is what the work costs by those who may still do it.
func (b *penalties) ownAt(s *kernel.Solver, z *chain.SizeCosts, i int, t int32) int32 {
	x := t - z.Lo[i]
	if len(z.Own[i]) == 0 {
		return z.Any[i][x]
	}
	v := chain.Unreachable
	for w, l := range b.sl.Who[i] {
		if !s.False(l) {
			v = min(v, z.Own[i][w][x])
		}
	}
	return v
}

// into is the least cost of the chain before activity i, which starts at t.
func (b *penalties) into(z *chain.SizeCosts, i int, t int32, row []int32, from int) int32 {
	cost := z.Lags[i-1]
	latest := t - z.Work[i-1] - z.Least[i-1]
	best := chain.Unreachable
	at := z.At[i-1][from:]
	for x, v := range row {
		if lag := latest - at[x]; lag >= 0 && int(lag) < len(cost) {
			best = min(best, v+cost[lag])
		}
	}
	return best
}
