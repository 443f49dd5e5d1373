package cp

import (
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// asked is the whole model stated to the kernel: which jobs there are, their
// sizes, starts, workers, pools and spaces, what they give to whom, and the six
// parts of the cost.
//
// New jobs are counted by their last delivery: for every family and due moment
// there are a few slots, and one overflow that stands for any further ones, with
// nothing asked of it. What is proved without assuming that there is no overflow
// holds for any number of jobs.
type asked struct {
	s     *schedule
	froze *ledger // what stays as it is beside what is stated, nil for nothing
	m     *Model
	g     grid
	k     *kernel.Solver
	yes   kernel.Lit // always true
	zero  kernel.Var // always 0
	slots []*slot
	over  []*overflow
	rooms []room // of each last delivery with an overflow
	stock []*stockAsked
	boxes []boxStay
	jobs  []global.Term // of each family
	short []kernel.Var  // units short of each demand
	cost  [6]kernel.Var
	unit  [6]int64 // cost counts in such units
	early int64    // added to part six for every job, to keep it above 0
	last  int32    // a step after everything

	serves []kernel.Lit // of each family: while true, its least number is asked for; nil: always
}

// stockAsked is what becomes of one stock.
type stockAsked struct {
	give  []kernel.Var
	reach []int
	leave *leaving
}

// plenty is a cost above any that a job can have.
const plenty = 1 << 24

// slotKey names the slots of one last delivery.
type slotKey struct{ family, due int }

// newAsked is a statement that says nothing yet.
func newAsked(s *schedule, frozen *ledger) *asked {
	m := s.m
	k := &asked{s: s, froze: frozen, m: m, g: grid{floorTo(m.From, m.Step), m.Step}, k: kernel.New()}
	one := k.k.NewVar(1, 1)
	k.yes, k.zero = one.Ge(1), k.k.NewVar(0, 0)
	k.last = k.g.up(m.Horizon) + 1
	k.unit = k.units()
	return k
}

// ask states the model with so many slots for each last delivery; not ok when
// there is something in it that the statement does not cover.
func ask(s *schedule, frozen *ledger, count slotCounts) (*asked, bool) {
	k := newAsked(s, frozen)
	return k, k.state(count)
}

// state states the model; see [ask].
func (k *asked) state(count slotCounts) bool {
	m := k.m
	if !askable(m) {
		return false
	}
	for b := range m.Begun {
		if !k.addUnderWay(b) {
			return false
		}
	}
	for f := range m.Families {
		for _, due := range duesOf(m, f) {
			key := slotKey{f, due}
			k.addSlots(key, count.open[key], count.spare[key])
		}
	}
	k.addStocks()
	k.addDemands()
	k.addPools()
	k.addWorkers()
	k.addIntakes()
	k.addSpaces()
	k.addCovers()
	k.addCosts()
	return true
}

// askable reports whether the statement covers the model: sizes that only grow.
func askable(m *Model) bool {
	for f := range m.Families {
		if !alike(modesOf(&m.Families[f])) {
			return false
		}
	}
	return true
}

// outOfCourse reports whether something under way is late or stuck.
func (s *ledger) outOfCourse() bool {
	for _, j := range s.jobs {
		if j.Begun >= 0 && (j.Stuck || j.Late > 0) {
			return true
		}
	}
	return false
}

func modesOf(f *Family) []*Mode {
	var out []*Mode
	for k := range f.Modes {
		out = append(out, &f.Modes[k])
	}
	return out
}

// duesOf are the moments at which a family is owed, sorted.
func duesOf(m *Model, family int) []int {
	var out []int
	for d := range m.Demands {
		if m.Demands[d].Family == family && m.Demands[d].Units > 0 {
			out = append(out, m.Demands[d].Due)
		}
	}
	return distinct(out)
}

// addSlots adds the slots of one last delivery, the earliest first start first, of which
// the spare ones are shut, and their overflow.
func (k *asked) addSlots(key slotKey, count, spare int) {
	family, due := key.family, key.due
	f := &k.m.Families[family]
	if len(f.Modes) == 0 {
		return
	}
	most := 0
	for _, d := range k.s.prep.byDue[family] {
		if k.m.Demands[d].Due == due {
			most += k.m.Demands[d].Units
		}
	}
	var before *slot
	rest := room{key: key}
	for n := range min(count+spare, most) {
		sl := &slot{prospect: prospect{family: family, begun: -1, due: due, modes: modesOf(f)}}
		chains, ok := k.s.chainsOf(k.g, &sl.prospect)
		if !ok {
			return // no such job can be, not even alone
		}
		sl.chains = chains
		sl.here = k.k.NewVar(0, 1)
		k.addChain(sl)
		k.addGifts(sl)
		if before != nil {
			k.k.AddClause(sl.present().Not(), before.present())
			k.k.AddArcIf(sl.present(), before.start[0], sl.start[0], 0)
		}
		k.slots = append(k.slots, sl)
		before = sl
		if n >= count {
			rest.closed = append(rest.closed, sl.present().Not())
		}
	}
	if left := most - count - spare; left > 0 {
		o := k.addOverflow(family, due, left)
		if before != nil {
			k.k.AddClause(o.none(), before.present())
		}
		rest.closed = append(rest.closed, o.none())
	}
	if len(rest.closed) > 0 {
		k.rooms = append(k.rooms, rest)
	}
}

// within are the demands that a job with a last delivery can serve.
func (k *asked) within(family, due int) []int {
	var out []int
	for _, d := range k.s.prep.byDue[family] {
		dm := &k.m.Demands[d]
		if dm.Units > 0 && dm.Due <= due && dm.Due-dm.Ahead >= due-k.m.Families[family].Keeps {
			out = append(out, d)
		}
	}
	return out
}

// addChain adds the starts and ends of a job's activities and the lags between.
func (k *asked) addChain(sl *slot) {
	s, c := k.k, sl.chains
	n := sl.acts()
	sl.size = s.NewVar(0, int32(len(sl.modes)-1))
	sl.bother = s.NewVar(0, plenty)
	for i := range n {
		if i < sl.fixed {
			at := k.g.down(k.m.Begun[sl.begun].Starts[i])
			x := s.NewVar(at, at)
			sl.start = append(sl.start, x)
			end := k.m.Begun[sl.begun].Starts[i] + sl.modes[0].Acts[i].Work
			sl.done = append(sl.done, global.Moment{X: k.zero, Add: k.g.up(end)})
			sl.who = append(sl.who, nil)
			continue
		}
		x := s.NewVar(c.lo[i], c.hi[i])
		sl.start = append(sl.start, x)
		work := sl.table(func(m *Mode) int32 { return k.g.long(m.Acts[i].Work) })
		if len(work.Table) == 1 {
			sl.done = append(sl.done, global.Moment{X: x, Add: work.Table[0]})
		} else {
			y := s.NewVar(c.lo[i]+work.Table[0], c.hi[i]+work.Table[len(work.Table)-1])
			global.AddOffset(s, x, work, y)
			sl.done = append(sl.done, global.Moment{X: y})
		}
		if i > sl.fixed {
			lag, from := &sl.modes[0].Acts[i-1].Lag, sl.done[i-1]
			s.AddArc(from.X, x, from.Add+k.g.long(lag.Least))
			s.AddArc(x, from.X, -from.Add-k.g.short(lag.Most))
		}
		var who []kernel.Lit
		if sl.modes[0].Acts[i].Work > 0 {
			who = k.oneOf(len(sl.modes[0].Acts[i].Workers))
		}
		sl.who = append(sl.who, who)
		k.addStarts(sl, i)
	}
	if sl.fixed < n {
		k.addBother(sl)
	}
}

// oneOf makes literals of which exactly one is true.
func (k *asked) oneOf(n int) []kernel.Lit {
	if n == 1 {
		return []kernel.Lit{k.yes}
	}
	out := make([]kernel.Lit, n)
	if n == 2 {
		x := k.k.NewVar(0, 1)
		return []kernel.Lit{x.Le(0), x.Ge(1)}
	}
	for i := range out {
		out[i] = k.k.NewVar(0, 1).Ge(1)
	}
	k.k.AddClause(out...)
	for i := range out {
		for o := range i {
			k.k.AddClause(out[i].Not(), out[o].Not())
		}
	}
	return out
}

// atLeast is the literal that a moment is at step v or later; atMost at v or before.
func atLeast(t global.Moment, v int32) kernel.Lit { return t.X.Ge(v - t.Add) }
func atMost(t global.Moment, v int32) kernel.Lit  { return t.X.Le(v - t.Add) }
