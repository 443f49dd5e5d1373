package shelf

// search is one depth-first search over a room.
type search struct {
	room
	kinds   []kind
	choices []choice
	left    int // boxes not yet standing

	budget, spent int64
	proving       bool // bounds and memory are switched on

	arena []seg
	stood []stand
	sums  sums
	spots []int64 // left edges, ascending: sums from the floor's edge and from walls
	memo  memo

	partial bool // sums or spots could not all be listed
	missed  bool // and some that are not were to be tried
}

// kind is all boxes with the same two sides: items[first : first+count].
type kind struct {
	long, short  int64
	first, count int
	left         int
}

// choice is a kind one way round.
type choice struct {
	kind int
	w, d int64
}

// stand is a box that stands: its kind, its corner and its sides.
type stand struct {
	kind       int
	x, y, w, d int64
}

// sort groups the items into kinds.
func (s *search) sort() {
	for i, it := range s.items {
		n := len(s.kinds)
		if n == 0 || s.kinds[n-1].long != it.long || s.kinds[n-1].short != it.short {
			s.kinds = append(s.kinds, kind{long: it.long, short: it.short, first: i})
			n++
		}
		s.kinds[n-1].count++
	}
}

// reset puts the boxes of the first so many kinds back, leaves the others out,
// and starts from the empty floor.
func (s *search) reset(kinds int) scene {
	spare := s.room.spare
	s.left = 0
	for i := range s.kinds {
		k := &s.kinds[i]
		k.left = k.count
		if i >= kinds {
			k.left = 0
			spare += int64(k.count) * k.long * k.short
		}
		s.left += k.left
	}
	s.stood = s.stood[:0]
	s.arena = append(s.arena[:0], seg{0, 0, true})
	return scene{lo: 0, hi: 1, spare: spare}
}

// run searches from the empty floor, for the boxes of the first so many kinds,
// with so much work.
func (s *search) run(kinds int, work int64) Answer {
	total := s.budget
	if work < total-s.spent {
		s.budget = s.spent + work
	}
	a := s.row(s.takeIn(s.reset(kinds), 0))
	s.budget = total
	if a == No && s.missed {
		return Unknown
	}
	return a
}

// row begins a row: room too narrow for any box is given up, and what is known
// to fail is not tried again.
func (s *search) row(v scene) Answer {
	short := s.shortest()
	if v.y+short > s.d {
		return No
	}
	v = s.fillNarrow(v, short)
	if v.spare < 0 {
		return No
	}
	if !s.proving {
		return s.along(v, 0)
	}
	if s.wasteAhead(v) || !s.roomLeft(v) {
		return No
	}
	if s.memo.has(s, v) {
		return No
	}
	a := s.along(v, 0)
	if a == No {
		s.memo.put(s, v)
	}
	return a
}

// shortest is the least side of a box that does not stand yet.
func (s *search) shortest() int64 {
	least := s.d + s.w
	for i := range s.kinds {
		if k := &s.kinds[i]; k.left > 0 && k.short < least {
			least = k.short
		}
	}
	return least
}

// along goes on with the row at x: it tries each box and each way round in the
// first free stretch, hard against its left end first, then leaves the rest of
// the stretch bare. Boxes are therefore placed from left to right in rows from
// front to back, each set of positions in one order only.
func (s *search) along(v scene, x int64) Answer {
	if s.spent >= s.budget {
		return Unknown
	}
	s.spent++
	f, ok := s.free(v, x)
	if !ok {
		y := s.nextRow(v)
		if y >= s.d {
			return No
		}
		return s.row(s.raise(v, y))
	}
	short := s.shortest()
	if f.to-f.from >= short {
		if a := s.place(v, f, f.from, 0); a != No {
			return a
		}
		if a := s.apart(v, f, short); a != No {
			return a
		}
		if len(s.walls) == v.next && (f.to-f.from)*min(short, s.nextRow(v)-v.y) > v.spare {
			return No
		}
	}
	return s.along(v, f.to)
}

// apart tries the positions in the stretch that touch nothing in this row on
// their left. Such a box touches something that begins behind the row: a wall,
// or a box that rests on what stands left of the stretch and overhangs it.
func (s *search) apart(v scene, f stretch, short int64) Answer {
	last := f.to - short
	if last <= f.from || f.left >= s.d && v.next == len(s.walls) {
		return No
	}
	s.list()
	s.missed = s.missed || s.partial
	for i := after(s.spots, f.from); i < len(s.spots) && s.spots[i] <= last; i++ {
		x := s.spots[i]
		reach := f.left
		for _, q := range s.walls[v.next:] {
			if q.x0 < x && f.from < q.x1 && q.y0 < reach {
				reach = q.y0
			}
		}
		if v.spare < (x-f.from)*(min(s.nextRow(v), v.y+short)-v.y) && v.next == len(s.walls) {
			return No
		}
		if a := s.place(v, f, x, reach-v.y); a != No {
			return a
		}
	}
	return No
}

// place tries every kind both ways round with its left front corner at x in the
// row; it must be deeper than over.
func (s *search) place(v scene, f stretch, x, over int64) Answer {
	for i := range s.choices {
		c := &s.choices[i]
		k := &s.kinds[c.kind]
		if k.left == 0 || x+c.w > f.to || c.d <= over || v.y+c.d > s.d {
			continue
		}
		if !s.rests(f, v, x, x+c.w) || s.blocked(v, x, x+c.w, v.y+c.d) {
			continue
		}
		k.left--
		s.left--
		s.stood = append(s.stood, stand{c.kind, x, v.y, c.w, c.d})
		if s.left == 0 {
			return Yes
		}
		if a := s.along(s.cover(v, x, x+c.w, v.y, v.y+c.d), x+c.w); a != No {
			return a
		}
		s.stood = s.stood[:len(s.stood)-1]
		s.left++
		k.left++
	}
	return No
}

// places gives the boxes that stand in the order of the input.
func (s *search) places() []Placed {
	out := make([]Placed, len(s.items))
	for i := range s.kinds {
		s.kinds[i].left = 0
	}
	for _, p := range s.stood {
		k := &s.kinds[p.kind]
		out[s.items[k.first+k.left].at] = s.placed(p.x, p.y, p.w, p.d)
		k.left++
	}
	return out
}
