package lags

import (
	"sort"

	"ripeby/schedule/cp/problem"
)

// Unreachable is the cost of what cannot be.
const Unreachable int32 = 1 << 29

// Table is what the lag after an activity costs, by its length in steps: bands of
// neighbouring lengths at one cost, the cheapest first. It is the one form in which lags
// are looked through ([Sums]); the row of costs is the same spread out. All
// activities with the same lag have a table in common.
type Table struct {
	Least, Most int // lengths in steps
	Bands       []Band
	reach       []Band  // reach[i] spans the first i+1 bands, at the cost of the last
	row         []int32 // cost of each length from least to most, Unreachable where there is none
	flat        *Table
	hull        *convexCost // once asked for, nil also where it is none
	asked       bool
}

// Band is the lengths from to to in steps, both included, at one cost.
type Band struct {
	From, To int32
	Cost     int32
}

// New spreads a lag over the grid. A lag without costs costs nothing.
func New(l *problem.Lag, step int) *Table {
	o := &Table{Least: problem.CeilTo(l.Least, step) / step, Most: problem.FloorTo(l.Most, step) / step}
	if len(l.Cost) == 0 {
		o.Bands = []Band{{From: int32(o.Least), To: int32(min(o.Most, 1<<30))}}
	}
	for t := problem.CeilTo(l.Least, step); t <= l.Most && t-l.Least < len(l.Cost); t += step {
		k, c := int32(t/step), l.Cost[t-l.Least]
		if c >= problem.Never {
			continue
		}
		if n := len(o.Bands) - 1; n >= 0 && o.Bands[n].Cost == c && o.Bands[n].To == k-1 {
			o.Bands[n].To = k
			continue
		}
		o.Bands = append(o.Bands, Band{k, k, c})
	}
	sort.SliceStable(o.Bands, func(i, k int) bool { return o.Bands[i].Cost < o.Bands[k].Cost })
	o.reach = append([]Band(nil), o.Bands...)
	for i := 1; i < len(o.reach); i++ {
		o.reach[i].From = min(o.reach[i].From, o.reach[i-1].From)
		o.reach[i].To = max(o.reach[i].To, o.reach[i-1].To)
	}
	return o
}

// Within is the least and the most length, in steps, of those that cost less than the
// ceiling; not ok for none.
func (o *Table) Within(ceiling int32) (least, most int, ok bool) {
	n := sort.Search(len(o.reach), func(i int) bool { return o.reach[i].Cost >= ceiling })
	if n == 0 {
		return 0, 0, false
	}
	return int(o.reach[n-1].From), int(o.reach[n-1].To), true
}

// Costs is the row, spread out once it is asked for: it is long.
func (o *Table) Costs() []int32 {
	if o.row == nil && o.Least <= o.Most {
		o.row = RowOf(nil, int32(o.Least), int32(o.Most))
		for _, b := range o.Bands {
			for x := b.From; x <= b.To; x++ {
				o.row[x-int32(o.Least)] = b.Cost
			}
		}
	}
	return o.row
}

// convex is the costs as a convex function that is rounded up, nil where they are not.
func (o *Table) convex() *convexCost {
	if !o.asked {
		o.asked, o.hull = true, newConvexCost(o.Least, o.Costs())
	}
	return o.hull
}

// Flattened is the table with nothing said of what a lag costs, but of what it cannot be.
func (o *Table) Flattened() *Table {
	if o.flat == nil {
		o.flat = &Table{Least: o.Least, Most: o.Most, row: append([]int32(nil), o.Costs()...)}
		Flatten(o.flat.row)
		for _, r := range ReachableOf(o.flat.row) {
			o.flat.Bands = append(o.flat.Bands, Band{From: int32(o.Least) + r.From, To: int32(o.Least) + r.To})
		}
	}
	return o.flat
}
