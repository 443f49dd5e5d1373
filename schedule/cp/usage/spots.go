package usage

import (
	"cmp"
	"slices"

	"ripeby/schedule/cp/problem"
)

// A spot is a place on a floor with the boxes that stand there, of one stay or, where their kind
// stacks on its own, of several. What counts over a time is how many are there at once at the most:
// when some below leave, the others come down.
//
//	boxes   4 ┤        ┌───┐
//	        2 ┤  ┌─────┘   └──────┐
//	        1 ┤──┘                └──
//	          └──┬────────────────┬──── time
//	            from            until     most: 4

// spot is a place that is taken at some moment of a time.
type spot struct {
	place problem.Placed
	kind  int // -1: of several kinds, one after another
	most  int // boxes at once
}

// spots are the places on a floor at which something stands at some moment of [from, until), in a
// fixed order, each once.
func (s *Ledger) spots(space, floor, from, until int) []spot {
	type boxes struct {
		place             problem.Placed
		kind, from, until int
		n                 int
	}
	var list []boxes
	for i := range s.Spaces[space] {
		v := &s.Spaces[space][i]
		if v.From >= until {
			break
		}
		if v.Until <= from {
			continue
		}
		for _, st := range v.Stacks {
			if st.Floor == floor {
				list = append(list, boxes{st.Place, v.Kind, v.From, v.Until, st.Boxes})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b boxes) int { return comparePlaces(a.place, b.place) })
	var out []spot
	for i := 0; i < len(list); {
		sp, e := spot{place: list[i].place, kind: list[i].kind}, i
		for e < len(list) && list[e].place == sp.place {
			e++
		}
		for k := i; k < e; k++ {
			if list[k].kind != sp.kind {
				sp.kind = -1
			}
			n, at := 0, max(list[k].from, from)
			for o := i; o < e; o++ {
				if list[o].from <= at && at < list[o].until {
					n += list[o].n
				}
			}
			sp.most = max(sp.most, n)
		}
		out = append(out, sp)
		i = e
	}
	return out
}

// comparePlaces orders places from front to back, then from left to right.
func comparePlaces(a, b problem.Placed) int {
	return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X), cmp.Compare(a.W, b.W), cmp.Compare(a.D, b.D))
}

// places are where spots are.
func places(list []spot) []problem.Placed {
	out := make([]problem.Placed, len(list))
	for i := range list {
		out[i] = list[i].place
	}
	return out
}

// share puts boxes of a kind, as many as can, into the spots of a floor that are taken by such, and
// gives how many are left.
func (s *Ledger) share(out []problem.Standing, left int, taken []spot, space, floor, kind int) ([]problem.Standing, int) {
	layers := int(s.Model.Kinds[kind].High(&s.Model.Spaces[space].Floors[floor]))
	for i := range taken {
		sp := &taken[i]
		if sp.kind != kind || sp.most >= layers || left == 0 {
			continue
		}
		inWay := func(o spot) bool { return o.place != sp.place && problem.Overlap(o.place, sp.place) }
		if s.Spent += int64(len(taken)); slices.ContainsFunc(taken, inWay) {
			continue
		}
		n := min(layers-sp.most, left)
		out = append(out, problem.Standing{Space: space, Floor: floor, Place: sp.place, Boxes: n})
		left -= n
	}
	return out, left
}

// StayLimit is how long boxes of a kind that stand in a space now may go on standing: up to
// the first planned stay that wants their place, or has no more room in their spot.
func (s *Ledger) StayLimit(p problem.StayPlace, kind, boxes int) int {
	limit := problem.Infinite
	if p.Space < 0 || p.Homeless {
		return limit
	}
	list := s.Spaces[p.Space]
	for i := range list {
		v := &list[i]
		if v.Until <= s.Model.From || v.From >= limit {
			continue
		}
		if len(s.Model.Spaces[p.Space].Floors) == 0 {
			if !v.Begun && !s.roomFor(p.Space, boxes, v.From, v.From+1) {
				limit = v.From
			}
			continue
		}
		for _, st := range p.Stacks {
			if s.crowds(v, kind, st) {
				limit = max(v.From, s.Model.From)
			}
		}
	}
	return limit
}

// crowds reports whether the coming of a visit leaves boxes of a kind that stand in a spot already
// no room there: by what is planned, for what has begun may stand as it likes.
func (s *Ledger) crowds(v *Visit, kind int, st problem.Standing) bool {
	k, floor := &s.Model.Kinds[kind], &s.Model.Spaces[st.Space].Floors[st.Floor]
	for _, a := range v.Stacks {
		if a.Floor != st.Floor || !problem.Overlap(a.Place, st.Place) {
			continue
		}
		if v.Kind != kind || a.Place != st.Place || !k.Shares(floor) {
			return !v.Begun
		}
		n, planned := s.inSpot(st, max(v.From, s.Model.From))
		return planned && int64(n+st.Boxes) > k.High(floor)
	}
	return false
}

// inSpot is how many boxes stand in a spot at a moment, and whether some of them are planned.
func (s *Ledger) inSpot(at problem.Standing, now int) (n int, planned bool) {
	list := s.Spaces[at.Space]
	s.Spent += int64(len(list))
	for i := range list {
		if v := &list[i]; v.From <= now && now < v.Until {
			for _, st := range v.Stacks {
				if st.Floor == at.Floor && st.Place == at.Place {
					n, planned = n+st.Boxes, planned || !v.Begun
				}
			}
		}
	}
	return n, planned
}
