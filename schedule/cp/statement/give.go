package statement

import (
	"maps"
	"slices"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// leaving is when the last of something leaves: by rank among the moments at which
// it can.
type leaving struct {
	rank  kernel.Var
	ticks []int // of each rank
}

// addGifts adds what a new job gives to whom.
func (k *Statement) addGifts(sl *Slot) {
	s := k.Kernel
	sl.Reach = k.within(sl.Family, sl.Due)
	k.addGiving(sl)
	// It is made for something due at its last delivery.
	var last []global.Term
	for i, d := range sl.Reach {
		if k.Model.Demands[d].Due == sl.Due {
			last = append(last, global.Term{View: sl.Give[i].Down(), Times: 1})
		}
	}
	global.AddLinear(s, last, -1, sl.Present())
	k.addServes(sl)
	ready, lag := sl.Done[sl.Acts()-1], problem.LastLag(sl.Modes[0])
	s.AddClause(sl.Present().Not(), AtMost(ready, k.Grid.Down(sl.Due-lag.Least)))
	s.AddClause(sl.Present().Not(), atLeast(ready, k.Grid.Up(sl.Due-lag.Most)))
}

// addGiving adds the units given to each demand within reach, which must be ready in
// time and keep.
func (k *Statement) addGiving(sl *Slot) {
	s := k.Kernel
	keeps := k.Model.Families[sl.Family].Keeps
	ready := sl.Done[sl.Acts()-1]
	most := sl.table(func(m *problem.Mode) int32 { return int32(m.Units) })
	sl.units = s.NewVar(most.Table[0], most.Table[len(most.Table)-1])
	global.AddOffset(s, k.Zero, most, sl.units)
	var sum []global.Term
	for _, d := range sl.Reach {
		dm := &k.Model.Demands[d]
		x := s.NewVar(0, int32(dm.Units))
		sl.Give = append(sl.Give, x)
		s.AddClause(sl.Present(), x.Le(0))
		s.AddClause(x.Le(0), AtMost(ready, k.Grid.Down(dm.Due-dm.Ahead)))
		s.AddClause(x.Le(0), atLeast(ready, k.Grid.Up(dm.Due-keeps)))
		sum = append(sum, global.Term{View: x.Up(), Times: 1})
	}
	global.AddLinear(s, append(sum, global.Term{View: sl.units.Down(), Times: 1}), 0)
}

// addServes keeps a family's least number of units served, from which promised
// ones are exempt.
func (k *Statement) addServes(sl *Slot) {
	least := k.Model.Families[sl.Family].Serves
	if least <= 1 {
		return
	}
	enough := k.Kernel.NewVar(0, 1)
	var all []global.Term
	open := []kernel.Lit{sl.Present().Not(), enough.Ge(1)}
	if k.Serves != nil {
		open = append(open, k.Serves[sl.Family].Not())
	}
	for i, d := range sl.Reach {
		all = append(all, global.Term{View: sl.Give[i].Down(), Times: 1})
		if k.Model.Demands[d].Promised {
			open = append(open, sl.Give[i].Ge(1))
		}
	}
	k.Kernel.AddClause(open...)
	global.AddLinear(k.Kernel, all, -int64(least), enough.Ge(1))
}

// addUnderWay adds a job that has begun.
func (k *Statement) addUnderWay(b int) bool {
	bg := &k.Model.Begun[b]
	s := k.Kernel
	sl := &Slot{Prospect: chain.Prospect{Family: bg.Family, Begun: b, Modes: []*problem.Mode{&bg.Mode}, Fixed: len(bg.Starts)}}
	n := sl.Acts()
	sl.Here = s.NewVar(1, 1)
	leaves := k.mayLeave && sl.Fixed < n
	if leaves {
		sl.Here = s.NewVar(0, 1)
	}
	if sl.Fixed < n {
		chains, ok := k.Schedule.ChainsOf(k.Grid, &sl.Prospect)
		if !ok {
			return false
		}
		sl.chains = chains
	}
	k.addChain(sl)
	if leaves {
		sl.left = s.NewVar(0, 1)
		s.AddClause(sl.Present(), sl.left.Ge(1))
	}
	keeps := k.Model.Families[bg.Family].Keeps
	lag := problem.LastLag(&bg.Mode)
	var lo, hi int // when it can be ready, in ticks
	if sl.Fixed == n {
		lo = bg.Starts[n-1] + bg.Mode.Acts[n-1].Work
		hi = lo
	} else {
		lo = k.Grid.Tick(sl.chains.Lo[n-1]) + bg.Mode.Acts[n-1].Work
		hi = k.Grid.Tick(sl.chains.Hi[n-1]) + bg.Mode.Acts[n-1].Work
	}
	for _, d := range k.Schedule.Prep.ByDue[bg.Family] {
		dm := &k.Model.Demands[d]
		if dm.Units > 0 && dm.Due-dm.Ahead >= lo && dm.Due <= hi+min(keeps, lag.Most) {
			sl.Reach = append(sl.Reach, d)
		}
	}
	if sl.Fixed == n {
		k.giveReady(sl, lo)
	} else {
		k.addGiving(sl)
	}
	k.Slots = append(k.Slots, sl)
	k.addLeaving(sl, lo)
	return true
}

// giveReady adds what a job gives that has been ready since a tick.
func (k *Statement) giveReady(sl *Slot, ready int) {
	bg := &k.Model.Begun[sl.Begun]
	keeps, lag := k.Model.Families[sl.Family].Keeps, problem.LastLag(&bg.Mode)
	var sum []global.Term
	for _, d := range sl.Reach {
		dm := &k.Model.Demands[d]
		most := dm.Units
		if ready > dm.Due-dm.Ahead || dm.Due > ready+min(keeps, lag.Most) {
			most = 0
		}
		x := k.Kernel.NewVar(0, int32(most))
		sl.Give = append(sl.Give, x)
		sum = append(sum, global.Term{View: x.Up(), Times: 1})
	}
	global.AddLinear(k.Kernel, sum, int64(bg.Mode.Units))
}

// farAway is a step later than anything can be: what has begun may go on past the
// horizon.
const farAway = 1 << 24

// addLeaving adds when the last of a job under way leaves: no sooner than its last
// lag lets it, nor than anything that it gives is due; and, where it gives
// anything, no longer after its last work than the last lag lets it.
func (k *Statement) addLeaving(sl *Slot, ready int) {
	s := k.Kernel
	mode := sl.Modes[0]
	n, lag := sl.Acts(), problem.LastLag(sl.Modes[0])
	done := sl.Done[n-1]
	for i, d := range sl.Reach {
		due := k.Model.Demands[d].Due
		if sl.Fixed < n {
			s.AddClause(sl.Give[i].Le(0), atLeast(done, k.Grid.Up(due-lag.Most)))
		}
	}
	// Something must be due late enough for the last lag's least.
	if lag.Least > 0 && len(sl.Reach) > 0 {
		k.addRest(sl, ready)
	}
	cleans := map[int]bool{0: true}
	for r := range mode.Runs {
		for _, c := range mode.Runs[r].Choices {
			cleans[c.Clean] = true
		}
	}
	sl.clear = map[int]global.Moment{}
	for _, clean := range slices.Sorted(maps.Keys(cleans)) {
		end := s.NewVar(k.Grid.Up(k.Model.From), farAway)
		if sl.Fixed < n {
			s.AddArc(done.X, end, done.Add+k.Grid.Long(lag.Least+clean))
		} else {
			s.AddClause(end.Ge(k.Grid.Up(max(ready+lag.Least, k.Model.From) + clean)))
		}
		for i, d := range sl.Reach {
			s.AddClause(sl.Give[i].Le(0), end.Ge(k.Grid.Up(k.Model.Demands[d].Due+clean)))
		}
		sl.clear[clean] = global.Moment{X: end}
	}
}

// addRest has a job under way that gives anything give something due no sooner than
// its last lag's least after its last work.
func (k *Statement) addRest(sl *Slot, ready int) {
	s := k.Kernel
	n, lag := sl.Acts(), problem.LastLag(sl.Modes[0])
	for i := range sl.Reach {
		// give[i] > 0  =>  for every ready moment something due late enough: by
		// falling due, if nothing later is given, ready is early enough for this.
		due := k.Model.Demands[sl.Reach[i]].Due
		clause := []kernel.Lit{sl.Give[i].Le(0)}
		for o, d := range sl.Reach {
			if k.Model.Demands[d].Due > due {
				clause = append(clause, sl.Give[o].Ge(1))
			}
		}
		if sl.Fixed < n {
			clause = append(clause, AtMost(sl.Done[n-1], k.Grid.Down(due-lag.Least)))
		} else if ready <= due-lag.Least {
			continue
		}
		s.AddClause(clause...)
	}
}

// addStocks adds what stock gives, and until when it stands.
func (k *Statement) addStocks() {
	s := k.Kernel
	for i := range k.Model.Stocks {
		st := &k.Model.Stocks[i]
		a := &stockSlot{leave: &leaving{}}
		ends := map[int]bool{st.Keep: true}
		for _, d := range k.Schedule.Prep.ByDue[st.Family] {
			if k.Model.Demands[d].Units > 0 && k.Model.StockServes(i, d) {
				a.Reach = append(a.Reach, d)
				ends[k.Model.Demands[d].Due] = true
			}
		}
		a.leave.ticks = slices.Sorted(maps.Keys(ends))
		a.leave.rank = s.NewVar(0, int32(len(a.leave.ticks)-1))
		none := s.NewVar(0, 1)
		var sum, some []global.Term
		for _, d := range a.Reach {
			dm := &k.Model.Demands[d]
			x := s.NewVar(0, int32(min(dm.Units, st.Units)))
			a.Give = append(a.Give, x)
			sum = append(sum, global.Term{View: x.Up(), Times: 1})
			some = append(some, global.Term{View: x.Down(), Times: 1})
			s.AddClause(x.Le(0), a.leave.rank.Ge(a.leave.at(dm.Due)))
		}
		global.AddLinear(s, sum, int64(st.Units))
		global.AddLinear(s, some, -1, none.Le(0))
		s.AddClause(none.Le(0), a.leave.rank.Ge(a.leave.at(st.Keep)))
		k.Stock = append(k.Stock, a)
	}
}

// at is the rank of a tick.
func (l *leaving) at(tick int) int32 {
	for i, t := range l.ticks {
		if t == tick {
			return int32(i)
		}
	}
	return 0
}

// until is the moment so many ticks after the last of it left.
func (k *Statement) until(l *leaving, clean int) global.Moment {
	table := global.Amount{By: l.rank}
	for _, t := range l.ticks {
		table.Table = append(table.Table, k.Grid.Up(t+clean))
	}
	if len(table.Table) == 1 {
		return global.Moment{X: k.Zero, Add: table.Table[0]}
	}
	y := k.Kernel.NewVar(table.Table[0], table.Table[len(table.Table)-1])
	global.AddOffset(k.Kernel, k.Zero, table, y)
	return global.Moment{X: y}
}

// addDemands shares out the units of every demand: given, or short.
func (k *Statement) addDemands() {
	s := k.Kernel
	given := make([][]global.Term, len(k.Model.Demands))
	put := func(give []kernel.Var, reach []int) {
		for i, d := range reach {
			given[d] = append(given[d], global.Term{View: give[i].Up(), Times: 1})
		}
	}
	for _, sl := range k.Slots {
		put(sl.Give, sl.Reach)
	}
	for _, st := range k.Stock {
		put(st.Give, st.Reach)
	}
	for _, o := range k.Over {
		put(o.Give, o.Reach)
	}
	for d := range k.Model.Demands {
		units := k.Model.Demands[d].Units
		short := s.NewVar(0, int32(units))
		k.Short = append(k.Short, short)
		global.AddLinear(s, given[d], int64(units))
		need := []global.Term{{View: short.Down(), Times: 1}}
		for _, t := range given[d] {
			need = append(need, global.Term{View: t.View.Opposite(), Times: 1})
		}
		global.AddLinear(s, need, -int64(units))
	}
}
