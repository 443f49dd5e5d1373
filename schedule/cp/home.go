package cp

// Boxes that stand somewhere at the planning start are where they are. Their
// places are found once, before anything is planned: where they stood in the
// plan before, else anywhere free, else nowhere by the measures given.

// home finds where boxes that stand in a space now, or since a moment after the
// planning start, will be taken to stand.
func (s *ledger) home(space, kind, boxes int, prefer []Standing, since int) StayPlace {
	if space < 0 || boxes == 0 {
		return StayPlace{Space: -1}
	}
	now := s.m.From
	if len(s.m.Spaces[space].Floors) == 0 {
		return StayPlace{Space: space}
	}
	if s.holds(space, kind, boxes, prefer, since) {
		return StayPlace{Space: space, Stacks: prefer}
	}
	// Closed or not, the boxes are there; where a floor is open, it is likelier there.
	stacks, ok := s.stand(space, kind, boxes, true, now, now+1)
	if !ok {
		stacks, ok = s.stand(space, kind, boxes, false, now, now+1)
	}
	if !ok {
		return StayPlace{Space: space, Homeless: true}
	}
	return StayPlace{Space: space, Stacks: stacks}
}

// holds reports whether the places of an earlier plan are still good: the right
// number of boxes, each on its floor, beside what stands there now. Boxes that are
// still in hand, to stand there only since a later moment, may count on what stands
// there now being gone by then, as the earlier plan did.
func (s *ledger) holds(space, kind, boxes int, prefer []Standing, since int) bool {
	if !s.standSound(space, kind, boxes, prefer) {
		return false
	}
	return since > s.m.From || s.clearOf(space, prefer, s.m.From, s.m.From+1)
}

// standSound reports whether stacks are the right number of boxes of a kind, each on
// its floor and under its height, beside one another.
func (s *ledger) standSound(space, kind, boxes int, stacks []Standing) bool {
	k := &s.m.Kinds[kind]
	n := 0
	for i, st := range stacks {
		n += st.Boxes
		if st.Space != space || st.Floor < 0 || st.Floor >= len(s.m.Spaces[space].Floors) {
			return false
		}
		f := &s.m.Spaces[space].Floors[st.Floor]
		p := st.Place
		same := p.W == k.Size.W && p.D == k.Size.D
		turned := p.W == k.Size.D && p.D == k.Size.W
		if !(same || turned) || p.X < 0 || p.Y < 0 || p.X+p.W > f.Size.W || p.Y+p.D > f.Size.D ||
			k.Height*int64(st.Boxes) > f.Height {
			return false
		}
		for _, o := range stacks[:i] {
			if o.Floor == st.Floor && overlap(o.Place, p) {
				return false
			}
		}
	}
	return n == boxes && boxes > 0
}

// clearOf reports whether nothing else stands where the stacks do at any moment of
// [from, until).
func (s *ledger) clearOf(space int, stacks []Standing, from, until int) bool {
	for _, st := range stacks {
		for _, o := range s.obstacles(space, st.Floor, from, until) {
			if overlap(o, st.Place) {
				return false
			}
		}
	}
	return true
}

// standsFree reports whether the stacks of an earlier plan can stand again all
// through [from, until).
func (s *ledger) standsFree(space, kind, boxes int, stacks []Standing, from, until int) bool {
	if !s.standSound(space, kind, boxes, stacks) || anyOverlap(s.m.Spaces[space].Closed, from, until) {
		return false
	}
	for _, st := range stacks {
		if anyOverlap(s.m.Spaces[space].Floors[st.Floor].Closed, from, until) {
			return false
		}
	}
	return s.clearOf(space, stacks, from, until)
}

func overlap(a, b Placed) bool {
	return a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.D && b.Y < a.Y+a.D
}

// stayLimit is how long boxes that stand in a space now may go on standing: up to
// the first planned stay that wants their place.
func (s *ledger) stayLimit(p StayPlace, boxes int) int {
	limit := Infinite
	if p.Space < 0 || p.Homeless {
		return limit
	}
	list := s.spaces[p.Space]
	for i := range list {
		v := &list[i]
		if v.fact || v.until <= s.m.From || v.from >= limit {
			continue
		}
		if len(s.m.Spaces[p.Space].Floors) == 0 {
			if !s.roomFor(p.Space, boxes, v.from, v.from+1) {
				limit = v.from
			}
			continue
		}
		for _, a := range v.stacks {
			for _, b := range p.Stacks {
				if a.Floor == b.Floor && overlap(a.Place, b.Place) {
					limit = v.from
				}
			}
		}
	}
	return limit
}
