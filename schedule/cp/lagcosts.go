package cp

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
func (s *schedule) lagCosts(g grid, act *Activity) *lagCosts {
	lag := &act.Lag
	key := lagKey{n: len(lag.Cost), least: lag.Least, most: lag.Most, flat: s.flat}
	if key.n > 0 {
		key.cost = &lag.Cost[0]
	}
	l := s.prep.lagCosts[key]
	if l != nil {
		return l
	}
	l = &lagCosts{least: g.long(lag.Least)}
	if most := g.short(lag.Most); most >= l.least {
		l.cost = make([]int32, most-l.least+1)
	}
	for x := range l.cost {
		l.cost[x] = costOfLag(lag, (int(l.least)+x)*g.step)
	}
	switch {
	case s.flat:
		l.flatten()
	case key.n == 0:
		l.bands = []band{{l.least, g.short(lag.Most), 0}}
	default:
		l.bands = s.prep.lags[act].bands
	}
	s.prep.lagCosts[key] = l
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
func costOfLag(lag *Lag, ticks int) int32 {
	switch x := ticks - lag.Least; {
	case x < 0 || ticks > lag.Most:
		return unreachable
	case len(lag.Cost) == 0:
		return 0
	case x >= len(lag.Cost) || lag.Cost[x] >= Never:
		return unreachable
	default:
		return lag.Cost[x]
	}
}
