package cp

import "sort"

// Where boxes that stand on one floor are put decides what fits beside them later.
// The rule of placing takes the first floor and the corner at its origin; other
// arrangements take the floors in another order or begin at another corner. All
// take equally many boxes now. They are tried for boxes that stand somewhere at
// the planning start, whose places nobody told, and now and then for others.

// arrangement is one of arrangements: the order of floors, and the corner.
type arrangement int

// arrangements is the number of ways: four orders of floors from two corners.
const arrangements = 8

// mirrored reports whether boxes are put from the far corner.
func (a arrangement) mirrored() bool { return a >= arrangements/2 }

// floorTurn is the order in which a space's floors are tried.
func (s *state) floorTurn(space int) []int {
	floors := s.m.Spaces[space].Floors
	turn := upTo(len(floors))
	area := func(i int) int64 { return floors[turn[i]].Size.W * floors[turn[i]].Size.D }
	switch s.arranged % (arrangements / 2) {
	case 1:
		for i, k := 0, len(turn)-1; i < k; i, k = i+1, k-1 {
			turn[i], turn[k] = turn[k], turn[i]
		}
	case 2:
		sort.SliceStable(turn, func(i, k int) bool { return area(i) < area(k) })
	case 3:
		sort.SliceStable(turn, func(i, k int) bool { return area(i) > area(k) })
	}
	return turn
}

// mirror turns places on a floor half round, so that what was near its origin is
// far from it.
func mirror(floor Rect, list []Placed) []Placed {
	out := make([]Placed, len(list))
	for i, p := range list {
		out[i] = Placed{floor.W - p.X - p.W, floor.D - p.Y - p.D, p.W, p.D}
	}
	return out
}

// otherHomes are states whose boxes stand in other ways at the planning start; none
// when every place is known or there is no choice.
func (s *state) otherHomes() []*state {
	var out []*state
	seen := [][]StayPlace{s.allHomes()}
	for a := arrangement(1); a < arrangements; a++ {
		o := newState(s.m, s.prep)
		o.arranged = a
		o.settleHomes()
		o.arranged = 0
		o.leastBegun, o.leastPromised, o.leastShort = s.leastBegun, s.leastPromised, s.leastShort
		homes := o.allHomes()
		same := false
		for _, h := range seen {
			same = same || sameHomes(h, homes)
		}
		if !same {
			seen = append(seen, homes)
			out = append(out, o)
		}
	}
	return out
}

// allHomes are the places of stock and of running stays.
func (s *state) allHomes() []StayPlace {
	out := append([]StayPlace(nil), s.homes...)
	for i := range s.stocks {
		out = append(out, s.stocks[i].Place)
	}
	return out
}

func sameHomes(a, b []StayPlace) bool {
	for i := range a {
		if a[i].Space != b[i].Space || a[i].Homeless != b[i].Homeless || len(a[i].Stacks) != len(b[i].Stacks) {
			return false
		}
		for k := range a[i].Stacks {
			if a[i].Stacks[k] != b[i].Stacks[k] {
				return false
			}
		}
	}
	return true
}
