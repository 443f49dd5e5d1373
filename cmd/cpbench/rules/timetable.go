package rules

import (
	"sort"

	"ripeby/schedule/cp/kernel"
)

// Timetable keeps the sum of demands of tasks that run at a moment at most at the
// capacity, by what tasks must occupy: from their latest start to their earliest
// end.
//
//	task       [est……lst]
//	           ──────────────
//	           est       lst     est+len     lst+len
//	must run                ▒▒▒▒▒▒
//
// Explanations are pointwise, and the tasks that overfill the moment are chosen
// with the largest demands first: Schutt, Feydy, Stuckey, Wallace, "Explaining the
// cumulative propagator" (2011), sections 4.1 and 4.2.
type Timetable struct {
	capacity int32
	tasks    []mirrored
	lst, ect []int32 // latest starts and earliest ends at this call
	byLst    []int32 // tasks by them; the order of the call before is nearly right
	byEct    []int32
	profile  []stretch
	highest  int32 // of the profile
	lits     []kernel.Lit
	order    []int32 // tasks by falling demand
}

// AddTimetable adds the constraint in both directions of time.
func AddTimetable(s *kernel.Solver, list []Interval, capacity int32) {
	var wake []kernel.View
	for _, v := range list {
		wake = append(wake, v.Start.Up(), v.Start.Down())
	}
	for _, backward := range []bool{false, true} {
		t := &Timetable{capacity: capacity, tasks: seen(list, backward)}
		t.lst, t.ect = make([]int32, len(list)), make([]int32, len(list))
		for i := range t.tasks {
			t.order = append(t.order, int32(i))
			t.byLst, t.byEct = append(t.byLst, int32(i)), append(t.byEct, int32(i))
		}
		sort.SliceStable(t.order, func(i, k int) bool { return t.tasks[t.order[i]].demand > t.tasks[t.order[k]].demand })
		s.AddPropagator(t, 1, wake...)
	}
}

// Propagate implements [kernel.Propagator].
func (t *Timetable) Propagate(s *kernel.Solver) bool {
	if !t.build(s) {
		return false
	}
	if len(t.profile) == 0 {
		return true
	}
	for i := range t.tasks {
		if !t.push(s, int32(i)) {
			return false
		}
	}
	return true
}

// cover appends the literals of tasks that must run at a moment and together need
// more than room, largest demands first; task except is left out.
func (t *Timetable) cover(s *kernel.Solver, out []kernel.Lit, at, room int32, except int32) []kernel.Lit {
	sum := int32(0)
	for _, i := range t.order {
		m := &t.tasks[i]
		if i == except || m.lst(s) > at || m.est(s)+m.length <= at {
			continue
		}
		sum += m.demand
		out = append(out, m.from(at-m.length+1), m.until(at))
		if sum > room {
			break
		}
	}
	return out
}

// push moves a task's earliest start past the stretches that it does not fit on.
func (t *Timetable) push(s *kernel.Solver, i int32) bool {
	m := &t.tasks[i]
	est, lst := m.est(s), m.lst(s)
	if est == lst || m.demand == 0 || m.length == 0 {
		return true
	}
	room := t.capacity - m.demand
	if t.highest <= room {
		return true
	}
	first := est // as when the profile was built
	k := t.at(est)
	for ; k < len(t.profile) && t.profile[k].from < est+m.length; k++ {
		p := t.profile[k]
		height := p.height
		if lst <= p.from && p.from < first+m.length {
			height -= m.demand // its own part
		}
		if height <= room {
			continue
		}
		for est < p.until && p.from < est+m.length {
			at := min(p.until, est+m.length) - 1
			t.lits = append(t.lits[:0], m.from(at-m.length+1))
			t.lits = t.cover(s, t.lits, at, room, i)
			if !s.Enqueue(m.from(at+1), s.Because(t.lits...)) {
				return false
			}
			est = at + 1
		}
		if est >= m.lst(s) {
			return true
		}
	}
	return true
}
