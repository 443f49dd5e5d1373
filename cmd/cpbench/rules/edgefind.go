package rules

import (
	"cmp"
	"slices"

	"ripeby/schedule/cp/kernel"
)

// EdgeFind keeps the energy that must be spent in a stretch of time within what the
// capacity gives there, and moves tasks that would overfill it:
//
//	a            stretch             b
//	|████ must run ████ free energy  |     energy <= capacity x (b - a)
//	|  task u at its earliest start ─|──
//
// The energy of [a, b) is what the timetable has there and the rest of the tasks
// that must lie in it. Vilím, "Timetable edge finding filtering algorithm for
// discrete cumulative resources" (2011); explained by the overlap that each task
// must have with the stretch, weakened as far as the surplus lets: Schutt, Feydy,
// Stuckey, "Explaining time-table-edge-finding propagation for the cumulative
// resource constraint" (2013). Cost: O(n^2).
type EdgeFind struct {
	capacity int32
	tasks    []mirrored

	now    []placed // bounds of all tasks at this call
	byLate []int32  // tasks with free energy, latest end first
	byEst  []int32  // the same, latest earliest start first
	edges  []int32  // where the timetable changes
	height []int32  // from each edge on
	area   []int64  // timetable energy before each edge
	steps  []rise
	lits   []kernel.Lit
}

// rise is a change of what must run.
type rise struct{ at, by int32 }

// placed is a task's bounds.
type placed struct {
	est, lst, ect, lct int32
	free               int64
}

// AddEdgeFind adds the rule in both directions of time.
func AddEdgeFind(s *kernel.Solver, list []Interval, capacity int32) {
	var wake []kernel.View
	for _, v := range list {
		wake = append(wake, v.Start.Up(), v.Start.Down())
	}
	for _, backward := range []bool{false, true} {
		s.AddPropagator(&EdgeFind{capacity: capacity, tasks: seen(list, backward)}, 2, wake...)
	}
}

// Propagate implements [kernel.Propagator].
func (e *EdgeFind) Propagate(s *kernel.Solver) bool {
	e.look(s)
	for _, k := range e.byLate {
		if !e.sweep(s, e.now[k].lct) {
			return false
		}
	}
	return true
}

// look reads the bounds and lays out the timetable.
func (e *EdgeFind) look(s *kernel.Solver) {
	e.now, e.byLate, e.byEst, e.steps = e.now[:0], e.byLate[:0], e.byEst[:0], e.steps[:0]
	for i := range e.tasks {
		m := &e.tasks[i]
		est, lst := m.est(s), m.lst(s)
		p := placed{est, lst, est + m.length, lst + m.length, 0}
		p.free = int64(m.demand) * int64(min(m.length, p.lst-p.est))
		if p.lst < p.ect {
			e.steps = append(e.steps, rise{p.lst, m.demand}, rise{p.ect, -m.demand})
		}
		e.now = append(e.now, p)
		if p.free > 0 {
			e.byLate = append(e.byLate, int32(i))
			e.byEst = append(e.byEst, int32(i))
		}
	}
	slices.SortStableFunc(e.byLate, func(i, k int32) int { return int(e.now[k].lct - e.now[i].lct) })
	e.byLate = slices.CompactFunc(e.byLate, func(i, k int32) bool { return e.now[i].lct == e.now[k].lct })
	slices.SortStableFunc(e.byEst, func(i, k int32) int { return int(e.now[k].est - e.now[i].est) })
	sortRises(e.steps)
	e.edges, e.height, e.area = e.edges[:0], e.height[:0], e.area[:0]
	h, area := int32(0), int64(0)
	for i := 0; i < len(e.steps); {
		at := e.steps[i].at
		if n := len(e.edges); n > 0 {
			area += int64(h) * int64(at-e.edges[n-1])
		}
		for ; i < len(e.steps) && e.steps[i].at == at; i++ {
			h += e.steps[i].by
		}
		e.edges, e.height, e.area = append(e.edges, at), append(e.height, h), append(e.area, area)
	}
}

