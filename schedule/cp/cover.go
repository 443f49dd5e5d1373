package cp

import "sort"

// Choosing jobs as if each had the kitchen to itself.
//
// The units that one family owes are laid in a row by the moment they are due.
// Walking along the row, each unit is served by stock or a job under way that
// still has some, or left short, or a new job takes the next run of units:
//
//	due      Sat  Sat  Sat  Wed  Wed  Sat
//	unit      o────o────o────o    o────o
//	          └── job of 4 ─┘    └─ 2 ┘
//
// A cheapest walk is a shortest path. It loses nothing to let every source serve
// a run: with one keeping time, deliveries of two jobs that cross can be
// exchanged. What a new job costs is its best placing on an empty kitchen, so
// the walk's cost is a bound for the family; the sum over families is a bound
// for the plan.

// unit is one piece owed.
type unit struct {
	demand   int
	due      int
	value    int64
	promised bool
}

// source is stock or a job under way that can serve units without a new job.
type source struct {
	stock, begun       int // one of them, the other -1
	units              int
	readyMin, readyMax int
}

// order is a job to be placed: a family, and what it is to serve.
type order struct {
	family int
	shares []Share
	starts []int        // exactly so; nil for wherever it is best
	stood  [][]Standing // with starts: where the boxes of each stay stood
}

// cover is a cheapest walk of one family.
type cover struct {
	cost    Cost
	orders  []order
	sources []sourceShares
}

type sourceShares struct {
	source source
	shares []Share
}

// coverer walks one family's units.
type coverer struct {
	s       *schedule
	family  int
	units   []unit
	sources []source
	first   []int // first[x]: number of the state "source x untouched"
	states  int
	serves  int
	ahead   int  // with it >= 0, every unit's Ahead: see uneven
	loose   bool // for a bound only: see later
	modeFor []int
	least   Cost       // of the cheapest walk
	runs    [][]jobRun // by first unit, once asked: see runsFrom
	into    [][]edge   // moves of the cheapest walks of the first pass, by where they lead
}

// uneven gives the least Ahead of a family when its demands differ in it, else
// -1. Where due order and readiness order differ, deliveries that cross cannot
// always be exchanged; taking the least for all is a relaxation.
func uneven(m *Model, family int) int {
	least, most := Infinite, -1
	for d := range m.Demands {
		if m.Demands[d].Family == family {
			least, most = min(least, m.Demands[d].Ahead), max(most, m.Demands[d].Ahead)
		}
	}
	if least < most {
		return least
	}
	return -1
}

// window is what a run of shares asks.
func (c *coverer) window(shares []Share) window {
	w := c.s.m.windowOf(c.family, shares)
	if c.ahead >= 0 {
		w.readyMax = c.s.m.Demands[shares[0].Demand].Due - c.ahead
	}
	return w
}

// rests reports whether the last lag of a family may have to be longer than a
// demand's Ahead. A job must then deliver something late enough, and deliveries
// that cross cannot always be exchanged: see later.
func rests(s *schedule, family int) bool {
	for m := range s.m.Families[family].Modes {
		for _, d := range s.prep.byDue[family] {
			if lastLag(&s.m.Families[family].Modes[m]).Least > s.m.Demands[d].Ahead {
				return true
			}
		}
	}
	return false
}

// later is how much later than the last of the shares a loose job may be taken to
// deliver: as late as any unit is due that keeps with the first of them, be it worth
// nothing.
func (c *coverer) later(shares []Share, w window) int {
	if !c.loose {
		return 0
	}
	first, last := c.s.m.Demands[shares[0].Demand].Due, w.end
	for _, d := range c.s.prep.byDue[c.family] {
		if due := c.s.m.Demands[d].Due; due <= first+c.s.m.Families[c.family].Keeps {
			last = max(last, due)
		}
	}
	return last - w.end
}

// idle is the best placing of a run on an empty kitchen.
func (c *coverer) idle(mode int, shares []Share) idleValue {
	w := c.window(shares)
	return c.s.idleLater(c.family, mode, c.later(shares, w), w)
}

func newCoverer(s *schedule, family int, sources []source, serves int) *coverer {
	sources = append([]source(nil), sources...)
	for i := 1; i < len(sources); i++ {
		// A source that may be ready sooner is used up first. That loses nothing
		// only if it need not be the one that can be ready later, too.
		sources[i].readyMax = max(sources[i].readyMax, sources[i-1].readyMax)
	}
	c := &coverer{s: s, family: family, sources: sources, serves: serves, ahead: uneven(s.m, family)}
	for d := range s.m.Demands {
		c.owe(d, s.m.Demands[d].Units)
	}
	c.inOrder()
	n := 0
	for _, src := range sources {
		c.first = append(c.first, n)
		n += src.units + 1
	}
	c.states = n + 1
	c.modeFor = modeForUnits(&s.m.Families[family])
	return c
}

// owe adds so many units of a demand, if they are the family's and worth a job.
func (c *coverer) owe(d, units int) {
	dm := &c.s.m.Demands[d]
	if dm.Family != c.family || dm.Value == 0 {
		return // what is worth nothing needs no job
	}
	for n := 0; n < units; n++ {
		c.units = append(c.units, unit{d, dm.Due, dm.Value, dm.Promised})
	}
}

