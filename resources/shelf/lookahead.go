package shelf

// fillNarrow gives up, at once and not row by row, each stretch of the row in
// which no box finds room, as far back as the nearer of its two sides. Stretches
// with a wall behind them are left to the walls.
func (s *search) fillNarrow(v scene, short int64) scene {
	for x := int64(0); ; {
		f, ok := s.free(v, x)
		if !ok {
			return v
		}
		x = f.to
		back := min(f.left, f.right)
		if f.to-f.from >= short || s.blocked(v, f.from, f.to, back) {
			continue
		}
		v = s.cover(v, f.from, f.to, back, back)
	}
}

// wasteAhead reports whether more must be left bare than may be. A line across
// free room, from side to side or from front to back, is covered at most to the
// greatest sum of sides that is no longer than it; the rest of it is bare,
// however the boxes stand. All lines of one direction are added up.
func (s *search) wasteAhead(v scene) bool {
	s.list()
	return s.bareAcross(v) > v.spare || s.bareBehind(v) > v.spare
}

// bareAcross adds up the lines from side to side through the free stretches of
// the row, as far back as the nearer of the two sides. Stretches with a wall
// there are not counted.
func (s *search) bareAcross(v scene) (bare int64) {
	for x := int64(0); ; {
		f, ok := s.free(v, x)
		if !ok {
			return bare
		}
		x = f.to
		if back := min(f.left, f.right); !s.blocked(v, f.from, f.to, back) {
			bare += (f.to - f.from - s.sums.fill(f.to-f.from)) * (back - v.y)
		}
	}
}

// bareBehind adds up the lines from the skyline to the back of the floor.
func (s *search) bareBehind(v scene) (bare int64) {
	for i := v.lo; i < v.hi; i++ {
		for x := s.arena[i].x; x < s.end(v, i); {
			next := s.end(v, i)
			at, length := s.arena[i].top, int64(0)
			for _, q := range s.walls[v.next:] {
				if x < q.x0 {
					next = min(next, q.x0)
				} else if x < q.x1 {
					next = min(next, q.x1)
					length += max(0, q.y0-at-s.sums.fill(q.y0-at))
					at = max(at, q.y1)
				}
			}
			length += s.d - at - s.sums.fill(s.d-at)
			bare += length * (next - x)
			x = next
		}
	}
	return bare
}

// roomLeft reports whether each kind of box that does not stand yet has room
// somewhere, taken by itself. Without it, small boxes are shuffled in front of a
// back that has long been too narrow for a large one.
func (s *search) roomLeft(v scene) bool {
	for i := range s.kinds {
		k := &s.kinds[i]
		if k.left > 0 && !s.roomFor(v, k.long, k.short) && !s.roomFor(v, k.short, k.long) {
			return false
		}
	}
	return true
}

// roomFor tries a box hard against the left end of each step and of each wall:
// if it has room anywhere, it can be pushed there.
func (s *search) roomFor(v scene, w, d int64) bool {
	for i := v.lo; i < v.hi; i++ {
		if x := s.arena[i].x; x+w <= s.w && s.clearAt(v, x, w, d) {
			return true
		}
	}
	for _, q := range s.walls[v.next:] {
		if q.x1+w <= s.w && s.clearAt(v, q.x1, w, d) {
			return true
		}
	}
	return false
}

// clearAt reports whether a w x d box has room somewhere on [x, x+w): behind the
// skyline, and moved back past each wall that is in its way. Walls are sorted by
// their front, so that one pass finds them all.
func (s *search) clearAt(v scene, x, w, d int64) bool {
	y := int64(0)
	for i := v.lo; i < v.hi && s.arena[i].x < x+w; i++ {
		if s.end(v, i) > x {
			y = max(y, s.arena[i].top)
		}
	}
	for _, q := range s.walls[v.next:] {
		if q.x0 < x+w && x < q.x1 && q.y0 < y+d {
			y = max(y, q.y1)
		}
	}
	return y+d <= s.d
}
