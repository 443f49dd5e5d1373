package calm

import (
	"slices"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// Slot is a job that may be, as it is stated to a kernel, in steps of a grid.
type Slot struct {
	chain.Prospect
	Here  kernel.Lit
	Start []kernel.Var
	Who   [][]kernel.Lit // of each activity, one for each of its workers
	Links []Link         // what it may be; filled by [State]
}

// acts are its activities: all sizes are alike in who works when.
func (sl *Slot) acts() []problem.Activity { return sl.Modes[0].Acts }

// Link is that a slot is a kept job.
type Link struct {
	Kept *problem.Kept
	Lit  kernel.Lit
}

// Overflow stands for any further jobs of a family with a last delivery: Some is that there is one.
// Any of them may be any kept job, and as it was.
type Overflow struct {
	Family, Due int
	Some        kernel.Lit
}

// Stated is what is otherwise than told: the sum of the Moved, each 0 or 1, and of the Points; and
// what it is whatever the plan.
type Stated struct {
	Moved, Points []kernel.Var
	Always        problem.Unrest

	kept, under [][]holder // of each kept job, and of each job under way: the slots that it may be
}

// Put puts the summands into the parts of the cost, each with the most that it can be.
func (st *Stated) Put(k *kernel.Solver, yes kernel.Lit, put func(part int, t global.Term, most int64)) {
	sum := func(part int, xs []kernel.Var, always int64) {
		for _, x := range xs {
			put(part, global.Term{View: x.Up(), Times: 1}, int64(k.Max(x)))
		}
		if always > 0 {
			put(part, global.Term{View: yes.B, Times: always}, 1)
		}
	}
	sum(problem.PartMoved, st.Moved, st.Always.Moved)
	sum(problem.PartPenalty, st.Points, st.Always.Points)
}

// stating is the work on one [State].
type stating struct {
	*kernel.Solver
	m       *problem.Model
	g       problem.Grid
	settled int32 // the first step after the settled time
	out     *Stated
}

// holder is a slot that is what was told, while its literal is true.
type holder struct {
	sl *Slot
	is kernel.Lit
}

// State states what is otherwise than told for slots and overflows of a model. Kept jobs that are not
// free are frozen beside it: what they count is none of its business, but that they are kept.
func State(k *kernel.Solver, m *problem.Model, g problem.Grid, slots []*Slot, over []Overflow, free func(*problem.Kept) bool) *Stated {
	st := &stating{k, m, g, g.Up(m.SettledUntil()), &Stated{kept: make([][]holder, len(m.Kept)), under: make([][]holder, len(m.Begun))}}
	for x := range m.Kept {
		e := &m.Kept[x]
		if free(e) {
			st.kept(e, slots, over)
		} else {
			st.undone(e.Told)
		}
	}
	for _, sl := range slots {
		switch {
		case sl.Begun >= 0 && m.Begun[sl.Begun].Left != nil:
			st.undone(m.Begun[sl.Begun].Told)
		case sl.Begun >= 0:
			st.out.under[sl.Begun] = []holder{{sl, sl.Here}}
			st.told(m.Begun[sl.Begun].Told, sl.Fixed, st.out.under[sl.Begun], nil)
		}
		st.fresh(sl)
	}
	return st.out
}

// undone counts what was told and is not done, whatever the plan.
func (st *stating) undone(told []problem.Told) {
	for _, t := range told {
		u := t.Undone()
		st.out.Always.Moved, st.out.Always.Points = st.out.Always.Moved+u.Moved, st.out.Always.Points+u.Points
	}
}

// kept states one kept job: the slots that it may be, of which it is one at the most.
func (st *stating) kept(e *problem.Kept, slots []*Slot, over []Overflow) {
	var who []holder
	due := map[int]bool{} // last deliveries with a slot: may a job with it be like that?
	for _, sl := range slots {
		if sl.Begun >= 0 || sl.Family != e.Family {
			continue
		}
		like := st.like(sl, e)
		due[sl.Due] = like
		if !like {
			continue
		}
		l := st.NewVar(0, 1).Ge(1)
		st.AddClause(l.Not(), sl.Here)
		for _, o := range sl.Links {
			st.AddClause(l.Not(), o.Lit.Not())
		}
		for _, o := range who {
			st.AddClause(l.Not(), o.is.Not())
		}
		sl.Links, who = append(sl.Links, Link{e, l}), append(who, holder{sl, l})
	}
	var other []kernel.Lit
	for _, o := range over {
		if like, known := due[o.Due]; o.Family == e.Family && (like || !known) {
			other = append(other, o.Some)
		}
	}
	st.out.kept[e.Number] = who
	st.told(e.Told, 0, who, other)
}

// like reports whether a slot could gain anything by being a kept job.
func (st *stating) like(sl *Slot, e *problem.Kept) bool {
	for i, t := range e.Told {
		if t.As == problem.ToldNothing || sl.acts()[i].Work == 0 {
			continue
		}
		if st.Min(sl.Start[i]) < st.settled || t.As != problem.ToldNoMore && st.canBe(sl, i, t) || t.Taken && workerOf(sl, i, t) >= 0 {
			return true
		}
	}
	return false
}

// canBe reports whether work can be as it was told: at that time, by one of a slot's workers.
func (st *stating) canBe(sl *Slot, i int, t problem.Told) bool {
	at := st.g.Up(t.Start)
	return st.g.Tick(at) == t.Start && st.Min(sl.Start[i]) <= at && at <= st.Max(sl.Start[i]) && (t.Taken || workerOf(sl, i, t) >= 0)
}

// workerOf is which of a slot's workers was told to do work; -1 for none of them.
func workerOf(sl *Slot, i int, t problem.Told) int {
	return slices.Index(sl.acts()[i].Workers, t.Worker)
}

// told states what counts of told work from an activity on: unless some holder has it as it was, or
// there is something else that may.
func (st *stating) told(told []problem.Told, from int, who []holder, other []kernel.Lit) {
	var points []global.Term
	for i := from; i < len(told); i++ {
		t := told[i]
		if t.Taken {
			st.taken(i, t, who, other)
		}
		if t.As != problem.ToldSettled && t.As != problem.ToldLater {
			continue
		}
		x := st.NewVar(0, 1)
		clause := append([]kernel.Lit{x.Ge(1)}, other...)
		for _, h := range who {
			clause = append(clause, h.is)
			st.unlike(h, i, t, x.Ge(1))
		}
		st.AddClause(clause...)
		if t.As == problem.ToldSettled {
			st.out.Moved = append(st.out.Moved, x)
		} else {
			points = append(points, global.Term{View: x.Up(), Times: problem.LaterPoints})
		}
	}
	if n := len(points); n > 0 {
		sum := st.NewVar(0, int32(n*problem.LaterPoints))
		global.AddLinear(st.Solver, append(points, global.Term{View: sum.Down(), Times: 1}), 0)
		st.out.Points = append(st.out.Points, sum)
	}
}

// taken states that work which its worker has taken on counts unless that worker does it.
func (st *stating) taken(i int, t problem.Told, who []holder, other []kernel.Lit) {
	x := st.NewVar(0, 1)
	clause := append([]kernel.Lit{x.Ge(1)}, other...)
	for _, h := range who {
		clause = append(clause, h.is)
		off := []kernel.Lit{h.is.Not(), x.Ge(1)}
		if w := workerOf(h.sl, i, t); w >= 0 && h.sl.acts()[i].Work > 0 {
			off = append(off, h.sl.Who[i][w])
		}
		st.AddClause(off...)
	}
	st.AddClause(clause...)
	st.out.Moved = append(st.out.Moved, x)
}

// unlike states that a holder whose work is not as it was told counts. What was to come later and is
// in the settled time counts as new.
func (st *stating) unlike(h holder, i int, t problem.Told, counts kernel.Lit) {
	clause := []kernel.Lit{h.is.Not(), counts}
	if h.sl.acts()[i].Work == 0 {
		st.AddClause(clause...)
		return
	}
	start := h.sl.Start[i]
	if t.As == problem.ToldLater {
		clause = append(clause, start.Le(st.settled-1))
	}
	with := func(l kernel.Lit) []kernel.Lit { return append(clause[:len(clause):len(clause)], l) }
	if !st.canBe(h.sl, i, t) {
		st.AddClause(clause...)
		return
	}
	at := st.g.Up(t.Start)
	st.AddClause(with(start.Ge(at))...)
	st.AddClause(with(start.Le(at))...)
	if !t.Taken {
		st.AddClause(with(h.sl.Who[i][workerOf(h.sl, i, t)])...)
	}
}

// fresh states that work in the settled time counts of which something else was told: nothing, or
// that it comes later.
func (st *stating) fresh(sl *Slot) {
	for i := sl.Fixed; i < sl.Acts(); i++ {
		if sl.acts()[i].Work == 0 || st.Min(sl.Start[i]) >= st.settled {
			continue
		}
		if sl.Begun >= 0 && !isFresh(problem.ToldOf(st.m.Begun[sl.Begun].Told, i)) {
			continue
		}
		x := st.NewVar(0, 1)
		clause := []kernel.Lit{sl.Here.Not(), sl.Start[i].Ge(st.settled), x.Ge(1)}
		for _, l := range sl.Links {
			if !isFresh(l.Kept.Told[i]) {
				clause = append(clause, l.Lit)
			}
		}
		st.AddClause(clause...)
		st.out.Moved = append(st.out.Moved, x)
	}
}

// isFresh reports whether work of which so much was told is new in the settled time.
func isFresh(t problem.Told) bool { return t.As == problem.ToldNothing || t.As == problem.ToldLater }

// Same is a literal under which work is as it was told, by a slot: further jobs are left out.
func (st *Stated) Same(k *kernel.Solver, m *problem.Model, g problem.Grid, c problem.Changed) kernel.Lit {
	same := k.NewVar(0, 1).Ge(1)
	some := []kernel.Lit{same.Not()}
	told, who := []problem.Told(nil), []holder(nil)
	if c.Kept != nil {
		told, who = c.Kept.Told, st.kept[c.Kept.Number]
	} else {
		told, who = m.Begun[c.Begun].Told, st.under[c.Begun]
	}
	i, t := c.Activity, told[c.Activity]
	at := g.Up(t.Start)
	for _, h := range who {
		w := -1
		if i < h.sl.Acts() && h.sl.acts()[i].Work > 0 && g.Tick(at) == t.Start {
			w = slices.Index(h.sl.acts()[i].Workers, t.Worker)
		}
		if w < 0 {
			continue
		}
		for _, l := range []kernel.Lit{h.sl.Start[i].Ge(at), h.sl.Start[i].Le(at), h.sl.Who[i][w]} {
			k.AddClause(same.Not(), h.is.Not(), l)
		}
		some = append(some, h.is)
	}
	k.AddClause(some...)
	return same
}
