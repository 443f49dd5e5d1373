package rules

import (
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// stretch is a stretch of time with one height of what must run.
type stretch struct{ from, until, height int32 }

// build lays out what must run; false when that alone is too much.
func (t *Timetable) build(s *kernel.Solver) bool {
	for i := range t.tasks {
		m := &t.tasks[i]
		t.lst[i], t.ect[i] = m.lst(s), m.est(s)+m.length
	}
	global.Resort(t.byLst, t.lst)
	global.Resort(t.byEct, t.ect)
	t.profile, t.highest = t.profile[:0], 0
	height := int32(0)
	i, k := 0, 0
	for {
		i, k = t.next(t.byLst, i), t.next(t.byEct, k)
		if k == len(t.byEct) {
			return true
		}
		at := t.ect[t.byEct[k]]
		if i < len(t.byLst) {
			at = min(at, t.lst[t.byLst[i]])
		}
		for ; i < len(t.byLst) && t.lst[t.byLst[i]] == at; i = t.next(t.byLst, i+1) {
			height += t.tasks[t.byLst[i]].demand
		}
		for ; k < len(t.byEct) && t.ect[t.byEct[k]] == at; k = t.next(t.byEct, k+1) {
			height -= t.tasks[t.byEct[k]].demand
		}
		if n := len(t.profile); n > 0 {
			t.profile[n-1].until = at
		}
		if height > t.capacity {
			t.lits = t.cover(s, t.lits[:0], at, t.capacity, -1)
			return s.Fail(t.lits...)
		}
		t.highest = max(t.highest, height)
		if k < len(t.byEct) {
			t.profile = append(t.profile, stretch{at, at, height})
		}
	}
}

// next is the place from k on of a task of the list that must run at all.
func (t *Timetable) next(list []int32, k int) int {
	for k < len(list) && t.lst[list[k]] >= t.ect[list[k]] {
		k++
	}
	return k
}

// at is the first stretch that ends after a moment.
func (t *Timetable) at(moment int32) int {
	lo, hi := 0, len(t.profile)
	for lo < hi {
		mid := (lo + hi) / 2
		if t.profile[mid].until <= moment {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}
