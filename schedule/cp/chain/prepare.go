package chain

import (
	"maps"
	"sort"

	"ripeby/schedule/cp/lags"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// Prepared is what is worked out once for a model: for each lag the lengths in
// order of cost, for each worker the avoided time before every grid start, and
// the packing questions answered so far.
type Prepared struct {
	origin, step int
	avoid        [][]int32
	lags         map[*problem.Activity]lagTables
	sums         lags.Sums
	Packed       *usage.Packings
	ByDue        [][]int // demands of each family in due order
	idle         map[idleKey]IdleValue
	bare         *Schedule
	closes       bool
	crowded      map[int]bool   // families, once asked: see crowds
	Chains       map[Key]*Costs // nil for none
	works        map[workKey]*workCosts
}

func prepare(m *problem.Model) *Prepared {
	p := &Prepared{origin: problem.CeilTo(m.From, m.Step), step: m.Step,
		lags: map[*problem.Activity]lagTables{}, Packed: usage.NewPackings(m), idle: map[idleKey]IdleValue{}, closes: closesAnywhere(m), crowded: map[int]bool{}, Chains: map[Key]*Costs{}, works: map[workKey]*workCosts{}}
	p.avoid = make([][]int32, len(m.Workers))
	n := max((m.Horizon-p.origin)/m.Step, 0) + 2
	for w := range m.Workers {
		if len(m.Workers[w].Avoid) > 0 {
			p.avoid[w] = avoidBefore(m.Workers[w].Avoid, p.origin, m.Step, n)
		}
	}
	p.ByDue = demandsByDue(m)
	known := map[lagShape]lagTables{}
	for f := range m.Families {
		for k := range m.Families[f].Modes {
			p.addLags(&m.Families[f].Modes[k], 0, known)
		}
	}
	for b := range m.Begun {
		p.addLags(&m.Begun[b].Mode, len(m.Begun[b].Starts), known)
	}
	return p
}

// demandsByDue lists each family's demands in due order.
func demandsByDue(m *problem.Model) [][]int {
	out := make([][]int, len(m.Families))
	for d := range m.Demands {
		f := m.Demands[d].Family
		out[f] = append(out[f], d)
	}
	for _, list := range out {
		sort.SliceStable(list, func(i, k int) bool { return m.Demands[list[i]].Due < m.Demands[list[k]].Due })
	}
	return out
}

// avoidBefore gives the avoided ticks before each of n grid starts from origin on.
func avoidBefore(avoid []problem.Span, origin, step, n int) []int32 {
	out := make([]int32, n)
	total, a := 0, 0
	for k := 1; k < n; k++ {
		lo, hi := origin+(k-1)*step, origin+k*step
		for a < len(avoid) && avoid[a].Until <= lo {
			a++
		}
		for i := a; i < len(avoid) && avoid[i].From < hi; i++ {
			total += min(avoid[i].Until, hi) - max(avoid[i].From, lo)
		}
		out[k] = int32(total)
	}
	return out
}

// avoidCost is the points of a piece of work of length w from t on.
func (p *Prepared) avoidCost(avoid []int32, t, w int) int32 {
	last := len(avoid) - 1
	a := min((t-p.origin)/p.step, last)
	b := min((t+w-p.origin)/p.step, last)
	return (avoid[b] - avoid[a]) / problem.AvoidUnit
}

// KeepChains forgets the tables of last deliveries that a model does not have, and what
// work costs over a time that goes on and on: those of a year would fill the memory.
func (p *Prepared) KeepChains(m *problem.Model) {
	clear(p.works)
	owed := map[problem.Delivery]bool{}
	for f := range m.Families {
		for _, due := range problem.DuesOf(m, f) {
			owed[problem.Delivery{Family: f, Due: due}] = true
		}
	}
	maps.DeleteFunc(p.Chains, func(key Key, _ *Costs) bool { return key.Begun < 0 && !owed[key.last] })
}
