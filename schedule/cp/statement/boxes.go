package statement

import (
	"slices"
	"sort"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/packing"
	"ripeby/schedule/cp/problem"
)

// Placing is one answer's boxes being put into their spaces.
type Placing struct {
	st     *Statement
	jobs   map[*Slot]*problem.Job
	Stocks []problem.StockPlan
	Homes  []problem.StayPlace // of what is under way
	Clause []kernel.Lit
	Sure   bool // the clause holds in every plan
}

// PutBoxes finds places for all boxes of an answer. Where there are none it gives
// a clause that forbids this: sure when geometry does, not when the search for
// places was given up.
func (k *Statement) PutBoxes(jobs []*problem.Job, stocks []problem.StockPlan) (p *Placing, ok bool) {
	p = &Placing{st: k, jobs: map[*Slot]*problem.Job{}, Stocks: stocks, Homes: append([]problem.StayPlace(nil), k.Schedule.Homes...), Sure: true}
	taken := 0
	for _, sl := range k.Slots {
		if sl.Begun >= 0 || k.Holds(sl.Present()) {
			p.jobs[sl] = jobs[taken]
			taken++
		}
	}
	for space := range k.Model.Spaces {
		if !p.fillSpace(space) {
			return p, false
		}
	}
	return p, true
}

// fillSpace puts the boxes of one space.
func (p *Placing) fillSpace(space int) bool {
	sp := &p.st.Model.Spaces[space]
	list, stays := p.standers(space)
	for i := range list {
		if !list[i].Given && problem.AnyOverlap(sp.Closed, list[i].From, list[i].Until) {
			p.forbid(stays[i:i+1], list[i:i+1], nil, func(at int) bool { return problem.AnyOverlap(sp.Closed, at, at+1) })
			return false
		}
	}
	if len(sp.Floors) == 0 {
		all := slices.Concat(list, p.frozenCounts(space))
		// The statement sees most of this: it counts in steps, and what comes off the grid it takes
		// to come at the next.
		at := packing.Overfull(all, sp.Capacity)
		if len(at) > 0 {
			at = slices.DeleteFunc(at, func(i int) bool { return i >= len(list) })
			some := chosen(list, at)
			p.forbid(chosen(stays, at), some, all[len(list):], func(at int) bool {
				return len(packing.Overfull(packing.During(slices.Concat(some, all[len(list):]), at), sp.Capacity)) > 0
			})
		}
		return len(at) == 0
	}
	frozen := p.frozenStays(space, list)
	var cannot func(at int) bool
	places, core, v, work := packing.Pack(p.st.Model, space, slices.Concat(list, frozen))
	p.st.Schedule.Spent += work / kernelWork
	switch v {
	case packing.Fits:
		for i, b := range stays {
			p.settle(&b, places[i])
		}
		return true
	case packing.Unknown:
		p.Sure = false
	default:
		list, stays = chosen(list, core), chosen(stays, core)
		// Where all of them stand there already, no plan put them so: nothing follows.
		p.Sure = slices.ContainsFunc(stays, func(b boxStay) bool { return !b.begun })
		cannot = func(at int) bool {
			never, work := packing.Never(p.st.Model, space, slices.Concat(list, frozen), at)
			p.st.Schedule.Spent += work / kernelWork
			return never
		}
	}
	p.forbid(stays, list, frozen, cannot)
	return false
}

// standers are the stays that an answer has in a space.
func (p *Placing) standers(space int) ([]packing.Stay, []boxStay) {
	var list []packing.Stay
	var stays []boxStay
	for _, b := range p.st.boxes {
		if b.space != space {
			continue
		}
		var s packing.Stay
		switch {
		case b.slot == nil:
			st := &p.st.Model.Stocks[b.stock]
			s = packing.Stay{From: p.st.Model.Stands(b.stock), Until: p.Stocks[b.stock].End, Kind: b.kind, Boxes: st.Boxes, Given: true}
			if known := p.st.Schedule.Stocks[b.stock].Place.Stacks; len(st.Prefer) > 0 {
				s.Known = known
			}
		case p.jobs[b.slot] == nil || !p.inSpace(&b):
			continue
		default:
			j := p.jobs[b.slot]
			mode := p.st.Schedule.ModeOf(j)
			from, until, ok := j.Occupies(mode, mode.Stays[b.r].Occupied())
			if !ok || until <= from {
				continue
			}
			if j.Stuck {
				until = p.st.Grid.Tick(p.st.last)
			}
			s = packing.Stay{From: max(from, p.st.Model.From), Until: until, Kind: b.kind, Boxes: mode.Stays[b.r].Boxes, Given: b.begun}
			if b.begun && len(p.st.Model.Begun[b.slot.Begun].Prefer) > 0 {
				s.Known = p.Homes[b.slot.Begun].Stacks
			}
		}
		if s.Until > s.From && s.Boxes > 0 {
			list, stays = append(list, s), append(stays, b)
		}
	}
	return list, stays
}

// inSpace reports whether the answer has a stay in that space.
func (p *Placing) inSpace(b *boxStay) bool {
	for _, l := range b.task.If {
		if !p.st.Holds(l) {
			return false
		}
	}
	return true
}

// settle notes where boxes stand.
func (p *Placing) settle(b *boxStay, stacks []problem.Standing) {
	place := problem.StayPlace{Space: b.space, Stacks: stacks}
	switch {
	case b.slot == nil:
		p.Stocks[b.stock].Place = place
	default:
		p.jobs[b.slot].Stays[b.r] = place
		if b.begun {
			p.Homes[b.slot.Begun] = place
		}
	}
}

