package chain

import (
	"ripeby/schedule/cp/lags"
	"ripeby/schedule/cp/problem"
)

// lagShape tells lags with the same table apart from others: by where their costs are.
type lagShape struct {
	first       *int32
	least, most int
}

// addLags adds the tables of a mode's lags, those known already once.
func (p *Prepared) addLags(mode *problem.Mode, known map[lagShape]*lags.Table) {
	weight := weightOf(mode)
	for i := range mode.Acts {
		act := &mode.Acts[i]
		if act.Lag.Late != nil {
			p.lags[act] = lateTables(&act.Lag, p.step, weight)
			continue
		}
		sh := lagShape{least: act.Lag.Least, most: act.Lag.Most}
		if len(act.Lag.Cost) > 0 {
			sh.first = &act.Lag.Cost[0]
		}
		t := known[sh]
		if t == nil {
			t = lags.New(&act.Lag, p.step)
			known[sh] = t
		}
		p.lags[act] = lagTables{lag: &act.Lag, sought: t, bother: t}
	}
}

// lagOf gives the table of the lag after an activity, by what is measured.
func (s *Schedule) lagOf(act *problem.Activity, by measure) *lags.Table {
	l := s.Prep.lags[act]
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
