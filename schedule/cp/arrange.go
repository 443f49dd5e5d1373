package cp

import (
	"cmp"
	"slices"
)

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
func (s *ledger) floorTurn(space int) []int {
	return s.packed.turns[space][s.arranged%(arrangements/2)]
}

// floorTurns are the orders of a space's floors: as they are, the other way round,
// the smallest first and the largest first.
func floorTurns(floors []Floor) [arrangements / 2][]int {
	area := func(i int) int64 { return floors[i].Size.W * floors[i].Size.D }
	var turns [arrangements / 2][]int
	for a := range turns {
		turns[a] = upTo(len(floors))
	}
	slices.Reverse(turns[1])
	slices.SortStableFunc(turns[2], func(i, k int) int { return cmp.Compare(area(i), area(k)) })
	slices.SortStableFunc(turns[3], func(i, k int) int { return cmp.Compare(area(k), area(i)) })
	return turns
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
func (s *plan) otherHomes() []*plan {
	var out []*plan
	seen := [][]StayPlace{s.allHomes()}
	for a := arrangement(1); a < arrangements; a++ {
		o := s.emptied(s.m)
		o.arranged = a
		o.settleHomes()
		o.arranged = 0
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
func (s *ledger) allHomes() []StayPlace {
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
