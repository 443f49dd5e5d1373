package global

import (
	"sort"

	"ripeby/schedule/cp/kernel"
)

// cumulative keeps the demands of the tasks that count at most at what is left of the
// capacity, by what tasks must occupy: from their latest begin to their earliest end.
//
//	from           [..........]
//	until                          [..........]
//	must run                  ▒▒▒▒▒▒
//	taken              ████              ████
//
// Tasks come in three kinds at a call: here, with all literals true; near, with one
// open; and the rest, which are not looked at. Only here tasks are laid out and have
// their bounds moved; of a near task nothing but its open literal ever changes.
//
// Both directions of time use one layout, which is turned round for the second.
// Reasons are pointwise, of the tasks with the largest demands: Schutt, Feydy,
// Stuckey, Wallace, "Explaining the cumulative propagator" (2011), sections 4.1 and
// 4.2. Where steps by points would be many, or all is taken, the reason is of a whole
// stretch.
//
// Only what has changed since the last call is looked at: the tasks that woke the rule, and
// those that may be where such a task must now run. All else was at rest with what it could meet.
// Cost: O(tasks) a call to look and to keep order, then O(looked at x stretches among them).
type cumulative struct {
	capacity int32
	tasks    []occupation
	gone     [2]taken // forward, backward
	most     int32    // the most that is gone at once

	live []int32      // tasks that are not out for good
	here []int32      // all literals true
	near []int32      // one literal open
	open []kernel.Lit // that of each near task
	runs []bool       // must run in the stretch that is laid out

	changed noted   // tasks
	stretch stretch // what is laid out: wherever a changed task may be
	forced  stretch // where a changed task must run
	look    []int32 // here tasks that are to be looked at
	lookAt  []int32 // near tasks likewise, by their place in near

	begin, end []int32 // what each that runs must occupy, at this call
	held       []int32 // units that it holds at least
	byBegin    []int32 // tasks by them; the order of the call before is nearly right
	byEnd      []int32
	layout     []level
	highest    int32 // of the layout
	backward   bool  // the layout is turned round

	chosen []int32 // tasks of a reason
	lits   []kernel.Lit
}

// AddCumulative keeps the demands of the tasks within capacity less what is taken, at
// every moment. Where more is taken than the capacity, tasks can hold nothing, and no
// more is asked. The bounds of a task are only moved once all its literals are true.
func AddCumulative(s *kernel.Solver, tasks []Task, capacity int32, taken []Taken) {
	c := newCumulative(tasks, capacity, taken)
	wake, of := viewsOf(len(tasks), func(i int) []kernel.View { return c.tasks[i].wakes(nil) })
	c.changed.of = of
	s.AddPropagator(c, 2, wake...)
}

func newCumulative(tasks []Task, capacity int32, list []Taken) *cumulative {
	n := len(tasks)
	c := &cumulative{capacity: max(0, capacity), runs: make([]bool, n)}
	c.begin, c.end, c.held = make([]int32, n), make([]int32, n), make([]int32, n)
	c.gone[0] = gone(list, c.capacity)
	c.gone[1] = c.gone[0].mirror()
	c.most = c.gone[0].highest()
	for i, t := range tasks {
		c.tasks = append(c.tasks, t.occupation())
		c.live = append(c.live, int32(i))
	}
	c.byBegin, c.byEnd = append(c.byBegin, c.live...), append(c.byEnd, c.live...)
	c.changed = notedTasks(c.tasks)
	return c
}

// Hear implements [kernel.Listener].
func (c *cumulative) Hear(s *kernel.Solver, place int32) bool { return c.changed.hear(s, place) }

// Propagate implements [kernel.Propagator].
func (c *cumulative) Propagate(s *kernel.Solver) bool {
	if c.low(s) || !c.narrow(s) {
		c.changed.rest()
		return true
	}
	c.place(s)
	if !c.lay(s) {
		return false
	}
	for _, i := range c.look {
		if !c.shrink(s, i) || !c.push(s, i, 0) {
			return false
		}
	}
	for _, k := range c.lookAt {
		if !c.refute(s, c.near[k], c.open[k]) {
			return false
		}
	}
	c.turn()
	for _, i := range c.look {
		if !c.push(s, i, 1) {
			return false
		}
	}
	c.changed.rest()
	return true
}

// narrow finds what is to be looked at, and the stretch in which it may be; false for nothing.
func (c *cumulative) narrow(s *kernel.Solver) bool {
	c.stretch, c.forced = noStretch, noStretch
	c.look, c.lookAt = c.look[:0], c.lookAt[:0]
	for _, i := range c.here {
		if c.changed.is[i] {
			c.stretch.widen(c.tasks[i].window(s))
			c.forced.widen(c.tasks[i].forced(s))
		}
	}
	some := c.forced.some()
	for _, i := range c.here {
		if c.changed.is[i] || some && c.forced.meets(c.tasks[i].window(s)) {
			c.look = append(c.look, i)
		}
	}
	for k, i := range c.near {
		if c.changed.is[i] || some && c.forced.meets(c.tasks[i].window(s)) {
			c.stretch.widen(c.tasks[i].window(s))
			c.lookAt = append(c.lookAt, int32(k))
		}
	}
	return c.stretch.some()
}

// low sorts the tasks into here and near, and reports whether there is room for all
// of them at once, so that there is nothing to do.
func (c *cumulative) low(s *kernel.Solver) bool {
	c.here, c.near, c.open = c.here[:0], c.near[:0], c.open[:0]
	sum, extra := int64(c.most), int32(0)
	kept := 0
	for _, i := range c.live {
		t := &c.tasks[i]
		open, n := undecided(s, t.ifs)
		if n < 0 && s.Level() == 0 {
			continue // out for good
		}
		c.live[kept] = i
		kept++
		switch n {
		case 0:
			least := t.demand.least(s)
			sum += int64(least)
			extra = max(extra, t.demand.most(s)-least)
			c.here = append(c.here, i)
		case 1:
			extra = max(extra, t.demand.least(s))
			c.near = append(c.near, i)
			c.open = append(c.open, open)
		}
	}
	if kept < len(c.live) {
		c.live = c.live[:kept]
		c.byBegin, c.byEnd = c.still(c.byBegin), c.still(c.byEnd)
	}
	return sum+int64(extra) <= int64(c.capacity)
}

// still is the tasks of a list that are live; live is in rising order.
func (c *cumulative) still(list []int32) []int32 {
	kept := list[:0]
	for _, i := range list {
		k := sort.Search(len(c.live), func(k int) bool { return c.live[k] >= i })
		if k < len(c.live) && c.live[k] == i {
			kept = append(kept, i)
		}
	}
	return kept
}

// place notes what each of the here tasks must occupy in the stretch that is laid out. Other tasks
// keep the places that they had in the orders: they are passed over.
func (c *cumulative) place(s *kernel.Solver) {
	for _, i := range c.live {
		c.runs[i] = false
	}
	for _, i := range c.here {
		t := &c.tasks[i]
		begin, end, held := t.seen[0].from.most(s), t.seen[0].until.least(s), t.demand.least(s)
		if begin < end && begin < c.stretch.until && c.stretch.from < end && (held > 0 || t.demand.sized()) {
			c.begin[i], c.end[i], c.held[i], c.runs[i] = begin, end, held, true
		}
	}
}