// inOrder lays the units in a row.
func (c *coverer) inOrder() {
	sort.SliceStable(c.units, func(i, k int) bool {
		a, b := &c.units[i], &c.units[k]
		if a.due != b.due {
			return a.due < b.due
		}
		if a.promised != b.promised {
			return a.promised
		}
		return a.value > b.value
	})
}

// modeForUnits[n] is the smallest mode that gives at least n units, -1 for none.
func modeForUnits(f *Family) []int {
	var out []int
	for m := range f.Modes {
		for len(out) <= f.Modes[m].Units {
			out = append(out, m)
		}
	}
	if len(out) == 0 {
		return []int{-1}
	}
	return out
}

// run is the length-n run of units from u on as shares; nil when no job may
// make it.
func (c *coverer) run(u, n int) []Share {
	var shares []Share
	promised := false
	for x := u; x < u+n; x++ {
		promised = promised || c.units[x].promised
		if k := len(shares) - 1; k >= 0 && shares[k].Demand == c.units[x].demand {
			shares[k].Units++
			continue
		}
		shares = append(shares, Share{c.units[x].demand, 1})
	}
	if n < c.serves && !promised {
		return nil
	}
	return shares
}

// serveable reports whether a source can serve a unit.
func (c *coverer) serveable(src *source, u *unit) bool {
	ahead := c.s.m.Demands[u.demand].Ahead
	if c.ahead >= 0 {
		ahead = c.ahead
	}
	return src.readyMin <= u.due-ahead && u.due <= src.readyMax+c.s.m.Families[c.family].Keeps
}

// edge is one move of a walk. Node numbers are unit*states+state.
type edge struct {
	from, to int
	cost     Cost
	source   int // -1, or the source that serves unit
	length   int // of a new job's run; 0 for none
}

// edges calls visit for every move out of node (u, st).
func (c *coverer) edges(u, st int, visit func(edge)) {
	c.sourceEdges(u, st, visit)
	if u < len(c.units) {
		c.jobEdges(u, st, visit)
	}
}

// sourceEdges are the moves without a new job: on to the next source, the unit served
// by the present one, or left short.
func (c *coverer) sourceEdges(u, st int, visit func(edge)) {
	at := u*c.states + st
	x := len(c.sources)
	for i := range c.first {
		if st >= c.first[i] && st < c.first[i]+c.sources[i].units+1 {
			x = i
		}
	}
	if x < len(c.sources) {
		used := st - c.first[x]
		nextState := c.states - 1
		if x+1 < len(c.sources) {
			nextState = c.first[x+1]
		}
		visit(edge{at, u*c.states + nextState, Cost{}, -1, 0})
		if u < len(c.units) && used < c.sources[x].units && c.serveable(&c.sources[x], &c.units[u]) {
			visit(edge{at, (u+1)*c.states + st + 1, Cost{}, x, 0})
		}
	}
	if u == len(c.units) {
		return
	}
	short := Cost{Short: c.units[u].value}
	if c.units[u].promised {
		short = Cost{PromisedShort: c.units[u].value}
	}
	visit(edge{at, (u+1)*c.states + st, short, -1, 0})
}

// jobEdges are the new jobs that can serve a run from unit u on.
func (c *coverer) jobEdges(u, st int, visit func(edge)) {
	for _, r := range c.runsFrom(u) {
		visit(edge{u*c.states + st, (u+r.length)*c.states + st, Cost{Jobs: 1, Amount: r.amount}, -1, r.length})
	}
}

// jobRun is a run of units that one new job can serve, and the job's amount.
type jobRun struct {
	length int
	amount int64
}

// runsFrom lists the runs from unit u on. They do not depend on what sources have
// served before, so each unit is asked once.
func (c *coverer) runsFrom(u int) []jobRun {
	if c.runs == nil {
		c.runs = make([][]jobRun, len(c.units))
	}
	if c.runs[u] == nil {
		c.runs[u] = c.findRuns(u)
	}
	return c.runs[u]
}

// findRuns lists the runs from unit u on; empty, not nil, when there are none.
func (c *coverer) findRuns(u int) []jobRun {
	out := []jobRun{}
	f := &c.s.m.Families[c.family]
	if len(f.Modes) == 0 {
		return out
	}
	most := f.Modes[len(f.Modes)-1].Units
	for n := 1; n <= most && u+n <= len(c.units); n++ {
		if c.units[u+n-1].due-c.units[u].due > f.Keeps {
			break
		}
		mode := c.modeFor[n]
		shares := c.run(u, n)
		if shares == nil {
			continue
		}
		w := c.window(shares)
		if w.readyMin > w.readyMax {
			break
		}
		if c.possible(mode, shares) {
			out = append(out, jobRun{n, f.Modes[mode].Amount})
		}
	}
	return out
}

// possible reports whether a job of a mode fits the window on an empty kitchen.
// If the largest mode does, a smaller one is taken to: for a bound that errs on
// the safe side, and for a plan placing will tell.
func (c *coverer) possible(mode int, shares []Share) bool {
	last := len(c.s.m.Families[c.family].Modes) - 1
	if c.idle(last, shares).ok {
		return true
	}
	return mode != last && c.idle(mode, shares).ok
}
