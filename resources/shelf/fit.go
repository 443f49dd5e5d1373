package shelf

// Fit says whether all of boxes can stand on floor beside those already standing
// (fixed, never moved), and where; places are in the order of boxes and nil
// unless the answer is Yes. A box stands with its edges along the floor's, either
// way round; edges may touch.
//
// It spends at most budget on the search (see DefaultBudget) and says how much
// it spent. The answer is No only if it is proved; it is Unknown when the budget
// ran out, when the floor is longer than Longest, or when there are more sums of
// sides than SumsMost. Parts of fixed boxes beyond the floor do not count, nor do
// fixed boxes without an area. A box whose sides are not both positive fits
// nowhere. The same input always gives the same places.
func Fit(floor Rect, fixed []Placed, boxes []Rect, budget int64) (places []Placed, answer Answer, spent int64) {
	if a := atOnce(floor, boxes); a != Unknown {
		return nil, a, 0
	}
	if floor.W > Longest || floor.D > Longest {
		return nil, Unknown, 0
	}
	d := new(desk)
	s := d.lay(budget)
	answer = s.prepare(floor, fixed, boxes)
	if answer == Unknown {
		answer = s.solve()
	}
	if answer == Yes {
		places = s.places()
	}
	return places, answer, s.spent
}

// desk is a search with the first homes of its lists in one piece, so that a
// small question needs the heap once and once more for its places.
type desk struct {
	search
	homes struct {
		items   [8]item
		walls   [8]wall
		kinds   [4]kind
		choices [8]choice
		arena   [40]seg
		stood   [8]stand
		sums    [24]int64
		spots   [24]int64
	}
}

func (d *desk) lay(budget int64) *search {
	s, h := &d.search, &d.homes
	s.budget = budget
	s.items, s.walls, s.kinds = h.items[:0], h.walls[:0], h.kinds[:0]
	s.choices, s.arena, s.stood = h.choices[:0], h.arena[:0], h.stood[:0]
	s.sums.list, s.spots = h.sums[:0], h.spots[:0]
	return s
}

// atOnce answers what needs no desk: no box at all, a box that stands nowhere,
// two boxes that stand neither side by side nor behind one another, and more
// area than the floor has.
func atOnce(floor Rect, boxes []Rect) Answer {
	if len(boxes) == 0 {
		return Yes
	}
	var first, second int64 // greatest shorter sides
	for _, b := range boxes {
		if !standsAlone(floor, b) {
			return No
		}
		if short := min(b.W, b.D); short > first {
			first, second = short, first
		} else if short > second {
			second = short
		}
	}
	if second > max(floor.W, floor.D)-first {
		return No
	}
	if floor.W > Longest || floor.D > Longest {
		return Unknown // areas may be too large to add up
	}
	area := floor.W * floor.D
	for _, b := range boxes {
		if area -= b.W * b.D; area < 0 {
			return No
		}
	}
	return Unknown
}

// standsAlone reports whether one box goes on an empty floor.
func standsAlone(floor, b Rect) bool {
	return b.W > 0 && b.D > 0 &&
		(b.W <= floor.W && b.D <= floor.D || b.D <= floor.W && b.W <= floor.D)
}