// before is the timetable's energy before a moment.
func (e *EdgeFind) before(t int32) int64 {
	k, found := slices.BinarySearch(e.edges, t)
	if found {
		return e.area[k]
	}
	if k == 0 {
		return 0
	}
	return e.area[k-1] + int64(e.height[k-1])*int64(t-e.edges[k-1])
}

// sweep looks at all stretches that end at b, from the shortest on.
func (e *EdgeFind) sweep(s *kernel.Solver, b int32) bool {
	inside := int64(0)
	endArea := e.before(b)
	u, most := int32(-1), int64(0)
	for _, i := range e.byEst {
		p := &e.now[i]
		if p.est >= b {
			continue
		}
		if p.lct <= b {
			inside += p.free
		} else if want := e.beyond(i, b); want > most {
			u, most = i, want
		}
		a := p.est
		left := int64(e.capacity)*int64(b-a) - inside - (endArea - e.before(a))
		if left < 0 {
			e.lits = e.explain(s, e.lits[:0], a, b, -1, -left-1)
			return s.Fail(e.lits...)
		}
		if u >= 0 && most > left && !e.move(s, u, a, b, left) {
			return false
		}
	}
	return true
}

// beyond is what a task that may end after b adds to the stretch before b when it
// starts at its earliest, beside what the timetable has of it.
func (e *EdgeFind) beyond(i, b int32) int64 {
	p, m := &e.now[i], &e.tasks[i]
	return int64(m.demand) * int64(min(p.ect, b)-p.est-e.fixedIn(i, p.est, b))
}

// fixedIn is how much of a task's timetable part lies in [a, b).
func (e *EdgeFind) fixedIn(i, a, b int32) int32 {
	p := &e.now[i]
	return max(0, min(p.ect, b)-max(p.lst, a))
}

// move pushes task u to where the stretch [a, b), with left energy to spare beside
// the task's timetable part, takes no more of it.
func (e *EdgeFind) move(s *kernel.Solver, u, a, b int32, left int64) bool {
	m := &e.tasks[u]
	spare := left + int64(m.demand)*int64(e.fixedIn(u, a, b))
	take := int32(spare / int64(m.demand)) // the overlap that still fits
	to := b - take
	if to <= e.now[u].est || take >= m.length || m.est(s) >= to {
		return true
	}
	need := take + 1
	surplus := int64(need)*int64(m.demand) - spare - 1
	e.lits = append(e.lits[:0], m.from(a+need-m.length))
	e.lits = e.explain(s, e.lits, a, b, u, surplus)
	return s.Enqueue(m.from(to), s.Because(e.lits...))
}

// explain appends, for every task but u, the bounds that make it overlap [a, b) as
// much as it must, less what the surplus lets go.
func (e *EdgeFind) explain(s *kernel.Solver, out []kernel.Lit, a, b, u int32, surplus int64) []kernel.Lit {
	for i := range e.tasks {
		if int32(i) == u {
			continue
		}
		p, m := &e.now[i], &e.tasks[i]
		// Only what the sum counted: whole tasks inside, timetable parts else.
		over := e.fixedIn(int32(i), a, b)
		if p.est >= a && p.lct <= b {
			over = m.length
		}
		if over <= 0 || m.demand == 0 {
			continue
		}
		if drop := int64(m.demand) * int64(over); drop <= surplus {
			surplus -= drop
			continue
		}
		if less := int32(surplus / int64(m.demand)); less > 0 {
			over -= less
			surplus -= int64(less) * int64(m.demand)
		}
		out = append(out, m.from(a+over-m.length), m.until(b-over))
	}
	return out
}

// sortRises sorts by time; insertion sort, as lists are short and nearly in order.
func sortRises(list []rise) {
	if len(list) > 40 {
		slices.SortStableFunc(list, func(a, b rise) int { return cmp.Compare(a.at, b.at) })
		return
	}
	for i := 1; i < len(list); i++ {
		r := list[i]
		k := i
		for k > 0 && list[k-1].at > r.at {
			list[k] = list[k-1]
			k--
		}
		list[k] = r
	}
}
