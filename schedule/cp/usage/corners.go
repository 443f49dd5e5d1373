package usage

import (
	"cmp"
	"slices"

	"ripeby/schedule/cp/problem"
)

// Where boxes that stand on one floor are put decides what fits beside them later.
// The rule of placing takes the first floor and the corner at its origin; other
// arrangements take the floors in another order or begin at another corner. All
// take equally many boxes now. They are tried for boxes that stand somewhere at
// the planning start, whose places nobody told, and now and then for others.

// Arrangement is one of arrangements: the order of floors, and the corner.
type Arrangement int

// Arrangements is the number of ways: four orders of floors from two corners.
const Arrangements = 8

// mirrored reports whether boxes are put from the far corner.
func (a Arrangement) mirrored() bool { return a >= Arrangements/2 }

// floorTurn is the order in which a space's floors are tried.
func (s *Ledger) floorTurn(space int) []int {
	return s.packed.turns[space][s.Arranged%(Arrangements/2)]
}

// floorTurns are the orders of a space's floors: as they are, the other way round,
// the smallest first and the largest first.
func floorTurns(floors []problem.Floor) [Arrangements / 2][]int {
	area := func(i int) int64 { return floors[i].Size.W * floors[i].Size.D }
	var turns [Arrangements / 2][]int
	for a := range turns {
		turns[a] = problem.UpTo(len(floors))
	}
	slices.Reverse(turns[1])
	slices.SortStableFunc(turns[2], func(i, k int) int { return cmp.Compare(area(i), area(k)) })
	slices.SortStableFunc(turns[3], func(i, k int) int { return cmp.Compare(area(k), area(i)) })
	return turns
}

// mirror turns places on a floor half round, so that what was near its origin is
// far from it.
func mirror(floor problem.Rect, list []problem.Placed) []problem.Placed {
	out := make([]problem.Placed, len(list))
	for i, p := range list {
		out[i] = problem.Placed{X: floor.W - p.X - p.W, Y: floor.D - p.Y - p.D, W: p.W, D: p.D}
	}
	return out
}

// AllHomes are the places of stock and of running stays.
func (s *Ledger) AllHomes() []problem.StayPlace {
	out := append([]problem.StayPlace(nil), s.Homes...)
	for i := range s.Stocks {
		out = append(out, s.Stocks[i].Place)
	}
	return out
}
