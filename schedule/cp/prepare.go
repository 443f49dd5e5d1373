package cp

import "sort"

// schedule is a ledger into which jobs are placed exactly, with what has been worked out for
// that of its model.
type schedule struct {
	ledger
	prep *prepared
	flat bool // what waiting costs is not asked for
}

// newSchedule is a model's schedule with nothing in it.
func newSchedule(m *Model) *schedule {
	s := emptySchedule(m, prepare(m))
	return &s
}

// emptySchedule is a schedule with nothing in it that shares what has been worked out with
// others of its kitchen.
func emptySchedule(m *Model, prep *prepared) schedule {
	return schedule{ledger: newLedger(m, prep.packed), prep: prep}
}

// prepared is what is worked out once for a model: for each lag the lengths in
// order of cost, for each worker the avoided time before every grid start, and
// the packing questions answered so far.
type prepared struct {
	origin, step int
	avoid        [][]int32
	lags         map[*Activity]*lagOrder
	table        leastTable
	packed       *packed
	byDue        [][]int // demands of each family in due order
	idle         map[idleKey]idleValue
	bare         *schedule
	closes       bool
	crowded      map[int]bool             // families, once asked: see crowds
	chains       map[chainKey]*chainCosts // nil for none
	works        map[workKey]*workCosts
	lagCosts     map[lagKey]*lagCosts
	endless      map[int]bool // jobs under way that cannot go on even alone, once asked
}

// lagOrder lists a lag's grid lengths by cost: bands of neighbouring lengths that
// cost the same, the cheapest first.
type lagOrder struct {
	bands       []band
	least, most int    // in steps
	reach       []band // reach[i] spans the first i+1 bands, at the cost of the last
}

// within is the least and the most length, in steps, of those that cost less than the
// ceiling; not ok for none.
func (o *lagOrder) within(ceiling int32) (least, most int, ok bool) {
	n := sort.Search(len(o.reach), func(i int) bool { return o.reach[i].cost >= ceiling })
	if n == 0 {
		return 0, 0, false
	}
	return int(o.reach[n-1].from), int(o.reach[n-1].to), true
}

// band is the lengths from to to in steps, both included, at one cost.
type band struct {
	from, to int32
	cost     int32
}

func prepare(m *Model) *prepared {
	p := &prepared{origin: ceilTo(m.From, m.Step), step: m.Step,
		lags: map[*Activity]*lagOrder{}, packed: newPacked(m), idle: map[idleKey]idleValue{}, closes: closesAnywhere(m), crowded: map[int]bool{}, endless: map[int]bool{}, chains: map[chainKey]*chainCosts{}, works: map[workKey]*workCosts{}, lagCosts: map[lagKey]*lagCosts{}}
	p.avoid = make([][]int32, len(m.Workers))
	n := max((m.Horizon-p.origin)/m.Step, 0) + 2
	for w := range m.Workers {
		if len(m.Workers[w].Avoid) > 0 {
			p.avoid[w] = avoidBefore(m.Workers[w].Avoid, p.origin, m.Step, n)
		}
	}
	p.byDue = demandsByDue(m)
	type shape struct {
		first       *int32
		least, most int
	}
	known := map[shape]*lagOrder{}
	share := func(mode *Mode) {
		for i := range mode.Acts {
			act := &mode.Acts[i]
			sh := shape{least: act.Lag.Least, most: act.Lag.Most}
			if len(act.Lag.Cost) > 0 {
				sh.first = &act.Lag.Cost[0]
			}
			order := known[sh]
			if order == nil {
				order = orderLags(act.Lag, m.Step)
				known[sh] = order
			}
			p.lags[act] = order
		}
	}
	for f := range m.Families {
		for k := range m.Families[f].Modes {
			share(&m.Families[f].Modes[k])
		}
	}
	for b := range m.Begun {
		share(&m.Begun[b].Mode)
	}
	return p
}

// demandsByDue lists each family's demands in due order.
func demandsByDue(m *Model) [][]int {
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
func avoidBefore(avoid []Span, origin, step, n int) []int32 {
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
func (p *prepared) avoidCost(avoid []int32, t, w int) int32 {
	last := len(avoid) - 1
	a := min((t-p.origin)/p.step, last)
	b := min((t+w-p.origin)/p.step, last)
	return (avoid[b] - avoid[a]) / AvoidUnit
}

func orderLags(l Lag, step int) *lagOrder {
	o := &lagOrder{least: ceilTo(l.Least, step) / step, most: floorTo(l.Most, step) / step}
	for t := ceilTo(l.Least, step); t <= l.Most && t-l.Least < len(l.Cost); t += step {
		k, c := int32(t/step), l.Cost[t-l.Least]
		if c >= Never {
			continue
		}
		if n := len(o.bands) - 1; n >= 0 && o.bands[n].cost == c && o.bands[n].to == k-1 {
			o.bands[n].to = k
			continue
		}
		o.bands = append(o.bands, band{k, k, c})
	}
	sort.SliceStable(o.bands, func(i, k int) bool { return o.bands[i].cost < o.bands[k].cost })
	o.reach = append([]band(nil), o.bands...)
	for i := 1; i < len(o.reach); i++ {
		o.reach[i].from = min(o.reach[i].from, o.reach[i-1].from)
		o.reach[i].to = max(o.reach[i].to, o.reach[i-1].to)
	}
	return o
}
