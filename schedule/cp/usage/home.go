package usage

import (
	"cmp"
	"slices"

	"ripeby/schedule/cp/problem"
)

// Boxes that stand somewhere at the planning start are where they are. Their
// places are found once, before anything is planned: where they stood in the
// plan before, else anywhere free, else nowhere by the measures given.

// home finds where boxes that stand in a space now, or since a moment after the
// planning start, will be taken to stand until another moment.
func (s *Ledger) home(space, kind, boxes int, prefer []problem.Standing, since, until int) problem.StayPlace {
	if space < 0 || boxes == 0 {
		return problem.StayPlace{Space: -1}
	}
	now := s.Model.From
	if len(s.Model.Spaces[space].Floors) == 0 {
		return problem.StayPlace{Space: space}
	}
	if s.holds(space, kind, boxes, prefer, since) {
		return problem.StayPlace{Space: space, Stacks: prefer}
	}
	// Closed or not, the boxes are there; where a floor is open, it is likelier there, the
	// longer the better.
	var stacks []problem.Standing
	ok := false
	for _, open := range s.openUntil(space, now, max(until, now+1)) {
		if stacks, ok = s.Stand(space, kind, boxes, true, now, open); ok {
			break
		}
	}
	if !ok {
		stacks, ok = s.Stand(space, kind, boxes, false, now, now+1)
	}
	if !ok {
		return problem.StayPlace{Space: space, Homeless: true}
	}
	return problem.StayPlace{Space: space, Stacks: stacks}
}

// openUntil are the moments up to which some floor of a space may be open that is so now, the last first: the
// end of a time, where it or a floor of it comes to be closed before that, and the next moment.
func (s *Ledger) openUntil(space, now, until int) []int {
	out := []int{until, now + 1}
	note := func(closed []problem.Span) {
		for _, c := range closed {
			if now+1 < c.From && c.From < until {
				out = append(out, c.From)
			}
		}
	}
	sp := &s.Model.Spaces[space]
	note(sp.Closed)
	for i := range sp.Floors {
		note(sp.Floors[i].Closed)
	}
	slices.SortFunc(out, func(a, b int) int { return cmp.Compare(b, a) })
	return slices.Compact(out)
}

// holds reports whether the places of an earlier plan are still good: the right
// number of boxes, each on its floor, beside what stands there now. Boxes that are
// still in hand, to stand there only since a later moment, may count on what stands
// there now being gone by then, as the earlier plan did.
func (s *Ledger) holds(space, kind, boxes int, prefer []problem.Standing, since int) bool {
	if !s.standSound(space, kind, boxes, prefer) {
		return false
	}
	return since > s.Model.From || s.clearOf(space, kind, prefer, s.Model.From, s.Model.From+1)
}

// standSound reports whether stacks are the right number of boxes of a kind, each on
// its floor and under its height, beside one another.
func (s *Ledger) standSound(space, kind, boxes int, stacks []problem.Standing) bool {
	k := &s.Model.Kinds[kind]
	n := 0
	for i, st := range stacks {
		n += st.Boxes
		if st.Space != space || st.Floor < 0 || st.Floor >= len(s.Model.Spaces[space].Floors) {
			return false
		}
		f := &s.Model.Spaces[space].Floors[st.Floor]
		p := st.Place
		same := p.W == k.Size.W && p.D == k.Size.D
		turned := p.W == k.Size.D && p.D == k.Size.W
		if !(same || turned) || p.X < 0 || p.Y < 0 || p.X+p.W > f.Size.W || p.Y+p.D > f.Size.D ||
			int64(st.Boxes) > k.High(f) {
			return false
		}
		for _, o := range stacks[:i] {
			if o.Floor == st.Floor && problem.Overlap(o.Place, p) {
				return false
			}
		}
	}
	return n == boxes && boxes > 0
}

// clearOf reports whether nothing is in the way of the stacks of a kind of box at any moment of
// [from, until).
func (s *Ledger) clearOf(space, kind int, stacks []problem.Standing, from, until int) bool {
	k := &s.Model.Kinds[kind]
	for _, st := range stacks {
		floor := &s.Model.Spaces[space].Floors[st.Floor]
		for _, o := range s.spots(space, st.Floor, from, until) {
			shared := k.Shares(floor) && o.kind == kind && o.place == st.Place && int64(o.most+st.Boxes) <= k.High(floor)
			if problem.Overlap(o.place, st.Place) && !shared {
				return false
			}
		}
	}
	return true
}

// StandsFree reports whether the stacks of an earlier plan can stand again all
// through [from, until).
func (s *Ledger) StandsFree(space, kind, boxes int, stacks []problem.Standing, from, until int) bool {
	if !s.standSound(space, kind, boxes, stacks) || problem.AnyOverlap(s.Model.Spaces[space].Closed, from, until) {
		return false
	}
	for _, st := range stacks {
		if problem.AnyOverlap(s.Model.Spaces[space].Floors[st.Floor].Closed, from, until) {
			return false
		}
	}
	return s.clearOf(space, kind, stacks, from, until)
}
