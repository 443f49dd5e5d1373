package statement

import (
	"slices"

	"ripeby/schedule/cp/calm"
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// Statement is the whole model stated to the kernel: which jobs there are, their
// sizes, starts, workers, pools and spaces, what they give to whom, and the
// parts of the cost.
type Statement struct {
	Schedule *chain.Schedule
	frozen   *usage.Ledger // what stays as it is beside what is stated, nil for nothing
	Model    *problem.Model
	Grid     problem.Grid
	Kernel   *kernel.Solver
	Yes      kernel.Lit // always true
	Zero     kernel.Var // always 0
	Slots    []*Slot
	Over     []*Overflow
	rooms    []Room // of each last delivery with an overflow
	Stock    []*stockSlot
	boxes    []boxStay
	jobs     []global.Term // of each family
	Short    []kernel.Var  // units short of each demand
	Cost     [problem.CostParts]kernel.Var
	unit     [problem.CostParts]int64 // cost counts in such units
	early    int64                    // added to the last part for every job, to keep it above 0
	mayLeave bool                     // what is under way may be left where it is
	last     int32                    // a step after everything
	told     *calm.Stated             // what is otherwise than told; nil where nothing was
	summed   []summed                 // sums that were added since the model was stated, in order

	unsaid [problem.CostParts][]sum // of each part of the cost, sums that are not stated yet

	Serves []kernel.Lit // of each family: while true, its least number is asked for; nil: always
}

// stockSlot is what becomes of one stock.
type stockSlot struct {
	Give  []kernel.Var
	Reach []int
	leave *leaving
}

// plenty is a cost above any that a job can have.
const plenty = 1 << 24

// New is a statement that says nothing yet.
func New(s *chain.Schedule, frozen *usage.Ledger) *Statement {
	m := s.Model
	k := &Statement{Schedule: s, frozen: frozen, Model: m, Grid: problem.Grid{Origin: problem.FloorTo(m.From, m.Step), Step: m.Step}, Kernel: kernel.New()}
	one := k.Kernel.NewVar(1, 1)
	k.Yes, k.Zero = one.Ge(1), k.Kernel.NewVar(0, 0)
	k.last = k.Grid.Up(m.Horizon) + 1
	k.unit = k.units()
	return k
}

// Of states the model with so many slots for each last delivery; not ok when
// there is something in it that the statement does not cover.
func Of(s *chain.Schedule, frozen *usage.Ledger, count Counts) (*Statement, bool) {
	k, ok := Sparing(s, frozen, count)
	k.SumUp(problem.CostParts - 1)
	return k, ok
}

// Sparing is the same with no part of the cost summed up yet; see [Statement.SumUp].
func Sparing(s *chain.Schedule, frozen *usage.Ledger, count Counts) (*Statement, bool) {
	k := New(s, frozen)
	return k, k.State(count)
}

// State states the model, with no part of the cost summed up; see [Of].
func (k *Statement) State(count Counts) bool {
	m := k.Model
	if !askable(m) {
		return false
	}
	k.mayLeave = slices.ContainsFunc(k.Schedule.Jobs, func(j *problem.Job) bool { return j.Stuck })
	for b := range m.Begun {
		if k.Schedule.Over() || !k.addUnderWay(b) {
			return false
		}
	}
	for f := range m.Families {
		for _, due := range problem.DuesOf(m, f) {
			if k.Schedule.Over() {
				return false
			}
			key := problem.Delivery{Family: f, Due: due}
			k.addSlots(key, count.Open[key], count.Spare[key])
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
func askable(m *problem.Model) bool {
	for f := range m.Families {
		if !problem.Alike(problem.ModesOf(&m.Families[f])) {
			return false
		}
	}
	return true
}

// addSlots adds the slots of one last delivery, the earliest first start first, of which
// the spare ones are shut, and their overflow.
func (k *Statement) addSlots(key problem.Delivery, count, spare int) {
	family, due := key.Family, key.Due
	f := &k.Model.Families[family]
	if len(f.Modes) == 0 {
		return
	}
	most := 0
	for _, d := range k.Schedule.Prep.ByDue[family] {
		if k.Model.Demands[d].Due == due {
			most += k.Model.Demands[d].Units
		}
	}
	var before *Slot
	rest := Room{Key: key}
	job := chain.Prospect{Family: family, Begun: -1, Due: due, Modes: problem.ModesOf(f)}
	chains, ok := k.Schedule.ChainsOf(k.Grid, &job)
	if !ok {
		return // no such job can be, not even alone
	}
	for n := range min(count+spare, most) {
		sl := &Slot{Prospect: job, chains: chains}
		sl.Here = k.Kernel.NewVar(0, 1)
		k.addChain(sl)
		k.addGifts(sl)
		if before != nil {
			k.Kernel.AddClause(sl.Present().Not(), before.Present())
			k.Kernel.AddArcIf(sl.Present(), before.Start[0], sl.Start[0], 0)
		}
		k.Slots = append(k.Slots, sl)
		before = sl
		if n >= count {
			rest.Closed = append(rest.Closed, sl.Present().Not())
		}
	}
	if left := most - count - spare; left > 0 {
		o := k.addOverflow(family, due, left, chains)
		if before != nil {
			k.Kernel.AddClause(o.None(), before.Present())
		}
		rest.Closed = append(rest.Closed, o.None())
	}
	if len(rest.Closed) > 0 {
		k.rooms = append(k.rooms, rest)
	}
}

// within are the demands that a job with a last delivery can serve.
func (k *Statement) within(family, due int) []int {
	var out []int
	for _, d := range k.Schedule.Prep.ByDue[family] {
		dm := &k.Model.Demands[d]
		if dm.Units > 0 && dm.Due <= due && dm.Due-dm.Ahead >= due-k.Model.Families[family].Keeps {
			out = append(out, d)
		}
	}
	return out
}

// addChain adds the starts and ends of a job's activities and the lags between.
func (k *Statement) addChain(sl *Slot) {
	s, c := k.Kernel, sl.chains
	n := sl.Acts()
	sl.Size = s.NewVar(0, int32(len(sl.Modes)-1))
	sl.Penalty, sl.Late, sl.left = s.NewVar(0, plenty), k.Zero, k.Zero
	for i := range n {
		if i < sl.Fixed {
			at := k.Grid.Down(k.Model.Begun[sl.Begun].Starts[i])
			x := s.NewVar(at, at)
			sl.Start = append(sl.Start, x)
			end := k.Model.Begun[sl.Begun].Starts[i] + sl.Modes[0].Acts[i].Work
			sl.Done = append(sl.Done, global.Moment{X: k.Zero, Add: k.Grid.Up(end)})
			sl.Who = append(sl.Who, nil)
			continue
		}
		x := s.NewVar(c.Lo[i], c.Hi[i])
		sl.Start = append(sl.Start, x)
		work := sl.table(func(m *problem.Mode) int32 { return k.Grid.Long(m.Acts[i].Work) })
		if len(work.Table) == 1 {
			sl.Done = append(sl.Done, global.Moment{X: x, Add: work.Table[0]})
		} else {
			y := s.NewVar(c.Lo[i]+work.Table[0], c.Hi[i]+work.Table[len(work.Table)-1])
			global.AddOffset(s, x, work, y)
			sl.Done = append(sl.Done, global.Moment{X: y})
		}
		if i > sl.Fixed {
			lag, from := &sl.Modes[0].Acts[i-1].Lag, sl.Done[i-1]
			s.AddArc(from.X, x, from.Add+k.Grid.Long(lag.Least))
			s.AddArc(x, from.X, -from.Add-k.Grid.Short(lag.Most))
			for z, m := range sl.Modes {
				if longer := m.Acts[i-1].Lag.Least; longer > lag.Least {
					s.AddArcIf(sl.Size.Ge(int32(z)), from.X, x, from.Add+k.Grid.Long(longer))
				}
			}
		}
		var who []kernel.Lit
		if sl.Modes[0].Acts[i].Work > 0 {
			who = k.oneOf(len(sl.Modes[0].Acts[i].Workers))
		}
		sl.Who = append(sl.Who, who)
		k.addStarts(sl, i)
	}
	if sl.Fixed < n {
		k.addPenalty(sl)
	}
}

// oneOf makes literals of which exactly one is true.
func (k *Statement) oneOf(n int) []kernel.Lit {
	if n == 1 {
		return []kernel.Lit{k.Yes}
	}
	out := make([]kernel.Lit, n)
	if n == 2 {
		x := k.Kernel.NewVar(0, 1)
		return []kernel.Lit{x.Le(0), x.Ge(1)}
	}
	for i := range out {
		out[i] = k.Kernel.NewVar(0, 1).Ge(1)
	}
	k.Kernel.AddClause(out...)
	for i := range out {
		for o := range i {
			k.Kernel.AddClause(out[i].Not(), out[o].Not())
		}
	}
	return out
}

// atLeast is the literal that a moment is at step v or later.
func atLeast(t global.Moment, v int32) kernel.Lit { return t.X.Ge(v - t.Add) }

// AtMost is the literal that a moment is at step v or before.
func AtMost(t global.Moment, v int32) kernel.Lit { return t.X.Le(v - t.Add) }
