package chain

import (
	"math"

	"ripeby/schedule/cp/lags"
	"ripeby/schedule/cp/problem"
)

// A lag may be another one by when it begins ([problem.Turn]). A chain is placed with each of its lags
// as it is from the start in question on; the tables of chains alone know for each start which turn
// holds, so they are as exact as without.

// placesOf is one turn of a lag in a row of starts: those from one place up to another, left out.
type placesOf struct {
	from, until int
	table       lagTables
}

// turnsOf divides a row of so many starts, of which the first has its lag begin at a tick, by the
// turns of that lag.
func (s *Schedule) turnsOf(t lagTables, begins, size int) []placesOf {
	if len(t.turns) == 0 {
		return []placesOf{{0, size, t}}
	}
	var out []placesOf
	for k, turn := range t.turns {
		p := placesOf{0, size, turn.lagTables}
		if k > 0 {
			p.from = max(problem.CeilTo(turn.from-begins, s.Model.Step)/s.Model.Step, 0)
		}
		if k+1 < len(t.turns) {
			p.until = min(max(problem.CeilTo(t.turns[k+1].from-begins, s.Model.Step)/s.Model.Step, 0), size)
		}
		if p.from < p.until {
			out = append(out, p)
		}
	}
	return out
}

// lagTurn is one turn of an activity's lag, for starts from a step on, before the next turn's.
type lagTurn struct {
	from  int32
	table *lags.Table
}

// lagTurnsOf are the turns of the lag after activity i; nil where it is the same at any time.
func (s *Schedule) lagTurnsOf(g problem.Grid, act *problem.Activity, by measure) []lagTurn {
	t := s.Prep.lags[act]
	var out []lagTurn
	for k, turn := range t.turns {
		from := int32(math.MinInt32)
		if k > 0 {
			from = g.Up(turn.from - act.Work)
		}
		out = append(out, lagTurn{from, s.tableOf(turn.lagTables, by)})
	}
	return out
}

// turn is the table of the lag after activity i that starts at a step, and the step at which the
// next turn begins.
func (z *SizeCosts) turn(i int, start int32) (table *lags.Table, until int32) {
	turns := z.turns[i]
	if len(turns) == 0 {
		return z.lags[i], math.MaxInt32
	}
	k := len(turns) - 1
	for k > 0 && start < turns[k].from {
		k--
	}
	if k+1 < len(turns) {
		return turns[k].table, turns[k+1].from
	}
	return turns[k].table, math.MaxInt32
}

// Turns reports whether the lag after activity i is another one by when it begins: then Lags and Least
// have what any of its turns lets in, at the least, and CostOf has what it costs.
func (z *SizeCosts) Turns(i int) bool { return len(z.turns[i]) > 0 }

// CostOf is what the lag after activity i costs that starts at a step, when the next one starts at
// another; Unreachable where it cannot be.
func (z *SizeCosts) CostOf(i int, start, next int32) int32 {
	table, _ := z.turn(i, start)
	cost, x := table.Costs(), int(next-start-z.Work[i])-table.Least
	if x < 0 || x >= len(cost) {
		return Unreachable
	}
	return cost[x]
}

// cheapestInto is, for each start at which somebody can do activity i, the least that a chain costs up
// to there, its own work left out, of a row of what chains cost up to the starts of the one before.
func (z *SizeCosts) cheapestInto(i int, row []int32, s *Schedule) []int32 {
	shift := -z.Work[i-1] - z.Lo[i-1]
	if len(z.turns[i-1]) == 0 {
		return z.leastSums(z.At[i], z.lags[i-1], -1, row, shift, s)
	}
	best := lags.RowOf(nil, 0, int32(len(z.At[i]))-1)
	for from := 0; from < len(row); {
		table, until := z.turn(i-1, z.Lo[i-1]+int32(from))
		to := int(min(int64(until)-int64(z.Lo[i-1]), int64(len(row))))
		part := lags.RowOf(nil, 0, int32(len(row))-1)
		copy(part[from:to], row[from:to])
		for k, v := range z.leastSums(z.At[i], table, -1, part, shift, s) {
			best[k] = min(best[k], v)
		}
		from = to
	}
	return best
}

// cheapestOn is, for each start at which somebody can do activity i, the least that its lag and a chain
// from there on cost, of a row of what chains cost from the starts of the next one on.
func (z *SizeCosts) cheapestOn(i int, row []int32, s *Schedule) []int32 {
	shift := z.Work[i] - z.Lo[i+1]
	if len(z.turns[i]) == 0 {
		return z.leastSums(z.At[i], z.lags[i], 1, row, shift, s)
	}
	var out []int32
	for from := 0; from < len(z.At[i]); {
		table, until := z.turn(i, z.At[i][from])
		to := from
		for to < len(z.At[i]) && z.At[i][to] < until {
			to++
		}
		out = append(out, z.leastSums(z.At[i][from:to], table, 1, row, shift, s)...)
		from = to
	}
	return out
}
