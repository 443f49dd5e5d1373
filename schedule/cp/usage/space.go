package usage

import (
	"sort"

	"ripeby/schedule/cp/problem"
)

// fitCost is the counted work of one question to the packing.
const fitCost = 300

// Reach lists how long boxes put into a space at a time may stay there: a piece
// for every stretch between two changes in the space. Boxes never move while
// they stand, so a later end can only be harder and the limits never fall.
func (s *Ledger) Reach(space int, kind, boxes int, lo, hi int) []Piece {
	edges := s.edges(space, lo, hi)
	out := make([]Piece, 0, len(edges))
	e := 0 // the stretches from i up to but not including e are known to fit together
	for i := 0; i+1 < len(edges); i++ {
		if e <= i {
			e = i
		}
		for e+1 < len(edges) && s.fits(space, kind, boxes, edges[i], edges[e+1]) {
			e++
		}
		if e == i {
			continue
		}
		limit := edges[e]
		if e+1 == len(edges) {
			limit = problem.Infinite
		}
		until := edges[i+1]
		if i+2 == len(edges) {
			until = problem.Infinite
		}
		out = append(out, Piece{edges[i], until, limit})
	}
	return out
}

// edges are the moments in (lo, hi) at which the space changes, with lo and a
// last moment after which nothing changes any more.
func (s *Ledger) edges(space int, lo, hi int) []int {
	sp := &s.Model.Spaces[space]
	at := []int{lo}
	put := func(t int) {
		if t > lo && t < hi {
			at = append(at, t)
		}
	}
	for i := range s.Spaces[space] {
		v := &s.Spaces[space][i]
		put(v.From)
		put(v.Until)
	}
	for _, c := range sp.Closed {
		put(c.From)
		put(c.Until)
	}
	for i := range sp.Floors {
		for _, c := range sp.Floors[i].Closed {
			put(c.From)
			put(c.Until)
		}
	}
	sort.Ints(at)
	n := 1
	for i := 1; i < len(at); i++ {
		if at[i] != at[n-1] {
			at[n] = at[i]
			n++
		}
	}
	return append(at[:n], max(hi, at[n-1]+1))
}

// fits reports whether the boxes can stand in the space all through [from, until).
func (s *Ledger) fits(space, kind, boxes int, from, until int) bool {
	_, ok := s.Settle(space, kind, boxes, from, until)
	return ok
}

// Settle finds where boxes stand in a space all through [from, until), beside
// what stands there already: first in spots of all floors that have room left, then floor after
// floor in as many new ones as each takes. As no two floors share anything, filling one to the full
// costs the next nothing.
func (s *Ledger) Settle(space, kind, boxes int, from, until int) ([]problem.Standing, bool) {
	return s.Stand(space, kind, boxes, true, from, until)
}

// Stand is settle, heeding or not heeding what is closed.
func (s *Ledger) Stand(space, kind, boxes int, heed bool, from, until int) ([]problem.Standing, bool) {
	heeds := problem.Span{}
	if heed {
		heeds = problem.Span{From: from, Until: until}
	}
	return s.standOpen(space, kind, boxes, heeds, from, until)
}

// standOpen is settle, heeding what is closed at some moment of a span; of an empty one nothing is.
func (s *Ledger) standOpen(space, kind, boxes int, heeds problem.Span, from, until int) ([]problem.Standing, bool) {
	sp := &s.Model.Spaces[space]
	closed := func(list []problem.Span) bool {
		return heeds.From < heeds.Until && problem.AnyOverlap(list, heeds.From, heeds.Until)
	}
	if closed(sp.Closed) {
		return nil, false
	}
	if len(sp.Floors) == 0 {
		return nil, s.roomFor(space, boxes, from, until)
	}
	k := &s.Model.Kinds[kind]
	var out []problem.Standing
	left := boxes
	turn := s.floorTurn(space)
	open := func(f int) bool {
		floor := &sp.Floors[f]
		return k.High(floor) > 0 && !closed(floor.Closed)
	}
	taken := make([][]spot, len(sp.Floors))
	for _, f := range turn {
		if left > 0 && open(f) && k.Shares(&sp.Floors[f]) {
			taken[f] = s.spots(space, f, from, until)
			out, left = s.share(out, left, taken[f], space, f, kind)
		}
	}
	for _, f := range turn {
		if left == 0 {
			break
		}
		if !open(f) {
			continue
		}
		floor := &sp.Floors[f]
		layers := int(k.High(floor))
		if taken[f] == nil {
			taken[f] = s.spots(space, f, from, until)
		}
		fixed := places(taken[f])
		stacks := (left + layers - 1) / layers
		if s.Arranged.mirrored() {
			fixed = mirror(floor.Size, fixed)
		}
		places := s.MostStacks(floor.Size, fixed, k.Size, stacks)
		if s.Arranged.mirrored() {
			places = mirror(floor.Size, places)
		}
		for _, p := range places {
			n := min(layers, left)
			out = append(out, problem.Standing{Space: space, Floor: f, Place: p, Boxes: n})
			left -= n
		}
	}
	return out, left == 0
}

// MostStacks places as many of n like footprints as fit.
func (s *Ledger) MostStacks(floor problem.Rect, fixed []problem.Placed, box problem.Rect, n int) []problem.Placed {
	if box.W <= 0 || box.D <= 0 {
		return nil
	}
	n = min(n, int(floor.W*floor.D/(box.W*box.D)))
	for ; n > 0; n-- {
		key := packKey(floor, fixed, box, n)
		if places, known := s.packed.known[key]; known {
			s.Spent += 20
			if places != nil {
				return places
			}
			continue
		}
		boxes := make([]problem.Rect, n)
		for i := range boxes {
			boxes[i] = box
		}
		s.Spent += fitCost
		places, ok := s.Model.FitFloor(floor, fixed, boxes)
		if !ok {
			places = nil
		}
		s.packed.known[key] = places
		if ok {
			return places
		}
	}
	return nil
}

// roomFor reports whether a counted space takes the boxes at every moment of
// [from, until).
func (s *Ledger) roomFor(space, boxes, from, until int) bool {
	capacity := s.Model.Spaces[space].Capacity
	list := s.Spaces[space]
	s.Spent += int64(len(list))
	bad := func(t int) bool {
		all := boxes
		for i := range list {
			if list[i].From <= t && t < list[i].Until {
				all += list[i].Boxes
			}
		}
		return all > capacity
	}
	if bad(from) {
		return false
	}
	for i := range list {
		if list[i].From > from && list[i].From < until && bad(list[i].From) {
			return false
		}
	}
	return true
}
