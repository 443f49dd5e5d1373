package chain

import (
	"ripeby/schedule/cp/lags"
	"ripeby/schedule/cp/problem"
)

// lagShape tells lags with the same tables apart from others: by where their costs are, and
// what being late weighs.
type lagShape struct {
	first, late *int32
	least, most int
	weight      int32
	turns       *problem.Turn
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
	if len(l.Turns) > 0 {
		sh.turns = &l.Turns[0]
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
				p.lags[act] = untabled(&act.Lag, sh.weight)
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

// untabled is a lag that is not looked for by a table.
func untabled(l *problem.Lag, weight int32) lagTables {
	out := lagTables{lag: l, weight: weight}
	for _, t := range l.Turns {
		out.turns = append(out.turns, turnTables{t.From, untabled(t.Lag, weight)})
	}
	return out
}

// tablesOf are the tables of a lag.
func tablesOf(l *problem.Lag, step int, weight int32) lagTables {
	var out lagTables
	if l.Late != nil {
		out = lateTables(l, step, weight)
	} else {
		t := lags.New(l, step)
		out = lagTables{lag: l, sought: t, bother: t}
	}
	for _, t := range l.Turns {
		out.turns = append(out.turns, turnTables{t.From, tablesOf(t.Lag, step, weight)})
	}
	return out
}

// lagOf gives the table of the lag after an activity, by what is measured.
func (s *Schedule) lagOf(act *problem.Activity, by measure) *lags.Table {
	return s.tableOf(s.Prep.lags[act], by)
}

func (s *Schedule) tableOf(l lagTables, by measure) *lags.Table {
	switch {
	case by == lateness && l.late == nil:
		return l.bother.Flattened()
	case by == lateness:
		return l.late
	case s.Flat:
		return l.bother.Flattened()
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
