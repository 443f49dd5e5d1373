package calm

import (
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// Place places a new job of a family in a window, beside what is placed and, where that is not nil,
// frozen, so that it is most like the kept job that it was, or else like the nearest that no other
// job is. It becomes the one that this gains most by.
func Place(s *chain.Schedule, frozen *usage.Ledger, family, mode int, w problem.Window, was *problem.Kept) (*problem.Job, bool) {
	free := freeOf(&s.Ledger, frozen, family)
	q := s.Query(family, mode, w)
	s.Calm(q, toldOf(free, was, w))
	j, ok := s.Place(q)
	if !ok {
		return nil, false
	}
	j.Family, j.Mode = family, mode
	take(s.Model, j, q.Mode, free)
	return j, true
}

// freeOf are the kept jobs of a family that nobody is.
func freeOf(l, frozen *usage.Ledger, family int) (out []*problem.Kept) {
	if !l.Model.Calm() {
		return nil
	}
	for k := range l.Model.Kept {
		e := &l.Model.Kept[k]
		if e.Family == family && l.IsFree(e) && (frozen == nil || frozen.IsFree(e)) {
			out = append(out, e)
		}
	}
	return out
}

// toldOf is what was told of the kept job that a job was, where nobody else is it, or else of the
// one whose last work is nearest to a window; nil for none.
func toldOf(free []*problem.Kept, was *problem.Kept, w problem.Window) []problem.Told {
	var nearest []problem.Told
	least := 0
	for _, k := range free {
		if k == was {
			return k.Told
		}
		last := k.Told[len(k.Told)-1].Start
		away := max(w.ReadyMin-last, last-w.ReadyMax, 0)
		if nearest == nil || away < least {
			nearest, least = k.Told, away
		}
	}
	return nearest
}

// take makes a job the kept one, of those that are free, that it gains most by; none where no gain
// is to be had.
func take(m *problem.Model, j *problem.Job, mode *problem.Mode, free []*problem.Kept) {
	best := int64(0)
	for _, k := range free {
		if gain := gainOf(m, j, mode, k); gain > best {
			best, j.Kept = gain, k
		}
	}
}

// gainOf is what a job that is a kept one saves by that: work moved first, then the points.
func gainOf(m *problem.Model, j *problem.Job, mode *problem.Mode, k *problem.Kept) int64 {
	none, as := *j, *j
	none.Kept, as.Kept = nil, k
	a, b := m.UnrestOf(&none, mode), m.UnrestOf(&as, mode)
	return (a.Moved-b.Moved)<<32 + a.Points - b.Points
}
