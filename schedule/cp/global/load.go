package global

import "ripeby/schedule/cp/kernel"

// Item counts Weight in a load while all of If are true and, where Timed is set,
// Start lies in the load's stretch. A weight below 0 counts as 0.
type Item struct {
	Weight Amount
	If     []kernel.Lit
	Start  kernel.Var
	Timed  bool
}

// load keeps the weights that count at most at a bound. Items that surely count give
// the least load; the rest is held against what that leaves.
type load struct {
	items       []Item
	atMost      int64
	from, until int32
	weight      []int32 // least weight of each at this call
	counts      []bool  // surely, at this call
	sure        []int32
	lits        []kernel.Lit
}

// AddLoad keeps the weights of the items that count at most at atMost; timed items
// count only when they start in [from, until).
func AddLoad(s *kernel.Solver, items []Item, atMost int32, from, until int32) {
	l := &load{atMost: int64(atMost), from: from, until: until}
	var wake []kernel.View
	for _, it := range items {
		if it.Timed && from >= until {
			continue
		}
		it.Weight, it.If = it.Weight.atLeast(0), distinct(it.If)
		l.items = append(l.items, it)
		wake = onTrue(wake, it.If)
		if it.Weight.sized() {
			wake = append(wake, it.Weight.By.Up())
		}
		if it.Timed {
			wake = both(wake, it.Start)
		}
	}
	l.weight, l.counts = make([]int32, len(l.items)), make([]bool, len(l.items))
	s.AddPropagator(l, 1, once(wake)...)
}

// Propagate implements [kernel.Propagator].
func (l *load) Propagate(s *kernel.Solver) bool {
	sum := int64(0)
	l.sure = l.sure[:0]
	for i := range l.items {
		it := &l.items[i]
		_, n := undecided(s, it.If)
		l.weight[i] = it.Weight.least(s)
		l.counts[i] = n == 0 && l.inside(s, it)
		if l.counts[i] {
			sum += int64(l.weight[i])
			l.sure = append(l.sure, int32(i))
		}
	}
	if sum > l.atMost {
		l.lits = l.lits[:0]
		l.explain(-1, sum-l.atMost-1)
		return s.Fail(l.lits...)
	}
	for i := range l.items {
		if !l.settle(s, int32(i), sum) {
			return false
		}
	}
	return true
}

// inside reports whether an item surely starts where it counts, outside whether it
// surely does not.
func (l *load) inside(s *kernel.Solver, it *Item) bool {
	return !it.Timed || s.Min(it.Start) >= l.from && s.Max(it.Start) < l.until
}

func (l *load) outside(s *kernel.Solver, it *Item) bool {
	return it.Timed && (s.Min(it.Start) >= l.until || s.Max(it.Start) < l.from)
}

// settle holds one item against what the sure ones leave.
func (l *load) settle(s *kernel.Solver, i int32, sum int64) bool {
	it := &l.items[i]
	if l.counts[i] {
		return !it.Weight.sized() || l.shrink(s, i, l.atMost-sum+int64(l.weight[i]))
	}
	spare := sum + int64(l.weight[i]) - l.atMost - 1
	if spare < 0 || l.outside(s, it) {
		return true
	}
	open, n := undecided(s, it.If)
	switch in := l.inside(s, it); {
	case n == 1 && in:
		l.lits = l.within(but(l.lits[:0], it.If, open), it)
		l.weigh(i, spare)
		return s.Enqueue(open.Not(), s.Because(l.lits...))
	case n != 0 || in:
		return true // in: its literals came true just now, and it is looked at again
	case s.Min(it.Start) >= l.from:
		l.lits = append(append(l.lits[:0], it.If...), it.Start.Ge(l.from))
		l.weigh(i, spare)
		return s.Enqueue(it.Start.Ge(l.until), s.Because(l.lits...))
	case s.Max(it.Start) < l.until:
		l.lits = append(append(l.lits[:0], it.If...), it.Start.Le(l.until-1))
		l.weigh(i, spare)
		return s.Enqueue(it.Start.Le(l.from-1), s.Because(l.lits...))
	}
	return true
}

// shrink lowers the size of an item that counts to what there is room for.
func (l *load) shrink(s *kernel.Solver, i int32, room int64) bool {
	it := &l.items[i]
	if int64(it.Weight.most(s)) <= room {
		return true
	}
	k := it.Weight.within(int32(room))
	l.lits = l.within(append(l.lits[:0], it.If...), it)
	l.explain(i, int64(it.Weight.of(k+1))-room-1)
	return s.Enqueue(it.Weight.By.Le(k), s.Because(l.lits...))
}

// within appends why an item starts where it counts.
func (l *load) within(out []kernel.Lit, it *Item) []kernel.Lit {
	if it.Timed {
		out = append(out, it.Start.Ge(l.from), it.Start.Le(l.until-1))
	}
	return out
}

// weigh appends why item i, with the sure ones, is too much.
func (l *load) weigh(i int32, spare int64) {
	w := int64(l.weight[i])
	less := int32(min(spare, w))
	var left int32
	l.lits, left = l.items[i].Weight.sure(l.lits, int32(w), less)
	l.explain(i, spare-int64(less-left))
}

// explain appends why the sure items but one weigh what they do, less what there is
// to spare: the lightest are left out first, then sizes are weakened.
func (l *load) explain(except int32, spare int64) {
	Resort(l.sure, l.weight)
	kept := 0
	for kept < len(l.sure) {
		i := l.sure[kept]
		if i != except {
			if int64(l.weight[i]) > spare {
				break
			}
			spare -= int64(l.weight[i])
		}
		kept++
	}
	for _, i := range l.sure[kept:] {
		if i == except {
			continue
		}
		it := &l.items[i]
		l.lits = l.within(append(l.lits, it.If...), it)
		less := int32(min(spare, int64(l.weight[i])))
		var left int32
		l.lits, left = it.Weight.sure(l.lits, l.weight[i], less)
		spare -= int64(less - left)
	}
}
