package global

import "ripeby/schedule/cp/kernel"

// Crowd says whether numbers of things of each class are too many at one moment. More of any class
// are never fewer too many.
type Crowd interface{ Over(counts []int32) bool }

// together keeps tasks of several classes from being too many at any moment, where what is too many
// goes by the numbers of each class and is no sum: half a stack of one kind of box leaves no more
// floor to another than a whole one.
//
//	class 0   ▒▒▒▒▒▒▒▒▒▒        ▒▒▒▒         counts at x: 2, 1
//	class 0      ▒▒▒▒▒▒▒▒▒▒▒
//	class 1         ▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒
//	                  x
//
// What must run grows only where some task must begin, so the latest begins are the moments to look
// at. Tasks are here, near or neither, as in [cumulative]; a here task that would be too many with
// what must run at a moment is kept off it, a near one is refuted where it must run then. Reasons are
// pointwise, and no task is named without which there are still too many. Only moments at which a task
// may run that has changed are looked at. Cost: O(tasks) a call, and O(here) for each of those; a question
// to the crowd for each, and for each task where one more of some class is too many.
type together struct {
	crowd   Crowd
	tasks   []occupation
	class   []int
	here    []int32
	near    []int32
	open    []kernel.Lit
	changed noted     // tasks
	look    stretch   // wherever a changed task may be
	runs    []running // what must run of the here tasks, at this call
	most    []int32   // of each class, the most that one here or near task demands at the least
	at      []int32   // of each class, what must run at the moment looked at
	count   []int32   // the same, with one task more
	named   []int32   // tasks of a reason
	lits    []kernel.Lit
}

// running is when a here task must run, and what it demands at the least.
type running struct {
	begin, end, units int32
	class             int
}

// AddTogether keeps what the tasks of each class, numbered from 0, demand at one moment within what
// the crowd lets in.
func AddTogether(s *kernel.Solver, tasks []Task, class []int, classes int, crowd Crowd) {
	c := &together{crowd: crowd, class: class, count: make([]int32, classes), at: make([]int32, classes), most: make([]int32, classes)}
	for _, t := range tasks {
		c.tasks = append(c.tasks, t.occupation())
	}
	c.changed = notedTasks(c.tasks)
	wake, of := viewsOf(len(tasks), func(i int) []kernel.View { return c.tasks[i].wakes(nil) })
	c.changed.of = of
	s.AddPropagator(c, 3, wake...)
}

// Hear implements [kernel.Listener].
func (c *together) Hear(s *kernel.Solver, place int32) bool { return c.changed.hear(s, place) }

// Propagate implements [kernel.Propagator].
func (c *together) Propagate(s *kernel.Solver) bool {
	if c.sort(s) {
		c.changed.rest()
		return true
	}
	c.run(s)
	for k := range c.runs {
		x := c.runs[k].begin
		if !c.look.holds(x) {
			continue
		}
		c.standing(x)
		if c.crowd.Over(c.at) {
			c.over(s, x, -1)
			c.blame(s, x, -1)
			return s.Fail(c.lits...)
		}
		if !c.anyOver() {
			continue
		}
		for _, j := range c.here {
			if !c.keepOff(s, j, x) {
				return false
			}
		}
		for k, j := range c.near {
			if !c.refute(s, j, c.open[k], x) {
				return false
			}
		}
	}
	for k, j := range c.near {
		x := c.tasks[j].seen[0].from.most(s)
		if !c.look.holds(x) {
			continue
		}
		if c.standing(x); !c.refute(s, j, c.open[k], x) {
			return false
		}
	}
	c.changed.rest()
	return true
}

// run notes what must run of the here tasks, the most that one task demands, and where to look.
func (c *together) run(s *kernel.Solver) {
	c.runs, c.look = c.runs[:0], noStretch
	clear(c.most)
	for _, i := range c.here {
		w := &c.tasks[i].seen[0]
		r := running{w.from.most(s), w.until.least(s), c.tasks[i].demand.least(s), c.class[i]}
		c.most[r.class] = max(c.most[r.class], r.units)
		if r.begin < r.end {
			c.runs = append(c.runs, r)
		}
		if c.changed.is[i] {
			c.look.widen(c.tasks[i].window(s))
		}
	}
	for _, i := range c.near {
		c.most[c.class[i]] = max(c.most[c.class[i]], c.tasks[i].demand.least(s))
		if c.changed.is[i] {
			c.look.widen(c.tasks[i].window(s))
		}
	}
}

// standing counts what must run at a moment, by what was noted at this call: bounds that were moved
// since may only add to it.
func (c *together) standing(x int32) {
	clear(c.at)
	for k := range c.runs {
		if r := &c.runs[k]; r.begin <= x && x < r.end {
			c.at[r.class] += r.units
		}
	}
}

// anyOver reports whether one task more, of some class, may be too many at the moment.
func (c *together) anyOver() bool {
	for class, units := range c.most {
		if c.oneOver(class, units) {
			return true
		}
	}
	return false
}

