package global

import (
	"slices"

	"ripeby/schedule/cp/kernel"
)

// Day is a stretch [From, Until) in which what starts may weigh AtMost together.
type Day struct {
	From, Until, AtMost int32
}

// days keeps a load for each of many stretches. An item weighs on the stretch in
// which its bounds lie, one or two; only stretches that could be too much, and those of items that
// have changed, are looked at. It hardly ever says more than the rest does, and runs last.
type days struct {
	list    []Day
	loads   []*load
	items   []Item
	changed noted   // items
	marked  []bool  // stretches that a changed item may start in
	touched []int32 // the same as a list
}

// AddDays is [AddLoad] for every one of sorted stretches that do not overlap. All
// items are timed.
func AddDays(s *kernel.Solver, items []Item, list []Day) {
	d := &days{list: list, marked: make([]bool, len(list))}
	var ifs [][]kernel.Lit
	for _, it := range items {
		it.Weight, it.If, it.Timed = it.Weight.atLeast(0), distinct(it.If), true
		d.items, ifs = append(d.items, it), append(ifs, it.If)
	}
	d.changed = allNoted(ifs)
	for _, day := range list {
		l := &load{atMost: int64(day.AtMost), from: day.From, until: day.Until}
		for _, it := range d.items {
			if s.Min(it.Start) < day.Until && s.Max(it.Start) >= day.From {
				l.items = append(l.items, it)
			}
		}
		l.weight, l.counts = make([]int32, len(l.items)), make([]bool, len(l.items))
		d.loads = append(d.loads, l)
	}
	wake, of := viewsOf(len(d.items), func(i int) []kernel.View {
		it := &d.items[i]
		views := both(onTrue(nil, it.If), it.Start)
		if it.Weight.sized() {
			views = append(views, it.Weight.By.Up())
		}
		return views
	})
	d.changed.of = of
	s.AddPropagator(d, 3, wake...)
}

// Hear implements [kernel.Listener].
func (d *days) Hear(s *kernel.Solver, place int32) bool { return d.changed.hear(s, place) }

// Propagate implements [kernel.Propagator].
func (d *days) Propagate(s *kernel.Solver) bool {
	for _, i := range d.changed.list {
		if it := &d.items[i]; nearly(s, it.If) {
			d.touch(d.at(s.Min(it.Start)))
			d.touch(d.at(s.Max(it.Start)))
		}
	}
	ok := true
	for _, k := range d.touched {
		d.marked[k] = false
		ok = ok && (!d.loads[k].mayBeOver(s) || d.loads[k].Propagate(s))
	}
	d.touched = d.touched[:0]
	if ok {
		d.changed.rest()
	}
	return ok
}

// touch marks a stretch, -1 for none.
func (d *days) touch(k int32) {
	if k >= 0 && !d.marked[k] {
		d.marked[k] = true
		d.touched = append(d.touched, k)
	}
}

// mayBeOver reports whether the items with a bound in the stretch, that count or do but for one
// literal, could be too much.
func (l *load) mayBeOver(s *kernel.Solver) bool {
	sum := int64(0)
	for i := range l.items {
		it := &l.items[i]
		lo, hi := s.Min(it.Start), s.Max(it.Start)
		if (lo >= l.from && lo < l.until || hi >= l.from && hi < l.until) && nearly(s, it.If) {
			sum += int64(it.Weight.most(s))
		}
	}
	return sum > l.atMost
}

// at is the stretch that a moment lies in, -1 for none.
func (d *days) at(t int32) int32 {
	k, found := slices.BinarySearchFunc(d.list, t, func(day Day, t int32) int { return int(day.From) - int(t) })
	if !found {
		k--
	}
	if k < 0 || t >= d.list[k].Until {
		return -1
	}
	return int32(k)
}
