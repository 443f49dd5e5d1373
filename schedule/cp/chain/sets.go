package chain

import (
	"slices"

	"ripeby/schedule/cp/lags"
	"ripeby/schedule/cp/steps"
)

// Where nothing that can be costs anything, the tables of a chain only say which starts can
// be. Sets of steps say that shortly: a working day is one range.

// fewBands reports whether every lag has so few stretches of what can be that looking them
// all through is one unit of counted work, as it is for sets.
func (z *SizeCosts) fewBands() bool {
	turns := slices.ContainsFunc(z.turns, func(t []lagTurn) bool { return len(t) > 0 }) // a set has no room for them
	return !turns && !slices.ContainsFunc(z.lags, func(l *lags.Table) bool { return l != nil && len(l.Bands) >= tableShare })
}

// fillSets narrows lo and hi to starts that some chain has, and fills least; false when there
// is none. What it does is counted as it is with rows: see [SizeCosts.through].
func (c *Costs) fillSets(fixed int, s *Schedule) bool {
	n := len(c.Lo)
	sets := make([][][]steps.Range, len(c.Sizes)) // of each size and activity, with those of larger sizes
	for k := len(c.Sizes) - 1; k >= 0; k-- {
		sets[k] = make([][]steps.Range, n)
		if z := c.Sizes[k]; z.Lo != nil {
			sets[k] = z.throughSets(fixed, s)
		}
		for i := fixed; i < n && k+1 < len(c.Sizes); i++ {
			sets[k][i] = steps.Union(sets[k][i], sets[k+1][i])
		}
	}
	for i := fixed; i < n; i++ {
		all := sets[0][i]
		if len(all) == 0 {
			return false
		}
		c.Lo[i], c.Hi[i] = all[0].From, all[len(all)-1].To
		c.Least[i] = make([]Row, len(c.Sizes))
		for k := len(c.Sizes) - 1; k >= 0; k-- {
			if k+1 < len(c.Sizes) && slices.Equal(sets[k][i], sets[k+1][i]) {
				c.Least[i][k] = c.Least[i][k+1]
				continue
			}
			c.Least[i][k] = newRow(lags.RowOf(sets[k][i], c.Lo[i], c.Hi[i]))
		}
	}
	return true
}

// throughSets are the starts of every activity that some chain has.
func (z *SizeCosts) throughSets(fixed int, s *Schedule) [][]steps.Range {
	n := len(z.At)
	out := make([][]steps.Range, n)
	for i := fixed; i < n; i++ {
		out[i] = z.can[i]
		switch {
		case i > fixed:
			out[i] = steps.Meet(out[i], z.overSets(i-1, 1, out[i-1]))
			s.Spent += int64(len(z.Any[i-1]))/tableShare + 1 + int64(len(z.At[i]))
		case fixed > 0:
			out[i] = steps.Meet(out[i], steps.Shifted(lags.ReachableOf(z.First), z.Lo[i], z.Lo[i]))
		}
	}
	rest := z.can[n-1]
	for i := n - 2; i >= fixed; i-- {
		rest = steps.Meet(z.can[i], z.overSets(i, -1, rest))
		out[i] = steps.Meet(out[i], rest)
		s.Spent += int64(len(z.Any[i+1]))/tableShare + 1 + int64(len(z.At[i]))
	}
	return out
}

// overSets is what lies a work of activity i and its lag after the steps of a set, or before
// them.
func (z *SizeCosts) overSets(i int, way int32, set []steps.Range) []steps.Range {
	var out []steps.Range
	for _, b := range z.lags[i].Bands {
		a, b := way*(z.Work[i]+b.From), way*(z.Work[i]+b.To)
		out = steps.Union(out, steps.Shifted(set, min(a, b), max(a, b)))
	}
	return out
}

// nestStarts fills starts.
func (c *Costs) nestStarts(p *Prospect) {
	c.Starts = make([][][][]steps.Range, len(c.Lo))
	for i := p.Fixed; i < len(c.Lo); i++ {
		workers := 1
		if act := &p.Modes[0].Acts[i]; act.Work > 0 {
			workers = len(act.Workers)
		}
		c.Starts[i] = make([][][]steps.Range, workers)
		for w := range c.Starts[i] {
			sets := make([][]steps.Range, len(c.Sizes))
			for k := len(c.Sizes) - 1; k >= 0; k-- {
				if z := c.Sizes[k]; z.Lo != nil {
					sets[k] = z.open[i][min(w, len(z.open[i])-1)]
				}
				if k+1 < len(c.Sizes) {
					sets[k] = steps.Union(sets[k], sets[k+1])
				}
			}
			c.Starts[i][w] = sets
		}
	}
}

// Sets of steps of the grid are sorted ranges, apart from one another. None is changed
// once it is made, so that many can have it in common.
