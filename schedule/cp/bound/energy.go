package bound

import (
	"slices"
	"sort"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// What the shared things can carry at all.
//
// A new job that serves a demand due in [a, b] must hold its pools, and have its
// work done, within a stretch of time around it. Units times time held cannot be
// more than the things have in that stretch:
//
//	   |<-- lags at their most --|a                      b|
//	 from ────────────────────────────────────────────────── until
//	      energy of all served units  <=  capacity x length
//
// What does not fit is short, the least valuable for its energy first (the
// fractional knapsack, Dantzig 1957, bounds any choice). The idea of energy over
// an interval: Lopez, Erschler, Esquirol, "Ordonnancement de tâches sous
// contraintes: une approche énergétique" (1992).

// thing is pools that can stand for one another, or the workers taken together.
type thing struct {
	pools   []int // sorted; nil for the workers
	workers bool
}

// holdOf is what a family takes of a thing.
type holdOf struct {
	perUnit     int64 // thousandths of unit-ticks for each unit served, rounded down
	before, gap int   // it lies between due-before and due-gap
}

// energyShort is the least value short that the shared things leave, promised
// demands alone and all demands together.
func energyShort(s *chain.Schedule) (promised, all int64) {
	m := s.Model
	dues := problem.Dues(m)
	for _, th := range things(m) {
		holds := make([]holdOf, len(m.Families))
		for f := range m.Families {
			holds[f] = takes(m, f, &th)
		}
		for a := range dues {
			for b := a; b < len(dues); b = nextEnd(a, b, len(dues)) {
				p := shortWithin(m, &th, holds, dues[a], dues[b], true)
				v := shortWithin(m, &th, holds, dues[a], dues[b], false)
				promised, all = max(promised, p), max(all, v)
				s.Spent += int64(len(m.Demands))
			}
		}
	}
	return promised, all
}

// pairsLimit is the number of due dates up to which every pair of them bounds a
// stretch; beyond it stretches double in length, which weakens the bound only.
const pairsLimit = 40

func nextEnd(a, b, n int) int {
	if n <= pairsLimit {
		return b + 1
	}
	return b + max(1, b-a)
}

// things lists the sets of pools that some run may choose from, and the workers.
func things(m *problem.Model) []thing {
	out := []thing{{workers: true}}
	seen := map[string]bool{}
	for f := range m.Families {
		for k := range m.Families[f].Modes {
			for r := range m.Families[f].Modes[k].Runs {
				var pools []int
				for _, c := range m.Families[f].Modes[k].Runs[r].Choices {
					pools = append(pools, c.Pool)
				}
				slices.Sort(pools)
				key := problem.KeyOf(pools)
				if !seen[key] {
					seen[key] = true
					out = append(out, thing{pools: pools})
				}
			}
		}
	}
	return out
}

// takes is the least that a family takes of a thing for each unit it serves.
func takes(m *problem.Model, family int, th *thing) holdOf {
	var h holdOf
	f := &m.Families[family]
	for k := range f.Modes {
		mode := &f.Modes[k]
		energy, before, gap := energyOf(mode, th)
		per := energy * 1000 / int64(max(mode.Units, 1))
		if k == 0 || per < h.perUnit {
			h.perUnit = per
		}
		h.before = max(h.before, before+f.Keeps)
		if k == 0 || gap < h.gap {
			h.gap = gap
		}
	}
	return h
}

// energyOf is the least unit-ticks that a job takes of a thing, how long before the
// end of its last work it begins to take it at the most, and how long before that
// end it is done with it at the least.
func energyOf(mode *problem.Mode, th *thing) (energy int64, before, gap int) {
	if th.workers {
		for i := range mode.Acts {
			energy += int64(mode.Acts[i].Work)
		}
		return energy, mode.Between(problem.Mark{}, mode.Ready(), problem.MostLag), 0
	}
	gap = problem.Infinite
	for r := range mode.Runs {
		run := &mode.Runs[r]
		inside, clean := true, problem.Infinite
		for _, c := range run.Choices {
			at := sort.SearchInts(th.pools, c.Pool)
			inside = inside && at < len(th.pools) && th.pools[at] == c.Pool
			clean = min(clean, c.Clean)
		}
		if inside && len(run.Choices) > 0 {
			h := run.Occupied()
			energy += int64(run.Amount) * int64(mode.Between(h.From, h.Until, problem.LeastLag)+clean)
			before = max(before, mode.Between(h.From, mode.Ready(), problem.MostLag))
			gap = min(gap, mode.Between(h.Until, mode.Ready(), problem.LeastLag)-clean)
		}
	}
	if gap == problem.Infinite {
		gap = 0
	}
	return energy, before, gap
}

// lot is a demand's units in a knapsack.
type lot struct {
	units, value, energy int64
}

// shortWithin is the least value short of the demands due in [a, b] that a thing
// leaves.
func shortWithin(m *problem.Model, th *thing, holds []holdOf, a, b int, promised bool) int64 {
	var lots []lot
	total, carried := int64(0), int64(0)
	from, until := problem.Infinite, -problem.Infinite
	best := make([]int64, len(m.Families))
	for d := range m.Demands {
		dm := &m.Demands[d]
		if dm.Due < a || dm.Due > b || (promised && !dm.Promised) {
			continue
		}
		h := &holds[dm.Family]
		total += dm.Value * int64(dm.Units)
		best[dm.Family] = max(best[dm.Family], dm.Value)
		if len(m.Families[dm.Family].Modes) == 0 || dm.Value == 0 {
			continue // a lot of no value and no energy has no place in the order of lots
		}
		lots = append(lots, lot{int64(dm.Units), dm.Value, h.perUnit})
		if h.perUnit > 0 {
			from, until = min(from, a-h.before), max(until, b-h.gap)
		}
	}
	for i := range m.Stocks {
		carried += int64(m.Stocks[i].Units) * best[m.Stocks[i].Family]
	}
	for i := range m.Begun {
		carried += int64(m.Begun[i].Mode.Units) * best[m.Begun[i].Family]
	}
	capacity := capacity(m, th, max(from, m.From), until)
	return max(0, total-carried-mostValue(lots, capacity*1000))
}

// capacity is the unit-ticks that a thing has in [from, until).
func capacity(m *problem.Model, th *thing, from, until int) int64 {
	if until <= from {
		return 0
	}
	c := int64(0)
	if !th.workers {
		for _, p := range th.pools {
			c += int64(min(m.Pools[p].Capacity, 1<<20)) * int64(until-from)
		}
		return c
	}
	for w := range m.Workers {
		for _, win := range m.Workers[w].Windows {
			c += int64(max(0, min(win.Until, until)-max(win.From, from)))
		}
	}
	return c
}

// mostValue is the most value that fits, the last lot in part.
func mostValue(lots []lot, capacity int64) int64 {
	sort.SliceStable(lots, func(i, k int) bool { return lots[i].value*lots[k].energy > lots[k].value*lots[i].energy })
	value := int64(0)
	for _, l := range lots {
		if l.energy == 0 || l.energy*l.units <= capacity {
			capacity -= l.energy * l.units
			value += l.value * l.units
			continue
		}
		n := capacity / l.energy
		return value + l.value*n + (l.value*(capacity-n*l.energy)+l.energy-1)/l.energy
	}
	return value
}
