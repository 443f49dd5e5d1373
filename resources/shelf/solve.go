package shelf

import (
	"cmp"
	"slices"
)

// dive is the work of one quick try, beside two positions for each box.
const dive = 64

// solve tries quick dives in several orders, patterns of blocks where they
// apply, and then searches until it has found places or proved that there are
// none.
func (s *search) solve() Answer {
	s.sort()
	equal := len(s.kinds) == 1 && len(s.walls) == 0
	if equal {
		k := &s.kinds[0]
		if atMost(s.w, s.d, k.long, k.short) < int64(k.count) {
			return No
		}
	}
	work := dive + int64(2*len(s.items))
	for order := range orders {
		s.choose(order)
		if a := s.run(len(s.kinds), work); a != Unknown || s.spent >= s.budget {
			return a
		}
	}
	if equal && s.patterns() {
		return Yes
	}
	return s.prove()
}

// prove searches until the end. The kinds with the largest boxes are tried by
// themselves before: if they find no places, nor do all, and many small boxes
// would hide that for long. These trials take a quarter of the work at most.
func (s *search) prove() Answer {
	s.choose(deepest)
	s.proving = true
	share := (s.budget - s.spent) / int64(4*len(s.kinds))
	for n := 1; n < len(s.kinds); n++ {
		if s.run(n, share) == No {
			return No
		}
	}
	return s.run(len(s.kinds), s.budget)
}

// patterns looks for enough equal boxes in patterns of blocks, with half the
// work that is left at most.
func (s *search) patterns() bool {
	k := &s.kinds[0]
	work := (s.budget - s.spent) / 2
	b, spent, ok := newBlocks(s.w, s.d, k.long, k.short, work)
	s.spent += spent
	if !ok {
		return false
	}
	p, spent := b.whirl(int64(k.count), work-spent)
	s.spent += spent
	if int(p.count) < k.count {
		return false
	}
	s.stood = append(s.stood[:0], b.stand(p)[:k.count]...)
	return true
}

// The orders in which boxes are tried. Largest, longer side along the row, comes
// first because a dive that fills rows with few boxes ends soonest; the proof
// goes deepest first, which was quickest on the published pallets.
const (
	largest = iota
	deepest
	widest
	largestTurned
	orders
)

// choose lists the kinds, both ways round, in the order in which they are tried.
func (s *search) choose(order int) {
	s.choices = s.choices[:0]
	for i := range s.kinds {
		k := &s.kinds[i]
		s.choices = append(s.choices, choice{i, k.long, k.short})
		if k.long != k.short {
			s.choices = append(s.choices, choice{i, k.short, k.long})
		}
	}
	switch order {
	case deepest:
		slices.SortStableFunc(s.choices, func(a, b choice) int { return cmp.Compare(b.d, a.d) })
	case widest:
		slices.SortStableFunc(s.choices, func(a, b choice) int { return cmp.Compare(b.w, a.w) })
	case largestTurned:
		slices.SortStableFunc(s.choices, func(a, b choice) int {
			return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(b.d, a.d))
		})
	}
}
