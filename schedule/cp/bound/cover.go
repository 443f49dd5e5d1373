package bound

import (
	"sort"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

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

// Source is stock or a job under way that can serve units without a new job.
type Source struct {
	Stock, Begun       int // one of them, the other -1
	units              int
	ReadyMin, ReadyMax int
}

// Order is a job to be placed: a family, and what it is to serve.
type Order struct {
	Family int
	Shares []problem.Share
	Hint   *problem.Hint // the job that an earlier plan had for them; nil for none
}

// cover is a cheapest walk of one family.
type cover struct {
	cost    problem.Cost
	Orders  []Order
	Sources []sourceShares
}

type sourceShares struct {
	Source Source
	Shares []problem.Share
}

// coverer walks one family's units.
type coverer struct {
	s       *chain.Schedule
	family  int
	Units   []unit
	sources []Source
	first   []int // first[x]: number of the state "source x untouched"
	present []int // by state: the source that serves now
	states  int
	serves  int
	ahead   int  // with it >= 0, every unit's Ahead: see uneven
	loose   bool // for a bound only: see later
	modeFor []int
	Least   problem.Cost // of the cheapest walk
	runs    [][]jobRun   // by first unit, once asked: see runsFrom
	into    [][]edge     // moves of the cheapest walks of the first pass, by where they lead
	off     bool         // it was called off, and knows nothing
}

// uneven gives the least Ahead of a family when its demands differ in it, else
// -1. Where due order and readiness order differ, deliveries that cross cannot
// always be exchanged; taking the least for all is a relaxation.
func uneven(m *problem.Model, family int) int {
	least, most := problem.Infinite, -1
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
func (c *coverer) window(shares []problem.Share) problem.Window {
	w := c.s.Model.WindowOf(c.family, shares)
	if c.ahead >= 0 {
		w.ReadyMax = c.s.Model.Demands[shares[0].Demand].Due - c.ahead
	}
	return w
}

// rests reports whether the last lag of a family may have to be longer than a
// demand's Ahead. A job must then deliver something late enough, and deliveries
// that cross cannot always be exchanged: see later.
func rests(s *chain.Schedule, family int) bool {
	for m := range s.Model.Families[family].Modes {
		for _, d := range s.Prep.ByDue[family] {
			if problem.LastLag(&s.Model.Families[family].Modes[m]).Least > s.Model.Demands[d].Ahead {
				return true
			}
		}
	}
	return false
}

// later is how much later than the last of the shares a loose job may be taken to
// deliver: as late as any unit is due that keeps with the first of them, be it worth
// nothing.
func (c *coverer) later(shares []problem.Share, w problem.Window) int {
	if !c.loose {
		return 0
	}
	first, last := c.s.Model.Demands[shares[0].Demand].Due, w.End
	for _, d := range c.s.Prep.ByDue[c.family] {
		if due := c.s.Model.Demands[d].Due; due <= first+c.s.Model.Families[c.family].Keeps {
			last = max(last, due)
		}
	}
	return last - w.End
}

// idle is the best placing of a run on an empty kitchen.
func (c *coverer) idle(mode int, shares []problem.Share) chain.IdleValue {
	w := c.window(shares)
	return c.s.IdleLater(c.family, mode, c.later(shares, w), w)
}

func newCoverer(s *chain.Schedule, family int, sources []Source, serves int) *coverer {
	sources = append([]Source(nil), sources...)
	for i := 1; i < len(sources); i++ {
		// A source that may be ready sooner is used up first. That loses nothing
		// only if it need not be the one that can be ready later, too.
		sources[i].ReadyMax = max(sources[i].ReadyMax, sources[i-1].ReadyMax)
	}
	c := &coverer{s: s, family: family, sources: sources, serves: serves, ahead: uneven(s.Model, family)}
	for d := range s.Model.Demands {
		c.owe(d, s.Model.Demands[d].Units)
	}
	c.inOrder()
	n := 0
	for x, src := range sources {
		c.first = append(c.first, n)
		n += src.units + 1
		for len(c.present) < n {
			c.present = append(c.present, x)
		}
	}
	c.states = n + 1
	c.modeFor = modeForUnits(&s.Model.Families[family])
	return c
}

// owe adds so many units of a demand, if they are the family's and worth a job.
func (c *coverer) owe(d, units int) {
	dm := &c.s.Model.Demands[d]
	if dm.Family != c.family || dm.Value == 0 {
		return // what is worth nothing needs no job
	}
	for n := 0; n < units; n++ {
		c.Units = append(c.Units, unit{d, dm.Due, dm.Value, dm.Promised})
	}
}

// inOrder lays the units in a row.
func (c *coverer) inOrder() {
	sort.SliceStable(c.Units, func(i, k int) bool {
		a, b := &c.Units[i], &c.Units[k]
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
func modeForUnits(f *problem.Family) []int {
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
func (c *coverer) run(u, n int) []problem.Share {
	var shares []problem.Share
	promised := false
	for x := u; x < u+n; x++ {
		promised = promised || c.Units[x].promised
		if k := len(shares) - 1; k >= 0 && shares[k].Demand == c.Units[x].demand {
			shares[k].Units++
			continue
		}
		shares = append(shares, problem.Share{Demand: c.Units[x].demand, Units: 1})
	}
	if n < c.serves && !promised {
		return nil
	}
	return shares
}

// serveable reports whether a source can serve a unit.
func (c *coverer) serveable(src *Source, u *unit) bool {
	ahead := c.s.Model.Demands[u.demand].Ahead
	if c.ahead >= 0 {
		ahead = c.ahead
	}
	return src.ReadyMin <= u.due-ahead && u.due <= src.ReadyMax+c.s.Model.Families[c.family].Keeps
}

// edge is one move of a walk. Node numbers are unit*states+state.
type edge struct {
	from, to int
	cost     problem.Cost
	source   int // -1, or the source that serves unit
	length   int // of a new job's run; 0 for none
}

// edges calls visit for every move out of node (u, st).
func (c *coverer) edges(u, st int, visit func(edge)) {
	c.sourceEdges(u, st, visit)
	if u < len(c.Units) {
		c.jobEdges(u, st, visit)
	}
}

// sourceEdges are the moves without a new job: on to the next source, the unit served
// by the present one, or left short.
func (c *coverer) sourceEdges(u, st int, visit func(edge)) {
	at := u*c.states + st
	if st < len(c.present) {
		x := c.present[st]
		used := st - c.first[x]
		nextState := c.states - 1
		if x+1 < len(c.sources) {
			nextState = c.first[x+1]
		}
		visit(edge{at, u*c.states + nextState, problem.Cost{}, -1, 0})
		if u < len(c.Units) && used < c.sources[x].units && c.serveable(&c.sources[x], &c.Units[u]) {
			visit(edge{at, (u+1)*c.states + st + 1, problem.Cost{}, x, 0})
		}
	}
	if u == len(c.Units) {
		return
	}
	short := problem.Cost{Short: c.Units[u].value}
	if c.Units[u].promised {
		short = problem.Cost{PromisedShort: c.Units[u].value}
	}
	visit(edge{at, (u+1)*c.states + st, short, -1, 0})
}

// jobEdges are the new jobs that can serve a run from unit u on.
func (c *coverer) jobEdges(u, st int, visit func(edge)) {
	for _, r := range c.runsFrom(u) {
		visit(edge{u*c.states + st, (u+r.length)*c.states + st, problem.Cost{Jobs: 1, Amount: r.amount}, -1, r.length})
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
		c.runs = make([][]jobRun, len(c.Units))
	}
	if c.runs[u] == nil {
		c.runs[u] = c.findRuns(u)
	}
	return c.runs[u]
}

// findRuns lists the runs from unit u on; empty, not nil, when there are none.
func (c *coverer) findRuns(u int) []jobRun {
	out := []jobRun{}
	f := &c.s.Model.Families[c.family]
	if len(f.Modes) == 0 {
		return out
	}
	most := f.Modes[len(f.Modes)-1].Units
	for n := 1; n <= most && u+n <= len(c.Units); n++ {
		if c.Units[u+n-1].due-c.Units[u].due > f.Keeps {
			break
		}
		mode := c.modeFor[n]
		shares := c.run(u, n)
		if shares == nil {
			continue
		}
		w := c.window(shares)
		if w.ReadyMin > w.ReadyMax {
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
func (c *coverer) possible(mode int, shares []problem.Share) bool {
	last := len(c.s.Model.Families[c.family].Modes) - 1
	if c.idle(last, shares).OK {
		return true
	}
	return mode != last && c.idle(mode, shares).OK
}
