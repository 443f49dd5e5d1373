package cp

import "sort"

// fitCost is the counted work of one question to the packing.
const fitCost = 300

// reach lists how long boxes put into a space at a time may stay there: a piece
// for every stretch between two changes in the space. Boxes never move while
// they stand, so a later end can only be harder and the limits never fall.
func (s *ledger) reach(space int, kind, boxes int, lo, hi int) []piece {
	edges := s.edges(space, lo, hi)
	out := make([]piece, 0, len(edges))
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
			limit = Infinite
		}
		until := edges[i+1]
		if i+2 == len(edges) {
			until = Infinite
		}
		out = append(out, piece{edges[i], until, limit})
	}
	return out
}

// edges are the moments in (lo, hi) at which the space changes, with lo and a
// last moment after which nothing changes any more.
func (s *ledger) edges(space int, lo, hi int) []int {
	sp := &s.m.Spaces[space]
	at := []int{lo}
	put := func(t int) {
		if t > lo && t < hi {
			at = append(at, t)
		}
	}
	for i := range s.spaces[space] {
		v := &s.spaces[space][i]
		put(v.from)
		put(v.until)
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
func (s *ledger) fits(space, kind, boxes int, from, until int) bool {
	_, ok := s.settle(space, kind, boxes, from, until)
	return ok
}

// settle finds where boxes stand in a space all through [from, until), beside
// what stands there already: floor after floor, as many stacks as each takes. As
// no two floors share anything, filling one to the full costs the next nothing.
func (s *ledger) settle(space, kind, boxes int, from, until int) ([]Standing, bool) {
	return s.stand(space, kind, boxes, true, from, until)
}

// stand is settle, heeding or not heeding what is closed.
func (s *ledger) stand(space, kind, boxes int, heed bool, from, until int) ([]Standing, bool) {
	sp := &s.m.Spaces[space]
	if heed && anyOverlap(sp.Closed, from, until) {
		return nil, false
	}
	if len(sp.Floors) == 0 {
		return nil, s.roomFor(space, boxes, from, until)
	}
	k := &s.m.Kinds[kind]
	var out []Standing
	left := boxes
	for _, f := range s.floorTurn(space) {
		if left == 0 {
			break
		}
		floor := &sp.Floors[f]
		if k.Height <= 0 || k.Height > floor.Height || (heed && anyOverlap(floor.Closed, from, until)) {
			continue
		}
		layers := int(floor.Height / k.Height)
		fixed := s.obstacles(space, f, from, until)
		stacks := (left + layers - 1) / layers
		if s.arranged.mirrored() {
			fixed = mirror(floor.Size, fixed)
		}
		places := s.mostStacks(floor.Size, fixed, k.Size, stacks)
		if s.arranged.mirrored() {
			places = mirror(floor.Size, places)
		}
		for _, p := range places {
			n := min(layers, left)
			out = append(out, Standing{space, f, p, n})
			left -= n
		}
	}
	return out, left == 0
}

// mostStacks places as many of n like footprints as fit.
func (s *ledger) mostStacks(floor Rect, fixed []Placed, box Rect, n int) []Placed {
	if box.W <= 0 || box.D <= 0 {
		return nil
	}
	n = min(n, int(floor.W*floor.D/(box.W*box.D)))
	for ; n > 0; n-- {
		key := packKey(floor, fixed, box, n)
		if places, known := s.packed.known[key]; known {
			s.spent += 20
			if places != nil {
				return places
			}
			continue
		}
		boxes := make([]Rect, n)
		for i := range boxes {
			boxes[i] = box
		}
		s.spent += fitCost
		places, ok := s.m.Packing(floor, fixed, boxes)
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

// packKey names a packing question; equal questions have equal answers.
func packKey(floor Rect, fixed []Placed, box Rect, n int) string {
	b := make([]byte, 0, 40*(len(fixed)+2))
	num := func(v int64) {
		for v >= 0x80 {
			b = append(b, byte(v)|0x80)
			v >>= 7
		}
		b = append(b, byte(v))
	}
	num(floor.W)
	num(floor.D)
	num(box.W)
	num(box.D)
	num(int64(n))
	for _, p := range fixed {
		num(p.X)
		num(p.Y)
		num(p.W)
		num(p.D)
	}
	return string(b)
}

// obstacles are the footprints that stand on a floor at some moment of
// [from, until), in a fixed order, each once.
func (s *ledger) obstacles(space, floor int, from, until int) []Placed {
	var out []Placed
	for i := range s.spaces[space] {
		v := &s.spaces[space][i]
		if v.from >= until {
			break
		}
		if v.until <= from {
			continue
		}
		for _, st := range v.stacks {
			if st.Floor == floor {
				out = append(out, st.Place)
			}
		}
	}
	sort.Slice(out, func(i, k int) bool {
		a, b := out[i], out[k]
		switch {
		case a.Y != b.Y:
			return a.Y < b.Y
		case a.X != b.X:
			return a.X < b.X
		case a.W != b.W:
			return a.W < b.W
		default:
			return a.D < b.D
		}
	})
	n := 0
	for i := range out {
		if i == 0 || out[i] != out[n-1] {
			out[n] = out[i]
			n++
		}
	}
	return out[:n]
}

// roomFor reports whether a counted space takes the boxes at every moment of
// [from, until).
func (s *ledger) roomFor(space, boxes, from, until int) bool {
	capacity := s.m.Spaces[space].Capacity
	list := s.spaces[space]
	s.spent += int64(len(list))
	bad := func(t int) bool {
		all := boxes
		for i := range list {
			if list[i].from <= t && t < list[i].until {
				all += list[i].boxes
			}
		}
		return all > capacity
	}
	if bad(from) {
		return false
	}
	for i := range list {
		if list[i].from > from && list[i].from < until && bad(list[i].from) {
			return false
		}
	}
	return true
}

func anyOverlap(spans []Span, from, until int) bool {
	for _, c := range spans {
		if c.From < until && from < c.Until {
			return true
		}
	}
	return false
}
