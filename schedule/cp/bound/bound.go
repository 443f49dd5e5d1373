package bound

import (
	"math/bits"
	"slices"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// Relaxation is what is known of a model's plans with parts of the kitchen left out: the
// covers of each family, and what follows from them. All plans of the model have it in
// common.
type Relaxation struct {
	Most int64 // counted work that one relaxation may take; 0 for any
	Cut  bool  // some family is not covered: that would take more

	Covers   []*coverer // of each family
	bounding []*coverer // of each family: those that bound
	layers   []*layered // of each family, once asked
	trades   []trade    // once asked
	byJobs   map[int64]int64
	alone    map[int]Alone // of each job under way, once asked

	AloneMost, AloneSpent int64 // counted work that it may take to ask that, 0 for any, and what it took

	leastBegun    int64        // penalty that they cost at the least, while they are no later than that
	Sure          problem.Cost // known otherwise: how much is stuck in every plan, and what of the promised is short
	left          int64        // jobs under way that the model leaves where they are
	noWay         int64        // jobs that could not go on even with the kitchen to themselves
	leastPromised int64        // value of promised demands short at the least, by energy
	leastShort    int64        // value short at the least, promised or not, by energy
}

// NewRelaxation is one of which nothing is known yet.
func NewRelaxation() *Relaxation {
	return &Relaxation{byJobs: map[int64]int64{}, alone: map[int]Alone{}}
}

// Cover covers each family by itself, which bounds every plan, and works out what jobs under
// way and the shared things leave at the least.
func (x *Relaxation) Cover(s *chain.Schedule) (covers []cover, bound problem.Cost) {
	m := s.Model
	for f := range m.Families {
		c, least := x.coverFamily(s, f)
		covers, bound = append(covers, c), bound.Plus(least)
	}
	for b := range m.Begun {
		if m.Begun[b].NoWay {
			x.noWay++
		}
		if m.Begun[b].Left != nil {
			x.left++
		}
		a := x.AloneUnderWay(s, b)
		x.leastBegun += a.Penalty
	}
	bound.Penalty += x.leastBegun
	if x.worth(EnergyWork(m)) {
		x.leastPromised, x.leastShort = energyShort(s)
	}
	return covers, bound
}

// coverFamily covers one family, and bounds what it costs. Where that would take more than it may, or is
// called off, nothing is known of it: it may cost nothing.
func (x *Relaxation) coverFamily(s *chain.Schedule, f int) (c cover, least problem.Cost) {
	fam := &s.Model.Families[f]
	if x.worth(coverWork(s.Model, f)) && !s.CalledOff() {
		sources := x.Sources(s, f)
		co := newCoverer(s, f, sources, fam.Serves)
		c, bounding := co.walk(), co
		least = c.cost
		if fam.Serves > 1 || rests(s, f) {
			bounding = newCoverer(s, f, sources, 1)
			bounding.loose = true
			least = bounding.walk().cost
		}
		if !co.off && !bounding.off {
			x.Covers, x.bounding = append(x.Covers, co), append(x.bounding, bounding)
			return c, least
		}
	}
	x.Cut = true
	x.Covers = append(x.Covers, &coverer{s: s, family: f, states: 1})
	return cover{}, problem.Cost{}
}

// worth reports whether a relaxation of so much work may be worked out.
func (x *Relaxation) worth(work int64) bool { return x.Most == 0 || work <= x.Most }

// coverWork is about what it takes to cover a family: the moves out of every node, three times.
func coverWork(m *problem.Model, family int) int64 {
	units, states := int64(1), int64(1)
	for d := range m.Demands {
		if dm := &m.Demands[d]; dm.Family == family && dm.Value > 0 {
			units += int64(dm.Units)
		}
	}
	for i := range m.Stocks {
		if m.Stocks[i].Family == family {
			states += int64(m.Stocks[i].Units) + 1
		}
	}
	for b := range m.Begun {
		if m.Begun[b].Family == family {
			states += int64(m.Begun[b].Mode.Units) + 1
		}
	}
	run := int64(1)
	if modes := m.Families[family].Modes; len(modes) > 0 {
		run = min(int64(modes[len(modes)-1].Units), units)
	}
	dues, placings, first := problem.DuesOf(m, family), int64(0), 0
	for x, due := range dues {
		for due-dues[first] > m.Families[family].Keeps {
			first++
		}
		placings += min(int64(x-first)+1, run)
	}
	return units*states*(run+4)*coverPasses/chain.LookUnits + placings*idleWork
}

// EnergyWork is about what it takes to ask of every stretch what the shared things leave short.
func EnergyWork(m *problem.Model) int64 {
	dues := int64(len(problem.Dues(m)))
	stretches := dues * dues / 2
	if dues > pairsLimit {
		stretches = dues * int64(bits.Len64(uint64(dues)))
	}
	return stretches * int64(len(m.Demands)) * int64(len(m.Pools)+1)
}

// A cover goes over all moves in coverPasses passes, and places a job alone for every first and
// last delivery, each in about idleWork.
const (
	coverPasses = 3
	idleWork    = 2500
)

// BoundFor gives, part by part, the best that any plan could reach given the
// cost's earlier parts. While a plan meets the families' bound in every part, the
// bound's next part holds; where it does not, what follows is bounded by what the
// value served needs at the least.
func (x *Relaxation) BoundFor(s *chain.Schedule, bound, cost problem.Cost) problem.Cost {
	early := -cost.Jobs * int64(s.Model.Horizon-s.Model.From)
	bound.Stuck = max(x.noWay, x.Sure.Stuck)
	bound.Late = x.LeastLate(s, int(cost.Stuck-x.left), -1)
	leastBegun := x.leastBegun
	if cost.Late != bound.Late || cost.Stuck != x.left {
		bound.Penalty, leastBegun = bound.Penalty-leastBegun, 0 // what is later, or left where it is, may cost less
	}
	covered := cost.PromisedShort == bound.PromisedShort && cost.Short == bound.Short
	if cost.PromisedShort != bound.PromisedShort {
		bound.Short = 0
	}
	bound.PromisedShort = max(bound.PromisedShort, x.leastPromised)
	if cost.Stuck == x.Sure.Stuck {
		bound.PromisedShort = max(bound.PromisedShort, x.Sure.PromisedShort)
	}
	bound.Short = max(bound.Short, x.leastShort-cost.PromisedShort)
	if !covered {
		bound.Jobs = max(leastJobsFor(s.Model, cost), x.jobsForShort(s, cost))
		bound.Amount = max(leastAmount(s.Model, cost), x.amountForShort(s, cost))
	} else if cost.Jobs != bound.Jobs {
		bound.Amount = leastAmount(s.Model, cost)
		if least := x.leastForJobs(s, cost.Jobs); least < noAmount {
			bound.Amount = max(bound.Amount, least)
		}
	}
	if !covered || cost.Jobs != bound.Jobs || cost.Amount != bound.Amount {
		bound.Penalty = leastBegun
	}
	if !covered || cost.Jobs != bound.Jobs || cost.Amount != bound.Amount || cost.Penalty != bound.Penalty {
		bound.Early = early
	}
	return bound
}

// LeastLate is how late the jobs under way are at the least while so many of them, whichever,
// are left where they are; but is one that is not counted, -1 for none.
func (x *Relaxation) LeastLate(s *chain.Schedule, left, but int) int64 {
	var late []int64
	for b := range s.Model.Begun {
		if b != but {
			late = append(late, x.AloneUnderWay(s, b).Late)
		}
	}
	slices.Sort(late)
	sum := int64(0)
	for _, l := range late[:max(0, len(late)-max(left, 0))] {
		sum += l
	}
	return sum
}

// leastJobsFor is how many jobs it takes at the least to serve what the cost says is
// served, at the most value that one job can carry.
func leastJobsFor(m *problem.Model, cost problem.Cost) int64 {
	need, per, _ := worthOf(m, cost)
	if need <= 0 || per <= 0 {
		return 0
	}
	return (need + per - 1) / per
}

// leastAmount is the least sum of amounts for the value served.
func leastAmount(m *problem.Model, cost problem.Cost) int64 {
	need, _, rate := worthOf(m, cost)
	if need <= 0 || rate.Amount == 0 {
		return 0
	}
	// ceil(need * amount / value) in integers; values stay far below 2^31.
	return (need*rate.Amount + rate.Value - 1) / rate.Value
}

// worthOf is what new jobs must serve at the least, the most that one can carry,
// and the best rate of value to amount.
func worthOf(m *problem.Model, cost problem.Cost) (need, per int64, best problem.Rate) {
	top := make([]int64, len(m.Families))
	for d := range m.Demands {
		need += m.Demands[d].Value * int64(m.Demands[d].Units)
		top[m.Demands[d].Family] = max(top[m.Demands[d].Family], m.Demands[d].Value)
	}
	need -= cost.PromisedShort + cost.Short
	for i := range m.Stocks {
		need -= int64(m.Stocks[i].Units) * top[m.Stocks[i].Family]
	}
	for b := range m.Begun {
		need -= int64(m.Begun[b].Mode.Units) * top[m.Begun[b].Family]
	}
	for f := range m.Families {
		for k := range m.Families[f].Modes {
			mode := &m.Families[f].Modes[k]
			v := int64(mode.Units) * top[f]
			per = max(per, v)
			if r := (problem.Rate{Value: v, Amount: mode.Amount}); r.Better(best) {
				best = r
			}
		}
	}
	return need, per, best
}
