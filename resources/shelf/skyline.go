package shelf

// The skyline is what stands so far, seen from the back: for each stretch of the
// width, how far back it is used up, by boxes, walls or room left bare. Rows are
// filled from the front to the back, so nothing ever goes in front of it again.

// seg is one step of a skyline, from x to the next step's x. A firm step ends at
// the back of something; one that is not is bare room given up to the row's
// front, on which nothing can rest.
type seg struct {
	x, top int64
	firm   bool
}

// scene is one state of the search: a skyline in the arena, the row being filled
// and what may still be wasted. Scenes are values; a later one never changes an
// earlier one, so going back costs nothing.
type scene struct {
	lo, hi int   // skyline in search.arena
	y      int64 // front of the row
	spare  int64 // free area that may still be left bare
	next   int   // first wall whose front is behind y
}

// end is where the i-th step ends.
func (s *search) end(v scene, i int) int64 {
	if i+1 < v.hi {
		return s.arena[i+1].x
	}
	return s.w
}

// add writes one more step at the end of the arena, joining it to the one before
// if they are alike. lo is where the new skyline began.
func (s *search) add(lo int, g seg) {
	if n := len(s.arena); n > lo && s.arena[n-1].top == g.top && s.arena[n-1].firm == g.firm {
		return
	}
	s.arena = append(s.arena, g)
}

// cover gives the scene after [x0, x1) is used up to top by something that
// begins at from; room between the old skyline and from is wasted.
func (s *search) cover(v scene, x0, x1, from, top int64) scene {
	s.arena = s.arena[:v.hi]
	out := v
	out.lo = v.hi
	for i := v.lo; i < v.hi; i++ {
		g, end := s.arena[i], s.end(v, i)
		if end <= x0 || x1 <= g.x {
			s.add(out.lo, g)
			continue
		}
		if g.x < x0 {
			s.add(out.lo, g)
		}
		a, b := max(g.x, x0), min(end, x1)
		out.spare -= (b - a) * max(0, from-g.top)
		if top > g.top {
			s.add(out.lo, seg{a, top, true})
		} else {
			s.add(out.lo, seg{a, g.top, g.firm})
		}
		if x1 < end {
			s.add(out.lo, seg{x1, g.top, g.firm})
		}
	}
	out.hi = len(s.arena)
	return out
}

// raise gives the scene of the row that begins at y: whatever is still free
// before y is wasted, and walls that begin by then are taken in.
func (s *search) raise(v scene, y int64) scene {
	v = s.takeIn(v, y)
	s.arena = s.arena[:v.hi]
	out := v
	out.lo, out.y = v.hi, y
	for i := v.lo; i < v.hi; i++ {
		g := s.arena[i]
		if g.top < y {
			out.spare -= (s.end(v, i) - g.x) * (y - g.top)
			g.top, g.firm = y, false
		}
		s.add(out.lo, g)
	}
	out.hi = len(s.arena)
	return out
}

// takeIn covers what the walls that begin at or before y cover.
func (s *search) takeIn(v scene, y int64) scene {
	for v.next < len(s.walls) && s.walls[v.next].y0 <= y {
		q := s.walls[v.next]
		v = s.cover(v, q.x0, q.x1, q.y0, q.y1)
		v.next++
	}
	return v
}

// nextRow is the least front that a box behind the row v.y can have: the back of
// something, as each box rests on something. It is the depth of the floor if
// there is none.
func (s *search) nextRow(v scene) int64 {
	y := s.d
	for i := v.lo; i < v.hi; i++ {
		if t := s.arena[i].top; t > v.y && t < y {
			y = t
		}
	}
	for _, q := range s.walls[v.next:] {
		if q.y1 < y {
			y = q.y1
		}
	}
	return y
}

// stretch is a longest free piece of the row.
type stretch struct {
	from, to    int64
	left, right int64 // back of what stands beside it; the floor's depth at its sides
	first, past int   // its steps in the arena
}

// free finds the first stretch of the row that begins at or behind x; steps
// begin wherever a box of the row ends. ok is false when there is none.
func (s *search) free(v scene, x int64) (f stretch, ok bool) {
	i := v.lo
	for i < v.hi && (s.arena[i].top > v.y || s.arena[i].x < x) {
		i++
	}
	if i == v.hi {
		return f, false
	}
	f = stretch{from: s.arena[i].x, left: s.d, right: s.d, first: i}
	if i > v.lo {
		f.left = s.arena[i-1].top
	}
	for i < v.hi && s.arena[i].top <= v.y {
		i++
	}
	if f.to, f.past = s.w, i; i < v.hi {
		f.to, f.right = s.arena[i].x, s.arena[i].top
	}
	return f, true
}

// rests reports whether a box on [x0, x1) of the row touches something in front.
func (s *search) rests(f stretch, v scene, x0, x1 int64) bool {
	for i := f.first; i < f.past; i++ {
		if s.arena[i].firm && s.arena[i].x < x1 && s.end(v, i) > x0 {
			return true
		}
	}
	return false
}

// blocked reports whether a wall behind the row's front is in the way.
func (s *search) blocked(v scene, x0, x1, back int64) bool {
	for _, q := range s.walls[v.next:] {
		if q.y0 >= back {
			break
		}
		if q.x0 < x1 && x0 < q.x1 {
			return true
		}
	}
	return false
}
