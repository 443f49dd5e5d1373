package chain

import (
	"sort"

	"ripeby/schedule/cp/problem"
)

// lagTable is what the lag after an activity costs, by its length in steps: bands of
// neighbouring lengths at one cost, the cheapest first. It is the one form in which lags
// are looked through ([leastTable.over]); the row of costs is the same spread out. All
// activities with the same lag have a table in common.
type lagTable struct {
	least, most int // lengths
	bands       []band
	reach       []band  // reach[i] spans the first i+1 bands, at the cost of the last
	row         []int32 // cost of each length from least to most, Unreachable where there is none
	flat        *lagTable
}

// band is the lengths from to to in steps, both included, at one cost.
type band struct {
	from, to int32
	cost     int32
}

// lagShape tells lags with the same tables apart from others: by where their costs are, and
// what being late weighs.
type lagShape struct {
	first, late *int32
	least, most int
	weight      int32
}

// shapeOf is the shape of a lag in a mode of such a weight.
func shapeOf(l *problem.Lag, weight int32) lagShape {
	sh := lagShape{least: l.Least, most: l.Most}
	if len(l.Cost) > 0 {
		sh.first = &l.Cost[0]
	}
	if l.Late != nil {
		sh.weight = weight
	}
	if len(l.Late) > 0 {
		sh.late = &l.Late[0]
	}
	return sh
}

// addLags adds the tables of a mode's lags, those known already once. So many activities have
// begun: their lags are over, but for the last one's, whose end is not looked for by a table.
func (p *Prepared) addLags(mode *problem.Mode, begun int, known map[lagShape]lagTables) {
	weight := weightOf(mode)
	for i := range mode.Acts {
		act := &mode.Acts[i]
		sh := shapeOf(&act.Lag, weight)
		if i < begun {
			if _, known := p.lags[act]; !known { // a job's activities may be its family's
				p.lags[act] = lagTables{lag: &act.Lag, weight: sh.weight}
			}
			continue
		}
		t, ok := known[sh]
		if !ok {
			t = tablesOf(&act.Lag, p.step, weight)
			known[sh] = t
		}
		p.lags[act] = t
	}
}

// tablesOf are the tables of a lag.
func tablesOf(l *problem.Lag, step int, weight int32) lagTables {
	if l.Late != nil {
		return lateTables(l, step, weight)
	}
	t := newLagTable(l, step)
	return lagTables{lag: l, sought: t, bother: t}
}

// newLagTable spreads a lag over the grid. A lag without costs costs nothing.
func newLagTable(l *problem.Lag, step int) *lagTable {
	o := &lagTable{least: problem.CeilTo(l.Least, step) / step, most: problem.FloorTo(l.Most, step) / step}
	if len(l.Cost) == 0 {
		o.bands = []band{{from: int32(o.least), to: int32(min(o.most, 1<<30))}}
	}
	for t := problem.CeilTo(l.Least, step); t <= l.Most && t-l.Least < len(l.Cost); t += step {
		k, c := int32(t/step), l.Cost[t-l.Least]
		if c >= problem.Never {
			continue
		}
		if n := len(o.bands) - 1; n >= 0 && o.bands[n].cost == c && o.bands[n].to == k-1 {
			o.bands[n].to = k
			continue
		}
		o.bands = append(o.bands, band{k, k, c})
	}
	sort.SliceStable(o.bands, func(i, k int) bool { return o.bands[i].cost < o.bands[k].cost })
	o.reach = append([]band(nil), o.bands...)
	for i := 1; i < len(o.reach); i++ {
		o.reach[i].from = min(o.reach[i].from, o.reach[i-1].from)
		o.reach[i].to = max(o.reach[i].to, o.reach[i-1].to)
	}
	return o
}

// within is the least and the most length, in steps, of those that cost less than the
// ceiling; not ok for none.
func (o *lagTable) within(ceiling int32) (least, most int, ok bool) {
	n := sort.Search(len(o.reach), func(i int) bool { return o.reach[i].cost >= ceiling })
	if n == 0 {
		return 0, 0, false
	}
	return int(o.reach[n-1].from), int(o.reach[n-1].to), true
}

// costs is the row, spread out once it is asked for: it is long.
func (o *lagTable) costs() []int32 {
	if o.row == nil && o.least <= o.most {
		o.row = rowOf(nil, int32(o.least), int32(o.most))
		for _, b := range o.bands {
			for x := b.from; x <= b.to; x++ {
				o.row[x-int32(o.least)] = b.cost
			}
		}
	}
	return o.row
}

// flattened is the table with nothing said of what a lag costs, but of what it cannot be.
func (o *lagTable) flattened() *lagTable {
	if o.flat == nil {
		o.flat = &lagTable{least: o.least, most: o.most, row: append([]int32(nil), o.costs()...)}
		flatten(o.flat.row)
		for _, r := range reachableOf(o.flat.row) {
			o.flat.bands = append(o.flat.bands, band{from: int32(o.least) + r.From, to: int32(o.least) + r.To})
		}
	}
	return o.flat
}

// lagOf gives the table of the lag after an activity, by what is measured.
func (s *Schedule) lagOf(act *problem.Activity, by measure) *lagTable {
	l := s.Prep.lags[act]
	switch {
	case by == lateness && l.late == nil:
		return l.bother.flattened()
	case by == lateness:
		return l.late
	case s.Flat:
		return l.bother.flattened()
	}
	return l.bother
}

// costOfLag is the cost of a lag of so many ticks, which may lie off the grid, Unreachable when
// it cannot be.
func costOfLag(lag *problem.Lag, ticks int) int32 {
	switch x := ticks - lag.Least; {
	case x < 0 || ticks > lag.Most:
		return Unreachable
	case len(lag.Cost) == 0:
		return 0
	case x >= len(lag.Cost) || lag.Cost[x] >= problem.Never:
		return Unreachable
	default:
		return lag.Cost[x]
	}
}
