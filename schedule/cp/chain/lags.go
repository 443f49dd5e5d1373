package chain

import (
	"ripeby/schedule/cp/problem"
)

// lagCosts is what the lag after an activity costs, by its length in steps. All activities
// with the same lag have it in common.
type lagCosts struct {
	least int32   // the least length
	cost  []int32 // from there on
	bands []band  // the same, the cheapest first
}

// lagKey names a lag: modes share what it costs, which is long.
type lagKey struct {
	cost           *int32
	n, least, most int
	flat           bool
}

// lagCosts gives the costs of the lag after an activity.
func (s *Schedule) lagCosts(g problem.Grid, act *problem.Activity) *lagCosts {
	lag := &act.Lag
	key := lagKey{n: len(lag.Cost), least: lag.Least, most: lag.Most, flat: s.Flat}
	if key.n > 0 {
		key.cost = &lag.Cost[0]
	}
	l := s.Prep.lagCosts[key]
	if l != nil {
		return l
	}
	l = &lagCosts{least: g.Long(lag.Least)}
	if most := g.Short(lag.Most); most >= l.least {
		l.cost = make([]int32, most-l.least+1)
	}
	for x := range l.cost {
		l.cost[x] = costOfLag(lag, (int(l.least)+x)*g.Step)
	}
	switch {
	case s.Flat:
		l.flatten()
	case key.n == 0:
		l.bands = []band{{l.least, g.Short(lag.Most), 0}}
	default:
		l.bands = s.Prep.lags[act].bands
	}
	s.Prep.lagCosts[key] = l
	return l
}

// flatten takes away what a lag costs, and leaves what it cannot be.
func (l *lagCosts) flatten() {
	flatten(l.cost)
	for _, r := range reachableOf(l.cost) {
		l.bands = append(l.bands, band{from: l.least + r.From, to: l.least + r.To})
	}
}

// costOfLag is the cost of a lag of so many ticks, unreachable when it cannot be.
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
