package cp

import (
	"slices"

	"ripeby/schedule/cp/global"
)

// Where nothing that can be costs anything, the tables of a chain only say which starts can
// be. Sets of steps say that shortly: a working day is one range.

// fewBands reports whether every lag has so few stretches of what can be that looking them
// all through is one unit of counted work, as it is for sets.
func (z *sizeCosts) fewBands() bool {
	return !slices.ContainsFunc(z.bands, func(b []band) bool { return len(b) >= tableShare })
}

// fillSets narrows lo and hi to starts that some chain has, and fills least; false when there
// is none. What it does is counted as it is with rows: see [sizeCosts.through].
func (c *chainCosts) fillSets(fixed int, s *schedule) bool {
	n := len(c.lo)
	sets := make([][][]global.Range, len(c.sizes)) // of each size and activity, with those of larger sizes
	for k := len(c.sizes) - 1; k >= 0; k-- {
		sets[k] = make([][]global.Range, n)
		if z := c.sizes[k]; z.lo != nil {
			sets[k] = z.throughSets(fixed, s)
		}
		for i := fixed; i < n && k+1 < len(c.sizes); i++ {
			sets[k][i] = union(sets[k][i], sets[k+1][i])
		}
	}
	for i := fixed; i < n; i++ {
		all := sets[0][i]
		if len(all) == 0 {
			return false
		}
		c.lo[i], c.hi[i] = all[0].From, all[len(all)-1].To
		c.least[i] = make([]costRow, len(c.sizes))
		for k := len(c.sizes) - 1; k >= 0; k-- {
			if k+1 < len(c.sizes) && slices.Equal(sets[k][i], sets[k+1][i]) {
				c.least[i][k] = c.least[i][k+1]
				continue
			}
			c.least[i][k] = newCostRow(rowOf(sets[k][i], c.lo[i], c.hi[i]))
		}
	}
	return true
}

// rowOf is a row in which what is in a set costs nothing, and nothing else can be.
func rowOf(set []global.Range, lo, hi int32) []int32 {
	row := make([]int32, hi-lo+1)
	at := lo
	for _, r := range set {
		for ; at < r.From; at++ {
			row[at-lo] = unreachable
		}
		at = r.To + 1
	}
	for ; at <= hi; at++ {
		row[at-lo] = unreachable
	}
	return row
}

// throughSets are the starts of every activity that some chain has.
func (z *sizeCosts) throughSets(fixed int, s *schedule) [][]global.Range {
	n := len(z.at)
	out := make([][]global.Range, n)
	for i := fixed; i < n; i++ {
		out[i] = z.can[i]
		switch {
		case i > fixed:
			out[i] = meet(out[i], z.overSets(i-1, 1, out[i-1]))
			s.spent += int64(len(z.any[i-1]))/tableShare + 1 + int64(len(z.at[i]))
		case fixed > 0:
			out[i] = meet(out[i], shifted(reachableOf(z.first), z.lo[i], z.lo[i]))
		}
	}
	rest := z.can[n-1]
	for i := n - 2; i >= fixed; i-- {
		rest = meet(z.can[i], z.overSets(i, -1, rest))
		out[i] = meet(out[i], rest)
		s.spent += int64(len(z.any[i+1]))/tableShare + 1 + int64(len(z.at[i]))
	}
	return out
}

// overSets is what lies a work of activity i and its lag after the steps of a set, or before
// them.
func (z *sizeCosts) overSets(i int, way int32, set []global.Range) []global.Range {
	var out []global.Range
	for _, b := range z.bands[i] {
		a, b := way*(z.work[i]+b.from), way*(z.work[i]+b.to)
		out = union(out, shifted(set, min(a, b), max(a, b)))
	}
	return out
}

// nestStarts fills starts.
func (c *chainCosts) nestStarts(p *prospect) {
	c.starts = make([][][][]global.Range, len(c.lo))
	for i := p.fixed; i < len(c.lo); i++ {
		workers := 1
		if act := &p.modes[0].Acts[i]; act.Work > 0 {
			workers = len(act.Workers)
		}
		c.starts[i] = make([][][]global.Range, workers)
		for w := range c.starts[i] {
			sets := make([][]global.Range, len(c.sizes))
			for k := len(c.sizes) - 1; k >= 0; k-- {
				if z := c.sizes[k]; z.lo != nil {
					sets[k] = z.open[i][min(w, len(z.open[i])-1)]
				}
				if k+1 < len(c.sizes) {
					sets[k] = union(sets[k], sets[k+1])
				}
			}
			c.starts[i][w] = sets
		}
	}
}
