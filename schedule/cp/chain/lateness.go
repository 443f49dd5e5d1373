package chain

import (
	"ripeby/schedule/cp/lags"
	"ripeby/schedule/cp/problem"
)

// What has begun may run late: its lags may go on past their time, as far as the model lets
// them ([problem.Model.Within]). How late a job is comes before what its waiting costs. A job
// is placed by one sum of both, in which being late weighs so much that nothing outweighs it;
// the tables that bound a job in a statement are of one of both alone.

// measure is what a table of chains measures.
type measure int

const (
	bother   measure = iota // what waiting and work cost
	lateness                // how late lags are
)

// lagTables are the tables of one lag: by what it is sought by, and by each measure alone.
type lagTables struct {
	lag    *problem.Lag
	weight int32 // of being late, in what it is sought by
	sought *lags.Table
	bother *lags.Table
	late   *lags.Table // nil for a lag that is never late
	turns  []turnTables
}

// turnTables are the tables of one turn of a lag.
type turnTables struct {
	from int // as [problem.Turn] has it
	lagTables
}

// at are the tables of the lag as it is when it begins at a tick.
func (t lagTables) at(begins int) lagTables {
	if len(t.turns) == 0 {
		return t
	}
	k := len(t.turns) - 1
	for k > 0 && begins < t.turns[k].from {
		k--
	}
	return t.turns[k].lagTables
}

// mostWeight is more than a chain's waiting costs, but for one that waits for months.
const mostWeight = 1 << 22

// weightOf is what one bit of lateness weighs in the sum for a mode: as much as leaves room for
// all of it. A lag whose cost would outweigh it counts for less than it costs ([lateTables]).
func weightOf(mode *problem.Mode) int32 {
	most := int64(0)
	for i := range mode.Acts {
		most += mode.Acts[i].Lag.MostLate()
	}
	return int32(min(mostWeight, int64(Unreachable-1)/(2*(most+1))))
}

// lateTables are the tables of a lag that may be late.
func lateTables(l *problem.Lag, step int, weight int32) lagTables {
	out := lagTables{lag: l, weight: weight, bother: lags.New(l, step)}
	late, sought := *l, *l
	late.Cost = make([]int32, len(l.Late))
	sought.Cost = make([]int32, len(l.Late))
	for x := range l.Late {
		late.Cost[x], sought.Cost[x] = l.Late[x], out.weighed(x)
		if x < len(l.Cost) && l.Cost[x] >= problem.Never {
			late.Cost[x], sought.Cost[x] = problem.Never, problem.Never
		}
	}
	out.late, out.sought = lags.New(&late, step), lags.New(&sought, step)
	return out
}

// lagsSummed: a lag's own cost counts for no more than this part of what lateness weighs, so
// that those of a chain together do not outweigh it.
const lagsSummed = 16

// weighed is the sum for a lag of so many ticks more than its least.
func (t *lagTables) weighed(x int) int32 {
	cost := int32(0)
	if x < len(t.lag.Cost) {
		cost = t.lag.Cost[x]
	}
	return t.lag.Late[x]*t.weight + min(cost, mostOfLag(t.weight))
}

// mostOfLag is the most that a lag's own cost counts for, by what lateness weighs.
func mostOfLag(weight int32) int32 { return (weight - 1) / lagsSummed }

// costOf is what a lag of so many ticks, which may lie off the grid, is sought by;
// Unreachable when it cannot be.
func (t lagTables) costOf(ticks int) int32 {
	cost := costOfLag(t.lag, ticks)
	if cost < Unreachable && t.lag.Late != nil {
		return t.weighed(ticks - t.lag.Least)
	}
	return cost
}
