package cp

import (
	"maps"
	"slices"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// leaving is when the last of something leaves: by rank among the moments at which
// it can.
type leaving struct {
	rank  kernel.Var
	ticks []int // of each rank
}

// addGifts adds what a new job gives to whom.
func (k *asked) addGifts(sl *slot) {
	s := k.k
	sl.reach = k.within(sl.family, sl.due)
	k.addGiving(sl)
	// It is made for something due at its last delivery.
	var last []global.Term
	for i, d := range sl.reach {
		if k.m.Demands[d].Due == sl.due {
			last = append(last, global.Term{View: sl.give[i].Down(), Times: 1})
		}
	}
	global.AddLinear(s, last, -1, sl.present())
	k.addServes(sl)
	ready, lag := sl.done[sl.acts()-1], lastLag(sl.modes[0])
	s.AddClause(sl.present().Not(), atMost(ready, k.g.down(sl.due-lag.Least)))
	s.AddClause(sl.present().Not(), atLeast(ready, k.g.up(sl.due-lag.Most)))
}

// addGiving adds the units given to each demand within reach, which must be ready in
// time and keep.
func (k *asked) addGiving(sl *slot) {
	s := k.k
	keeps := k.m.Families[sl.family].Keeps
	ready := sl.done[sl.acts()-1]
	most := sl.table(func(m *Mode) int32 { return int32(m.Units) })
	sl.units = s.NewVar(most.Table[0], most.Table[len(most.Table)-1])
	global.AddOffset(s, k.zero, most, sl.units)
	var sum []global.Term
	for _, d := range sl.reach {
		dm := &k.m.Demands[d]
		x := s.NewVar(0, int32(dm.Units))
		sl.give = append(sl.give, x)
		s.AddClause(sl.present(), x.Le(0))
		s.AddClause(x.Le(0), atMost(ready, k.g.down(dm.Due-dm.Ahead)))
		s.AddClause(x.Le(0), atLeast(ready, k.g.up(dm.Due-keeps)))
		sum = append(sum, global.Term{View: x.Up(), Times: 1})
	}
	global.AddLinear(s, append(sum, global.Term{View: sl.units.Down(), Times: 1}), 0)
}

// addServes keeps a family's least number of units served, from which promised
// ones are exempt.
func (k *asked) addServes(sl *slot) {
	least := k.m.Families[sl.family].Serves
	if least <= 1 {
		return
	}
	enough := k.k.NewVar(0, 1)
	var all []global.Term
	open := []kernel.Lit{sl.present().Not(), enough.Ge(1)}
	if k.serves != nil {
		open = append(open, k.serves[sl.family].Not())
	}
	for i, d := range sl.reach {
		all = append(all, global.Term{View: sl.give[i].Down(), Times: 1})
		if k.m.Demands[d].Promised {
			open = append(open, sl.give[i].Ge(1))
		}
	}
	k.k.AddClause(open...)
	global.AddLinear(k.k, all, -int64(least), enough.Ge(1))
}

// addUnderWay adds a job that has begun.
func (k *asked) addUnderWay(b int) bool {
	bg := &k.m.Begun[b]
	s := k.k
	sl := &slot{prospect: prospect{family: bg.Family, begun: b, modes: []*Mode{&bg.Mode}, fixed: len(bg.Starts)}}
	sl.here = s.NewVar(1, 1)
	n := sl.acts()
	if sl.fixed < n {
		chains, ok := k.s.chainsOf(k.g, &sl.prospect)
		if !ok {
			return false
		}
		sl.chains = chains
	}
	k.addChain(sl)
	keeps := k.m.Families[bg.Family].Keeps
	lag := lastLag(&bg.Mode)
	var lo, hi int // when it can be ready, in ticks
	if sl.fixed == n {
		lo = bg.Starts[n-1] + bg.Mode.Acts[n-1].Work
		hi = lo
	} else {
		lo = k.g.tick(sl.chains.lo[n-1]) + bg.Mode.Acts[n-1].Work
		hi = k.g.tick(sl.chains.hi[n-1]) + bg.Mode.Acts[n-1].Work
	}
	for _, d := range k.s.prep.byDue[bg.Family] {
		dm := &k.m.Demands[d]
		if dm.Units > 0 && dm.Due-dm.Ahead >= lo && dm.Due <= hi+min(keeps, lag.Most) {
			sl.reach = append(sl.reach, d)
		}
	}
	if sl.fixed == n {
		k.giveReady(sl, lo)
	} else {
		k.addGiving(sl)
	}
	k.slots = append(k.slots, sl)
	k.addLeaving(sl, lo)
	return true
}

// giveReady adds what a job gives that has been ready since a tick.
func (k *asked) giveReady(sl *slot, ready int) {
	bg := &k.m.Begun[sl.begun]
	keeps, lag := k.m.Families[sl.family].Keeps, lastLag(&bg.Mode)
	var sum []global.Term
	for _, d := range sl.reach {
		dm := &k.m.Demands[d]
		most := dm.Units
		if ready > dm.Due-dm.Ahead || dm.Due > ready+min(keeps, lag.Most) {
			most = 0
		}
		x := k.k.NewVar(0, int32(most))
		sl.give = append(sl.give, x)
		sum = append(sum, global.Term{View: x.Up(), Times: 1})
	}
	global.AddLinear(k.k, sum, int64(bg.Mode.Units))
}

// farAway is a step later than anything can be: what has begun may go on past the
// horizon.
const farAway = 1 << 24

// addLeaving adds when the last of a job under way leaves: no sooner than its last
// lag lets it, nor than anything that it gives is due; and, where it gives
// anything, no longer after its last work than the last lag lets it.
func (k *asked) addLeaving(sl *slot, ready int) {
	s := k.k
	mode := sl.modes[0]
	n, lag := sl.acts(), lastLag(sl.modes[0])
	done := sl.done[n-1]
	for i, d := range sl.reach {
		due := k.m.Demands[d].Due
		if sl.fixed < n {
			s.AddClause(sl.give[i].Le(0), atLeast(done, k.g.up(due-lag.Most)))
		}
	}
	// Something must be due late enough for the last lag's least.
	if lag.Least > 0 && len(sl.reach) > 0 {
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
		end := s.NewVar(k.g.up(k.m.From), farAway)
		if sl.fixed < n {
			s.AddArc(done.X, end, done.Add+k.g.long(lag.Least+clean))
		} else {
			s.AddClause(end.Ge(k.g.up(max(ready+lag.Least, k.m.From) + clean)))
		}
		for i, d := range sl.reach {
			s.AddClause(sl.give[i].Le(0), end.Ge(k.g.up(k.m.Demands[d].Due+clean)))
		}
		sl.clear[clean] = global.Moment{X: end}
	}
}

// addRest has a job under way that gives anything give something due no sooner than
// its last lag's least after its last work.
func (k *asked) addRest(sl *slot, ready int) {
	s := k.k
	n, lag := sl.acts(), lastLag(sl.modes[0])
	for i := range sl.reach {
		// give[i] > 0  =>  for every ready moment something due late enough: by
		// falling due, if nothing later is given, ready is early enough for this.
		due := k.m.Demands[sl.reach[i]].Due
		clause := []kernel.Lit{sl.give[i].Le(0)}
		for o, d := range sl.reach {
			if k.m.Demands[d].Due > due {
				clause = append(clause, sl.give[o].Ge(1))
			}
		}
		if sl.fixed < n {
			clause = append(clause, atMost(sl.done[n-1], k.g.down(due-lag.Least)))
		} else if ready <= due-lag.Least {
			continue
		}
		s.AddClause(clause...)
	}
}

// addStocks adds what stock gives, and until when it stands.
func (k *asked) addStocks() {
	s := k.k
	for i := range k.m.Stocks {
		st := &k.m.Stocks[i]
		a := &stockAsked{leave: &leaving{}}
		ends := map[int]bool{st.Keep: true}
		for _, d := range k.s.prep.byDue[st.Family] {
			if k.m.Demands[d].Units > 0 && k.m.stockServes(i, d) {
				a.reach = append(a.reach, d)
				ends[k.m.Demands[d].Due] = true
			}
		}
		a.leave.ticks = slices.Sorted(maps.Keys(ends))
		a.leave.rank = s.NewVar(0, int32(len(a.leave.ticks)-1))
		none := s.NewVar(0, 1)
		var sum, some []global.Term
		for _, d := range a.reach {
			dm := &k.m.Demands[d]
			x := s.NewVar(0, int32(min(dm.Units, st.Units)))
			a.give = append(a.give, x)
			sum = append(sum, global.Term{View: x.Up(), Times: 1})
			some = append(some, global.Term{View: x.Down(), Times: 1})
			s.AddClause(x.Le(0), a.leave.rank.Ge(a.leave.at(dm.Due)))
		}
		global.AddLinear(s, sum, int64(st.Units))
		global.AddLinear(s, some, -1, none.Le(0))
		s.AddClause(none.Le(0), a.leave.rank.Ge(a.leave.at(st.Keep)))
		k.stock = append(k.stock, a)
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
func (k *asked) until(l *leaving, clean int) global.Moment {
	table := global.Amount{By: l.rank}
	for _, t := range l.ticks {
		table.Table = append(table.Table, k.g.up(t+clean))
	}
	if len(table.Table) == 1 {
		return global.Moment{X: k.zero, Add: table.Table[0]}
	}
	y := k.k.NewVar(table.Table[0], table.Table[len(table.Table)-1])
	global.AddOffset(k.k, k.zero, table, y)
	return global.Moment{X: y}
}

// addDemands shares out the units of every demand: given, or short.
func (k *asked) addDemands() {
	s := k.k
	given := make([][]global.Term, len(k.m.Demands))
	put := func(give []kernel.Var, reach []int) {
		for i, d := range reach {
			given[d] = append(given[d], global.Term{View: give[i].Up(), Times: 1})
		}
	}
	for _, sl := range k.slots {
		put(sl.give, sl.reach)
	}
	for _, st := range k.stock {
		put(st.give, st.reach)
	}
	for _, o := range k.over {
		put(o.give, o.reach)
	}
	for d := range k.m.Demands {
		units := k.m.Demands[d].Units
		short := s.NewVar(0, int32(units))
		k.short = append(k.short, short)
		global.AddLinear(s, given[d], int64(units))
		need := []global.Term{{View: short.Down(), Times: 1}}
		for _, t := range given[d] {
			need = append(need, global.Term{View: t.View.Opposite(), Times: 1})
		}
		global.AddLinear(s, need, -int64(units))
	}
}
