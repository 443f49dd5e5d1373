package global

import "ripeby/schedule/cp/kernel"

// disjoint keeps two tasks apart while all their literals are true. There are four
// ways to be apart: a ends before b begins, b before a, or one is of no length. With
// three of them ruled out by the bounds, the fourth is made to hold; with all, a
// literal is false. Each way says that one moment is no later than another:
//
//	a.until <= b.from    b.until <= a.from    a.until <= a.from    b.until <= b.from
//
// Cost: O(1) a call.
type disjoint struct {
	task [2]occupation
	ifs  []kernel.Lit
	lits []kernel.Lit
}

// AddDisjoint keeps two tasks of a thing that does one at a time apart, whatever
// their demand, while all literals of both are true. The bounds of a task are only
// moved once they are.
func AddDisjoint(s *kernel.Solver, a, b Task) {
	a.Demand, b.Demand = Amount{}, Amount{}
	d := &disjoint{task: [2]occupation{a.occupation(), b.occupation()}}
	d.ifs = distinct(append(append(d.ifs, d.task[0].ifs...), d.task[1].ifs...))
	s.AddPropagator(d, 0, once(d.task[1].wakes(d.task[0].wakes(nil)))...)
}

// order is one way to be apart: task one ends no later than task two begins. With
// one and two the same it is of no length.
type order struct{ one, two int }

func apartBy() [4]order { return [4]order{{0, 1}, {1, 0}, {0, 0}, {1, 1}} }

// Propagate implements [kernel.Propagator].
func (d *disjoint) Propagate(s *kernel.Solver) bool {
	open, n := undecided(s, d.ifs)
	if n < 0 || n > 1 {
		return true
	}
	ways, left := apartBy(), -1
	for k, o := range ways {
		if d.out(s, o) {
			continue
		}
		if left >= 0 {
			return true
		}
		left = k
	}
	if left >= 0 && n == 1 {
		return true
	}
	d.lits = append(d.lits[:0], d.ifs...)
	if n == 1 {
		d.lits = but(d.lits[:0], d.ifs, open)
	}
	for k, o := range ways {
		if k != left {
			d.why(s, o)
		}
	}
	switch {
	case left >= 0:
		return d.enforce(s, ways[left])
	case n == 1:
		return s.Enqueue(open.Not(), s.Because(d.lits...))
	}
	return s.Fail(d.lits...)
}

// earliestEnd and latestBegin are bounds that count in the least length. A task with
// none may end before it begins, so that one end says nothing of the other.
func (o *occupation) earliestEnd(s *kernel.Solver) int32 {
	end := o.seen[0].until.least(s)
	if o.least > 0 {
		end = max(end, o.seen[0].from.least(s)+o.least)
	}
	return end
}

func (o *occupation) latestBegin(s *kernel.Solver) int32 {
	begin := o.seen[0].from.most(s)
	if o.least > 0 {
		begin = min(begin, o.seen[0].until.most(s)-o.least)
	}
	return begin
}

// endsBy appends why a task ends at v or later, beginsBy why it begins at v or before.
func (o *occupation) endsBy(s *kernel.Solver, out []kernel.Lit, v int32) []kernel.Lit {
	if o.seen[0].until.least(s) >= v {
		return append(out, o.seen[0].until.ge(v))
	}
	return append(out, o.seen[0].from.ge(v-o.least))
}

func (o *occupation) beginsBy(s *kernel.Solver, out []kernel.Lit, v int32) []kernel.Lit {
	if o.seen[0].from.most(s) <= v {
		return append(out, o.seen[0].from.le(v))
	}
	return append(out, o.seen[0].until.le(v+o.least))
}

// out reports whether the bounds rule a way out.
func (d *disjoint) out(s *kernel.Solver, o order) bool {
	if o.one == o.two && d.task[o.one].least > 0 {
		return true
	}
	return d.task[o.two].latestBegin(s) < d.task[o.one].earliestEnd(s)
}

// why appends what rules a way out: begin and end on two sides of a moment.
func (d *disjoint) why(s *kernel.Solver, o order) {
	if o.one == o.two && d.task[o.one].least > 0 {
		return
	}
	begin, end := d.task[o.two].latestBegin(s), d.task[o.one].earliestEnd(s)
	x := middle(begin, end)
	d.lits = d.task[o.one].endsBy(s, d.lits, x+1)
	d.lits = d.task[o.two].beginsBy(s, d.lits, x)
}

// enforce makes the one way left hold; why it is left is in lits.
func (d *disjoint) enforce(s *kernel.Solver, o order) bool {
	one, two := &d.task[o.one], &d.task[o.two]
	n := len(d.lits)
	if v := one.earliestEnd(s); two.seen[0].from.least(s) < v {
		d.lits = one.endsBy(s, d.lits[:n], v)
		if !s.Enqueue(two.seen[0].from.ge(v), s.Because(d.lits...)) {
			return false
		}
	}
	if v := two.latestBegin(s); one.seen[0].until.most(s) > v {
		d.lits = two.beginsBy(s, d.lits[:n], v)
		return s.Enqueue(one.seen[0].until.le(v), s.Because(d.lits...))
	}
	return true
}
