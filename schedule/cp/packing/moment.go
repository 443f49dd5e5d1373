package packing

import (
	"cmp"
	"slices"

	"ripeby/schedule/cp/problem"
)

// One moment at which boxes cannot stand.
//
// Stays that meet two by two all share a moment (Helly), and what cannot stand at one moment
// cannot whatever else the stays do. To forbid them at one alone says more than to forbid the
// whole time for which they stand: who is told only the latter moves one of them by a step, and
// comes back.
//
//	stays      ├──────────┤
//	              ├──────────────┤
//	         ├─────────┤
//	shared        ├────┤
//	known             ├─────┤        stands then in every plan
//	moment            ↑

// momentTries is how many stretches of what is shared are tried where it must be asked
// whether the boxes cannot stand then either.
const momentTries = 8

// Moment gives a tick on the grid at which all of the list stand and, as enough says, cannot:
// of those in the stretch where the most of them are known to stand, the middle one. Known is
// when each surely stands; cuts are ticks at which the answer of enough may change. Not ok
// where there is none, or none was found.
func Moment(list []Stay, known []problem.Span, step int, cuts []int, enough func(tick int) bool) (tick int, ok bool) {
	shared := problem.Span{From: -problem.Infinite, Until: problem.Infinite}
	for _, s := range list {
		shared.From, shared.Until = max(shared.From, s.From), min(shared.Until, s.Until)
	}
	at := []int{shared.From, shared.Until}
	for _, k := range known {
		at = append(at, k.From, k.Until)
	}
	at = slices.DeleteFunc(append(at, cuts...), func(t int) bool { return t < shared.From || t > shared.Until })
	slices.Sort(at)
	at = slices.Compact(at)
	type stretch struct{ first, last, sure int } // first and last tick of the grid
	var all []stretch
	for i := 1; i < len(at); i++ {
		s := stretch{first: problem.CeilTo(at[i-1], step), last: problem.FloorTo(at[i]-1, step)}
		if s.first > s.last {
			continue
		}
		for _, k := range known {
			if k.Holds(s.first) {
				s.sure++
			}
		}
		all = append(all, s)
	}
	slices.SortStableFunc(all, func(a, b stretch) int {
		return cmp.Or(cmp.Compare(b.sure, a.sure), cmp.Compare(b.last-b.first, a.last-a.first))
	})
	for _, s := range all[:min(len(all), momentTries)] {
		if tick = problem.FloorTo((s.first+s.last)/2, step); enough(tick) {
			return tick, true
		}
	}
	return 0, false
}

// During is the stays as they are at one tick, those that do not stand then left out.
func During(list []Stay, at int) []Stay {
	var out []Stay
	for _, s := range list {
		if s.From <= at && at < s.Until {
			s.From, s.Until = at, at+1
			out = append(out, s)
		}
	}
	return out
}

// Never reports whether the boxes of a list cannot stand at one tick, whatever they do at
// others, and the counted work of the kernel.
func Never(m *problem.Model, space int, list []Stay, at int) (never bool, work int64) {
	_, _, v, work := Pack(m, space, During(list, at))
	return v == FitsNot, work
}
