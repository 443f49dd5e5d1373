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
// Time is counted as it goes by, or by moments that are so far apart as the shortest hold
// of some family: every such hold has one of them in it, and the things carry no more at each
// than they are.
//
//	holds of d     ├───────┤  ├───────┤      a stretch of 2.8 d has two moments: what is held
//	moments                │       │         for d is at most twice the capacity, not 2.8 times
//
// What does not fit is short, the least valuable for its energy first (the
// fractional knapsack, Dantzig 1957, bounds any choice). The idea of energy over
// an interval: Lopez, Erschler, Esquirol, "Ordonnancement de tâches sous
// contraintes: une approche énergétique" (1992).

// squeeze is a thing, a stretch of time and the demands that must hold the thing within it.
type squeeze struct {
	th          *thing
	ms          measure
	holds       []holdOf // of each family
	demands     []int
	from, until int
	energy      int64 // of all the demands, scaled
	capacity    int64 // scaled
}

// energyShort is the least value short that the shared things leave, promised
// demands alone and all demands together.
func energyShort(s *chain.Schedule) (promised, all int64) {
	short := func(among func(d int) bool) (most int64) {
		squeezes(s, among, func(q *squeeze) { most = max(most, q.short(s.Model)) })
		return most + unmade(s.Model, among)
	}
	return short(func(d int) bool { return s.Model.Demands[d].Promised }), short(func(int) bool { return true })
}

// unmade is the value of what no job can be made for and nothing else serves.
func unmade(m *problem.Model, among func(d int) bool) (value int64) {
	for f := range m.Families {
		if len(m.Families[f].Modes) > 0 {
			continue
		}
		owed, best := int64(0), int64(0)
		for d := range m.Demands {
			if dm := &m.Demands[d]; dm.Family == f && among(d) {
				owed, best = owed+dm.Value*int64(dm.Units), max(best, dm.Value)
			}
		}
		value += max(0, owed-best*int64(m.FreeUnits(f)))
	}
	return value
}

// squeezes calls visit for every thing, measure and pair of due dates whose demands, of those
// among, take more of the thing than it has: of all families, and of each by itself.
func squeezes(s *chain.Schedule, among func(d int) bool, visit func(*squeeze)) {
	m := s.Model
	var order []int // demands by due date
	for d := range m.Demands {
		if dm := &m.Demands[d]; dm.Value > 0 && dm.Units > 0 && len(m.Families[dm.Family].Modes) > 0 && among(d) {
			order = append(order, d)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return m.Demands[a].Due - m.Demands[b].Due })
	for _, th := range things(m) {
		for _, ms := range measures(m, &th) {
			holds, takers := make([]holdOf, len(m.Families)), 0
			for f := range m.Families {
				if holds[f] = takes(m, f, &th, ms); holds[f].perUnit > 0 {
					takers++
				}
			}
			for f := -1; f < len(m.Families); f++ {
				if f < 0 && takers < 2 || f >= 0 && holds[f].perUnit == 0 {
					continue // by itself, or not at all
				}
				some := order
				if f >= 0 {
					some = slices.DeleteFunc(slices.Clone(order), func(d int) bool { return m.Demands[d].Family != f })
				}
				s.Spent += (&squeeze{th: &th, ms: ms, holds: holds}).over(m, some, visit)
			}
		}
	}
}

// pairsLimit is the number of demands up to which every pair of their due dates bounds a
// stretch; beyond it stretches double in length, which weakens the bound only.
const pairsLimit = 60

// over calls visit for the pairs of due dates of demands, given in their order, and gives the
// counted work.
func (q *squeeze) over(m *problem.Model, order []int, visit func(*squeeze)) (spent int64) {
	due := func(x int) int { return m.Demands[order[x]].Due }
	for a := range order {
		if a > 0 && due(a) == due(a-1) {
			continue
		}
		q.from, q.until, q.energy = problem.Infinite, -problem.Infinite, 0
		gap := problem.Infinite
		next := a
		for b := a; b < len(order); b++ {
			h := &q.holds[m.Demands[order[b]].Family]
			if h.perUnit > 0 {
				q.from, gap = min(q.from, due(a)-h.before), min(gap, h.gap)
			}
			q.energy += h.perUnit * int64(m.Demands[order[b]].Units)
			if b+1 < len(order) && (due(b+1) == due(b) || len(order) > pairsLimit && b < next) {
				continue
			}
			next = b + max(1, b-a)
			q.until = due(b) - gap
			spent++
			if q.capacity = q.th.capacity(m, max(q.from, m.From), q.until, q.ms); q.energy > q.capacity {
				q.demands = order[a : b+1]
				visit(q)
				spent += int64(len(q.demands))
			}
		}
	}
	return spent
}

// lot is a demand's units in a knapsack.
type lot struct {
	units, value, energy int64
}

// short is the least value short of the demands.
func (q *squeeze) short(m *problem.Model) int64 {
	var lots []lot
	total := int64(0)
	best := make([]int64, len(m.Families))
	for _, d := range q.demands {
		dm := &m.Demands[d]
		total += dm.Value * int64(dm.Units)
		best[dm.Family] = max(best[dm.Family], dm.Value)
		lots = append(lots, lot{int64(dm.Units), dm.Value, q.holds[dm.Family].perUnit})
	}
	for f, v := range best {
		if v > 0 {
			total -= v * int64(m.FreeUnits(f))
		}
	}
	return max(0, total-mostValue(lots, q.capacity))
}

// mostValue is the most value that fits, the last lot in part.
func mostValue(lots []lot, capacity int64) int64 {
	unit := int64(0)
	for _, l := range lots {
		unit = problem.GCD(unit, l.energy)
	}
	capacity -= capacity % max(unit, 1) // no choice takes a part of it
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
