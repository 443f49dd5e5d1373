package shelf

import "slices"

// SumsMost is how many sums of box sides are listed. With more of them a search
// that finds no places answers Unknown; it takes many boxes of many odd sizes.
const SumsMost = 1 << 14

// sums is an ascending list of lengths that box sides add up to.
type sums struct {
	list  []int64
	most  int64 // longest length of interest
	limit int
	full  bool // there are more than limit
}

func (s *sums) begin(most int64, limit int) {
	s.list, s.most, s.limit = append(s.list[:0], 0), most, limit
}

// widen adds the sums with one more box, either way round.
func (s *sums) widen(long, short int64) {
	for _, x := range s.list {
		if x+short <= s.most {
			s.list = append(s.list, x+short)
		}
		if x+long <= s.most {
			s.list = append(s.list, x+long)
		}
	}
	slices.Sort(s.list)
	s.list = slices.Compact(s.list)
	s.full = len(s.list) > s.limit
}

// fill is the greatest sum that is at most length, and length itself if not all
// sums are known.
func (s *sums) fill(length int64) int64 {
	i := after(s.list, length)
	if s.full || i == 0 {
		return length
	}
	return s.list[i-1]
}

// list makes the sums of sides, each box counted once and one way round, and the
// positions that begin at a wall: every left edge in a packing that is pushed to
// the left is one of those (see the package's documentation).
func (s *search) list() {
	if len(s.sums.list) > 0 {
		return
	}
	s.sums.begin(max(s.w, s.d), SumsMost)
	for _, k := range s.kinds {
		for range k.count {
			n := len(s.sums.list)
			if s.sums.widen(k.long, k.short); len(s.sums.list) == n {
				break // one more of the kind makes no new sum
			}
			if s.sums.full {
				s.partial = true
				return
			}
		}
	}
	s.listSpots()
}

// listSpots makes the positions from the sums.
func (s *search) listSpots() {
	s.spots = append(s.spots[:0], s.sums.list...)
	for i, q := range s.walls {
		if q.x1 >= s.w || i > 0 && q.x1 == s.walls[i-1].x1 {
			continue
		}
		for _, x := range s.sums.list {
			if q.x1+x < s.w {
				s.spots = append(s.spots, q.x1+x)
			}
		}
		slices.Sort(s.spots)
		s.spots = slices.Compact(s.spots)
		if len(s.spots) > SumsMost {
			s.partial = true
			return
		}
	}
}

// after is the index of the first of the ascending xs that is greater than x.
func after(xs []int64, x int64) int {
	i, j := 0, len(xs)
	for i < j {
		if m := (i + j) / 2; xs[m] <= x {
			i = m + 1
		} else {
			j = m
		}
	}
	return i
}