// chosen are the members of a list at the places given.
func chosen[T any](list []T, at []int) []T {
	var out []T
	for _, i := range at {
		out = append(out, list[i])
	}
	return out
}

// meetings narrows the stretch of time of every stay to what makes it meet those
// of the others that it meets, and the closings of floors: from the soonest of
// those moments to the latest. A stay that may have no length meets a closing at the
// last moment at which it does, so that what is left of it has some.
func (p *Placing) meetings(stays []boxStay, list, frozen []packing.Stay) []packing.Stay {
	out := append([]packing.Stay(nil), list...)
	all := slices.Concat(list, frozen)
	for i := range list {
		s := &list[i]
		from, until := problem.Infinite, -problem.Infinite
		for o := range all {
			if o != i && all[o].From < s.Until && s.From < all[o].Until {
				t := max(s.From, all[o].From)
				from, until = min(from, t), max(until, t+1)
			}
		}
		for f := range p.st.Model.Spaces[stays[i].space].Floors {
			for _, c := range p.st.Model.Spaces[stays[i].space].Floors[f].Closed {
				if !s.Given && c.From < s.Until && s.From < c.Until {
					last := min(c.Until, s.Until) - 1
					first := last
					if stays[i].task.Least > 0 {
						last, first = c.Until-1, c.From
					}
					from, until = min(from, last), max(until, first+1)
				}
			}
		}
		if from < problem.Infinite {
			out[i].From, out[i].Until = max(from, s.From), min(until, s.Until)
		}
	}
	return out
}

// forbid makes the clause that the stays do not all stand with as many boxes: at one moment
// where cannot tells of one that they share, else for as long as they meet.
func (p *Placing) forbid(stays []boxStay, list, frozen []packing.Stay, cannot func(at int) bool) {
	k := p.st
	p.Clause = p.Clause[:0]
	if at, ok := p.moment(stays, list, frozen, cannot); ok {
		list = packing.During(list, at)
	} else {
		list = p.meetings(stays, list, frozen)
	}
	put := func(l kernel.Lit) {
		if l != k.Yes {
			p.Clause = append(p.Clause, l.Not())
		}
	}
	for i, b := range stays {
		for _, l := range b.task.If {
			put(l)
		}
		if !b.begun {
			put(AtMost(b.task.From, k.Grid.Down(list[i].From)))
		}
		put(p.lasts(&b, list[i].Until))
		if len(b.boxes.Table) > 1 {
			put(b.boxes.By.Ge(sizeFor(b.boxes, int32(list[i].Boxes))))
		}
	}
}

// moment is one at which the stays already cannot all stand, if there is one: best where all
// plans have most of them standing.
func (p *Placing) moment(stays []boxStay, list, frozen []packing.Stay, cannot func(at int) bool) (int, bool) {
	if cannot == nil {
		return 0, false
	}
	k, sp := p.st, &p.st.Model.Spaces[stays[0].space]
	var known []problem.Span
	for _, b := range stays {
		stands := problem.Span{From: -problem.Infinite}
		if !b.begun {
			stands.From = k.Grid.Tick(k.Kernel.Max(b.task.From.X) + b.task.From.Add)
		}
		if b.slot == nil {
			stands.From = k.Model.Stands(b.stock)
			leave := k.Stock[b.stock].leave
			stands.Until = leave.ticks[k.Kernel.Min(leave.rank)]
		} else {
			stands.Until = k.Grid.Tick(k.Kernel.Min(b.task.Until.X) + b.task.Until.Add)
		}
		known = append(known, stands)
	}
	var cuts []int
	for _, s := range frozen {
		cuts = append(cuts, s.From, s.Until)
	}
	for _, c := range sp.Closed {
		cuts = append(cuts, c.From, c.Until)
	}
	for i := range sp.Floors {
		for _, c := range sp.Floors[i].Closed {
			cuts = append(cuts, c.From, c.Until)
		}
	}
	return packing.Moment(list, known, k.Grid.Step, cuts, cannot)
}

// lasts is the literal that a stay of the answer goes on until a tick or beyond. What
// leaves at moments that nobody plans may leave off the grid; its end is stated rounded
// up, which does not tell such a tick from a later one of the same step.
func (p *Placing) lasts(b *boxStay, until int) kernel.Lit {
	k, sl := p.st, b.slot
	if sl == nil {
		leave := k.Stock[b.stock].leave
		return leave.rank.Ge(int32(sort.SearchInts(leave.ticks, until)))
	}
	stated := atLeast(b.task.Until, k.Grid.Up(until))
	if p.jobs[sl].Stuck {
		return k.Yes
	}
	n := sl.Acts()
	if sl.Begun < 0 || sl.Modes[0].Stays[b.r].Last+1 < n || k.Grid.Tick(k.Grid.Down(until-1)) == until-1 {
		return stated
	}
	for _, sh := range p.jobs[sl].Shares {
		if k.Model.Demands[sh.Demand].Due >= until {
			return sl.Give[slices.Index(sl.Reach, sh.Demand)].Ge(1)
		}
	}
	if sl.Fixed == n {
		return k.Yes
	}
	return sl.Start[n-1].Ge(k.Grid.Up(until - sl.Modes[0].Acts[n-1].Work - problem.LastLag(sl.Modes[0]).Least))
}

// sizeFor is the least size with so many.
func sizeFor(a global.Amount, n int32) int32 {
	for i, v := range a.Table {
		if v >= n {
			return int32(i)
		}
	}
	return int32(len(a.Table) - 1)
}