// oneOver reports whether so many more of a class are too many at the moment.
func (c *together) oneOver(class int, units int32) bool {
	c.at[class] += units
	over := c.crowd.Over(c.at)
	c.at[class] -= units
	return over
}

// sort notes which tasks are here and near, and reports whether all of them together are not too
// many.
func (c *together) sort(s *kernel.Solver) bool {
	c.here, c.near, c.open = c.here[:0], c.near[:0], c.open[:0]
	clear(c.count)
	for i := range c.tasks {
		t := &c.tasks[i]
		if t.demand.most(s) == 0 {
			continue
		}
		open, n := undecided(s, t.ifs)
		switch n {
		case 0:
			c.here = append(c.here, int32(i))
		case 1:
			c.near = append(c.near, int32(i))
			c.open = append(c.open, open)
		default:
			continue
		}
		c.count[c.class[i]] += t.demand.most(s)
	}
	return !c.crowd.Over(c.count)
}

// runsAt reports whether a task must run at a moment.
func (c *together) runsAt(s *kernel.Solver, i, x int32) bool {
	w := &c.tasks[i].seen[0]
	return w.from.most(s) <= x && x < w.until.least(s)
}

// over reports whether what must run at a moment is too many, with one task more; -1 for none.
func (c *together) over(s *kernel.Solver, x, more int32) bool {
	clear(c.count)
	for _, i := range c.here {
		if i == more || c.runsAt(s, i, x) {
			c.count[c.class[i]] += c.tasks[i].demand.least(s)
		}
	}
	if more >= 0 {
		if _, n := undecided(s, c.tasks[more].ifs); n > 0 {
			c.count[c.class[more]] += c.tasks[more].demand.least(s)
		}
	}
	return c.crowd.Over(c.count)
}

// keepOff moves a here task's bounds off a moment at which it would be too many.
func (c *together) keepOff(s *kernel.Solver, j, x int32) bool {
	w := &c.tasks[j].seen[0]
	if c.runsAt(s, j, x) || w.until.most(s) <= x || w.from.least(s) > x || w.until.least(s) <= x && w.from.most(s) > x ||
		!c.oneOver(c.class[j], c.tasks[j].demand.least(s)) || !c.over(s, x, j) {
		return true
	}
	c.blame(s, x, j)
	first, last := w.from.most(s), w.until.least(s)
	if last > x { // it runs on beyond: so it begins later
		for _, i := range c.named {
			last = min(last, c.tasks[i].seen[0].until.least(s))
		}
		c.tell(s, last-1, j)
		c.lits = append(append(c.lits, c.tasks[j].ifs...), w.until.ge(last))
		return s.Enqueue(w.from.ge(last), s.Because(c.lits...))
	}
	for _, i := range c.named { // it begins before: so it is over
		first = max(first, c.tasks[i].seen[0].from.most(s))
	}
	c.tell(s, first, j)
	c.lits = append(append(c.lits, c.tasks[j].ifs...), w.from.le(first))
	return s.Enqueue(w.until.le(first), s.Because(c.lits...))
}

// refute makes the open literal of a near task false that must run at a moment and would be too many
// then.
func (c *together) refute(s *kernel.Solver, j int32, open kernel.Lit, x int32) bool {
	if s.False(open) || s.True(open) || !c.runsAt(s, j, x) || !c.oneOver(c.class[j], c.tasks[j].demand.least(s)) || !c.over(s, x, j) {
		return true
	}
	c.blame(s, x, j)
	w := &c.tasks[j].seen[0]
	c.lits = append(but(c.lits, c.tasks[j].ifs, open), w.from.le(x), w.until.ge(x+1))
	return s.Enqueue(open.Not(), s.Because(c.lits...))
}

// blame names tasks that must run at a moment and are too many, with one task more (-1 for none),
// where the counts say so now: each is left out that is not needed for it. The literals say why they
// run.
func (c *together) blame(s *kernel.Solver, x, more int32) {
	c.named = c.named[:0]
	for _, i := range c.here {
		if i == more || !c.runsAt(s, i, x) {
			continue
		}
		units := c.tasks[i].demand.least(s)
		c.count[c.class[i]] -= units
		if units > 0 && !c.crowd.Over(c.count) {
			c.count[c.class[i]] += units
			c.named = append(c.named, i)
		}
	}
	c.tell(s, x, more)
}

// tell says why the tasks named run at a moment with as many units as they must, and why one more
// has as many.
func (c *together) tell(s *kernel.Solver, x, more int32) {
	c.lits = c.lits[:0]
	for _, i := range c.named {
		t := &c.tasks[i]
		c.lits = append(append(c.lits, t.ifs...), t.seen[0].from.le(x), t.seen[0].until.ge(x+1))
		c.lits, _ = t.demand.sure(c.lits, t.demand.least(s), 0)
	}
	if more >= 0 {
		t := &c.tasks[more]
		c.lits, _ = t.demand.sure(c.lits, t.demand.least(s), 0)
	}
}
