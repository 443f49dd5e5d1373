package usage

import "ripeby/schedule/cp/problem"

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
	stacks, ok := s.Stand(space, kind, boxes, true, now, max(until, now+1))
	if !ok {
		stacks, ok = s.Stand(space, kind, boxes, true, now, now+1)
	}
	if !ok {
		stacks, ok = s.Stand(space, kind, boxes, false, now, now+1)
	}
	if !ok {
		return problem.StayPlace{Space: space, Homeless: true}
	}
	return problem.StayPlace{Space: space, Stacks: stacks}
}

// holds reports whether the places of an earlier plan are still good: the right
// number of boxes, each on its floor, beside what stands there now. Boxes that are
// still in hand, to stand there only since a later moment, may count on what stands
// there now being gone by then, as the earlier plan did.
func (s *Ledger) holds(space, kind, boxes int, prefer []problem.Standing, since int) bool {
	if !s.standSound(space, kind, boxes, prefer) {
		return false
	}
	return since > s.Model.From || s.clearOf(space, prefer, s.Model.From, s.Model.From+1)
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
			k.Height*int64(st.Boxes) > f.Height {
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

// clearOf reports whether nothing else stands where the stacks do at any moment of
// [from, until).
func (s *Ledger) clearOf(space int, stacks []problem.Standing, from, until int) bool {
	for _, st := range stacks {
		for _, o := range s.obstacles(space, st.Floor, from, until) {
			if problem.Overlap(o, st.Place) {
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
	return s.clearOf(space, stacks, from, until)
}

// StayLimit is how long boxes that stand in a space now may go on standing: up to
// the first planned stay that wants their place.
func (s *Ledger) StayLimit(p problem.StayPlace, boxes int) int {
	limit := problem.Infinite
	if p.Space < 0 || p.Homeless {
		return limit
	}
	list := s.Spaces[p.Space]
	for i := range list {
		v := &list[i]
		if v.Begun || v.Until <= s.Model.From || v.From >= limit {
			continue
		}
		if len(s.Model.Spaces[p.Space].Floors) == 0 {
			if !s.roomFor(p.Space, boxes, v.From, v.From+1) {
				limit = v.From
			}
			continue
		}
		for _, a := range v.Stacks {
			for _, b := range p.Stacks {
				if a.Floor == b.Floor && problem.Overlap(a.Place, b.Place) {
					limit = v.From
				}
			}
		}
	}
	return limit
}
