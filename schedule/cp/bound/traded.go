package bound

import (
	"cmp"
	"math/bits"
	"slices"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// What a plan that is short must still make.
//
// A plan short of more than the covers may need fewer jobs than they do, but not many
// fewer: each job left out leaves its units short. So a walk is priced: a move costs so
// much for each of its amount and so much for each value short, and the walk is layered
// by the most jobs that it may still make.
//
//	least(u, k) = min over moves of  price(move) + least(next, k less a new job)
//
// A job's run may leave units within it short, the least valuable ones:
//
//	due       Sat  Sat  Wed  Sat
//	unit       o────o────x────o     served, served, short, served
//
// With nothing but value short priced, the sums over families say how little can be
// short with so many jobs, and so how many jobs a plan short of so much has at the
// least. With both priced, less the price of what the plan is short of, they bound its
// amount (Lagrangian relaxation: Geoffrion, "Lagrangean relaxation for integer
// programming", 1974). Several prices are tried; each gives a bound.

// prices is what a walk pays for each of amount and of value short.
type prices struct{ amount, short int64 }

// So many prices of value short are tried, each twice the one before; the first is
// that part of what the covers' amount is for all value.
const (
	priceSteps = 7
	priceFirst = 4
)

// span is a run of units of which one job serves the most valuable.
type span struct {
	length int
	price  int64
}

// spansFrom lists the runs that one job can serve from unit u on, at their least price.
func (c *coverer) spansFrom(u int, p prices) []span {
	f := &c.s.Model.Families[c.family]
	if len(f.Modes) == 0 {
		return nil
	}
	var out []span
	var top []int64 // the largest values of the run's units, the largest first, as many as a job gives
	all := int64(0) // the sum of all of them
	able := make([]int8, len(f.Modes))
	for m := 1; u+m <= len(c.Units) && c.Units[u+m-1].due-c.Units[u].due <= f.Keeps; m++ {
		last := &c.Units[u+m-1]
		all += last.value
		at, _ := slices.BinarySearchFunc(top, last.value, func(v, w int64) int { return cmp.Compare(w, v) })
		if top = slices.Insert(top, at, last.value); len(top) >= len(c.modeFor) {
			top = top[:len(c.modeFor)-1]
		}
		ends := []problem.Share{{Demand: c.Units[u].demand, Units: 1}, {Demand: last.demand, Units: 1}}
		w := c.window(ends)
		if w.ReadyMin > w.ReadyMax {
			break
		}
		if m == 1 || last.demand != c.Units[u+m-2].demand {
			clear(able)
		}
		if best, ok := c.spanPrice(top, all, ends, able, p); ok {
			out = append(out, span{m, best})
		}
	}
	return out
}

// spanPrice is the least price of a run with units of such values. What modes have been
// found able (1) or not (-1) to keep the run's window is kept in able.
func (c *coverer) spanPrice(top []int64, all int64, ends []problem.Share, able []int8, p prices) (best int64, some bool) {
	f := &c.s.Model.Families[c.family]
	for n := 1; n <= len(top); n++ {
		all -= top[n-1] // the rest is short
		mode := c.modeFor[n]
		if able[mode] == 0 {
			able[mode] = -1
			if c.possible(mode, ends) {
				able[mode] = 1
			}
		}
		if v := p.amount*f.Modes[mode].Amount + p.short*all; able[mode] > 0 && (!some || v < best) {
			best, some = v, true
		}
	}
	return best, some
}

// priced gives the least price of a whole walk with so many new jobs, from none to most,
// noAmount where there is none, and the counted work. Where some units are worth
// nothing, a plan may have jobs beside the walk's: then it is with at most so many.
func (c *coverer) priced(p prices, most int) (least []int64, spent int64) {
	rows := make([][][]int64, len(c.Units)+1) // by unit and state
	behind, far := c.behind(), c.farthest()
	for u := len(c.Units); u >= 0; u-- {
		var spans []span
		if u < len(c.Units) {
			spans = c.spansFrom(u, p)
		}
		rows[u] = make([][]int64, c.states)
		for st := c.states - 1; st >= 0; st-- {
			if next := behind(u, st); next >= 0 {
				rows[u][st] = rows[u][next]
				continue
			}
			rows[u][st] = c.pricedRow(rows, u, st, spans, p, most)
			spent += 4 + int64((len(spans)+2)*most)/8
		}
		if u+far+1 < len(rows) {
			rows[u+far+1] = nil // nothing reaches so far any more
		}
	}
	least = rows[0][0]
	if c.anyWorthless() {
		for k := 1; k <= most; k++ {
			least[k] = min(least[k], least[k-1])
		}
	}
	return least, spent
}

// pricedRow is the row of one node, from those of later ones.
func (c *coverer) pricedRow(rows [][][]int64, u, st int, spans []span, p prices, most int) []int64 {
	row := make([]int64, most+1)
	for k := range row {
		row[k] = noAmount
	}
	if u == len(c.Units) && st == c.states-1 {
		row[0] = 0
		return row
	}
	c.sourceEdges(u, st, func(e edge) {
		price := p.short * (e.cost.PromisedShort + e.cost.Short)
		for k, v := range rows[e.to/c.states][e.to%c.states] {
			row[k] = min(row[k], v+price)
		}
	})
	for _, sp := range spans {
		to := rows[u+sp.length][st]
		for k := 1; k <= most; k++ {
			row[k] = min(row[k], to[k-1]+sp.price)
		}
	}
	return row
}

// behind gives a function that tells to which state a node may go at once because its
// source serves nothing from the unit on; -1 where it must not.
func (c *coverer) behind() func(u, st int) int {
	source, last := make([]int, c.states), make([]int, len(c.sources))
	source[c.states-1] = -1
	for x := range c.sources {
		for k := 0; k <= c.sources[x].units; k++ {
			source[c.first[x]+k] = x
		}
		last[x] = -1
		for u := range c.Units {
			if c.serveable(&c.sources[x], &c.Units[u]) {
				last[x] = u
			}
		}
	}
	return func(u, st int) int {
		x := source[st]
		switch {
		case x < 0 || u <= last[x]:
			return -1
		case x+1 < len(c.sources):
			return c.first[x+1]
		}
		return c.states - 1
	}
}

// farthest is the most units that one job's run can span.
func (c *coverer) farthest() int {
	far, from := 1, 0
	for u := range c.Units {
		for c.Units[u].due-c.Units[from].due > c.s.Model.Families[c.family].Keeps {
			from++
		}
		far = max(far, u-from+1)
	}
	return far
}

// trade is what all families' walks come to at some prices, by the number of jobs.
type trade struct {
	p     prices
	least []int64
}

// tradesFor works out the trades for up to so many jobs; they are kept. The first prices
// nothing but value short.
func (x *Relaxation) tradesFor(s *chain.Schedule, jobs int) []trade {
	if len(x.trades) > 0 && len(x.trades[0].least) > jobs {
		return x.trades
	}
	if x.Cut || s.CalledOff() { // of what is not covered nothing is known
		return nil
	}
	most := jobs + jobs/4
	if !x.worth(x.tradeWork(most)) {
		return nil
	}
	all := append([]prices{{0, 1}}, x.pricesFor(s.Model, most)...)
	x.trades = nil
	for _, p := range all {
		sum := noneButZero(most + 1)
		for _, c := range x.bounding {
			least, spent := c.priced(p, most)
			s.Spent += spent / chain.LookUnits
			sum = leastSums(sum, least)
		}
		x.trades = append(x.trades, trade{p, sum})
	}
	return x.trades
}

// tradeWork is about what it takes to work out the trades.
func (x *Relaxation) tradeWork(most int) int64 {
	work := int64(most) * int64(most)
	for _, c := range x.bounding {
		spans := int64(c.farthest())
		work += int64(len(c.Units)) * (spans*int64(len(c.modeFor)) + int64(c.states)*(spans+2)*int64(most))
	}
	return work * (priceSteps + 1) / (2 * chain.LookUnits)
}

// pricesFor are the prices tried beside value short alone. Any would do for a bound;
// these are about what value is worth in amount, and small enough to be summed up.
func (x *Relaxation) pricesFor(m *problem.Model, most int) []prices {
	value, amount, largest := int64(1), int64(1), int64(1)
	for d := range m.Demands {
		value += m.Demands[d].Value * int64(m.Demands[d].Units)
	}
	for _, c := range x.Covers {
		amount += c.Least.Amount
		for k := range m.Families[c.family].Modes {
			largest = max(largest, m.Families[c.family].Modes[k].Amount)
		}
	}
	a, v := amount, value
	for tooLong(priceFirst*v, largest*int64(most+1)) || tooLong(a<<priceSteps, value) {
		a, v = max(a/2, 1), max(v/2, 1)
		if a == 1 && v == 1 {
			break
		}
	}
	var out []prices
	for i := range priceSteps {
		out = append(out, prices{priceFirst * v, a << i})
	}
	return out
}

// tooLong reports whether a product may be too large to be compared with noAmount.
func tooLong(a, b int64) bool { return bits.Len64(uint64(a))+bits.Len64(uint64(b)) > 58 }

// jobsForShort is the least number of jobs that leave no more value short than the cost.
func (x *Relaxation) jobsForShort(s *chain.Schedule, cost problem.Cost) int64 {
	trades := x.tradesFor(s, int(cost.Jobs))
	if len(trades) == 0 {
		return 0
	}
	for n, v := range trades[0].least {
		if v <= cost.PromisedShort+cost.Short {
			return int64(n)
		}
	}
	return 0
}

// amountForShort is the least amount of so many jobs that leave no more value short than
// the cost.
func (x *Relaxation) amountForShort(s *chain.Schedule, cost problem.Cost) int64 {
	best := int64(0)
	trades := x.tradesFor(s, int(cost.Jobs))
	if len(trades) == 0 {
		return 0
	}
	for _, t := range trades[1:] {
		v := t.least[cost.Jobs]
		if v >= noAmount {
			continue // no plan has so many
		}
		v -= t.p.short * (cost.PromisedShort + cost.Short)
		best = max(best, (v+t.p.amount-1)/t.p.amount)
	}
	return best
}
