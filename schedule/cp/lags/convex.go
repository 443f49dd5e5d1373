package lags

import "slices"

// What a lag costs is mostly convex but for being in whole units: nothing over what is wanted, and
// on either side the more the further off. Then the cheapest length after each of many starts need
// not be looked for start by start: the best place to go on never moves back as the start moves on.
//
//	place to go on      .  .  .  x  .  .  .  .        x is best after the start in the middle;
//	                          └──┤                    those before it need look no further right,
//	                             ├──┘                 those after it no further left
//
// So the middle start is tried with all places, and each half with its own, and so on: n log n looks
// for n starts, however many different costs the lag has. This is the divide-and-conquer form of the
// search for row minima of totally monotone matrices; see Aggarwal, Klawe, Moran, Shor, Wilber,
// "Geometric applications of a matrix-searching algorithm" (1987).
//
// Whole units are no hindrance. Where a cost is a convex function rounded up, so is its least sum
// with a row of whole numbers: rounding up keeps order.

// fine is in how many parts a unit of cost is counted where it is convex.
const fine = 1 << 14

// convexCost is a convex cost of each length of a lag from the least to the most, in parts of a unit;
// rounded up it is what the lag costs.
type convexCost struct {
	least, most int
	cost        []int64
}

// newConvexCost gives the greatest convex function below a row of costs, one for each length from
// the least on; nil where the row is not that rounded up, or something between cannot be.
func newConvexCost(least int, row []int32) *convexCost {
	if len(row) == 0 || slices.Max(row) >= Unreachable/fine {
		return nil
	}
	// Corners of the convex hull from below.
	var hull []int
	for x := range row {
		for len(hull) > 1 {
			a, b := hull[len(hull)-2], hull[len(hull)-1]
			if int64(row[b]-row[a])*int64(x-a) < int64(row[x]-row[a])*int64(b-a) {
				break
			}
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, x)
	}
	out := &convexCost{least: least, most: least + len(row) - 1, cost: make([]int64, len(row))}
	out.cost[0] = int64(row[0]) * fine
	for i := 1; i < len(hull); i++ {
		out.line(hull[i-1], hull[i], int64(row[hull[i]]-row[hull[i-1]])*fine)
	}
	for x, c := range row {
		if (out.cost[x]+fine-1)/fine != int64(c) {
			return nil
		}
	}
	return out
}

// line fills what is between two corners by whole slopes that never fall and come to the rise.
func (c *convexCost) line(from, to int, rise int64) {
	n := int64(to - from)
	slope := rise / n
	if slope*n > rise {
		slope-- // rounded down
	}
	steeper := int(rise - slope*n) // so many are one more
	for x := from + 1; x <= to; x++ {
		c.cost[x] = c.cost[x-1] + slope
		if x > to-steeper {
			c.cost[x]++
		}
	}
}
