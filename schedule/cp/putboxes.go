package cp

import (
	"slices"
	"sort"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// putting is one answer's boxes being put into their spaces.
type putting struct {
	k      *asked
	jobs   map[*slot]*Job
	stocks []StockPlan
	homes  []StayPlace // of what is under way
	clause []kernel.Lit
	sure   bool // the clause holds in every plan
}

// putBoxes finds places for all boxes of an answer. Where there are none it gives
// a clause that forbids this: sure when geometry does, not when the search for
// places was given up.
func (k *asked) putBoxes(jobs []*Job, stocks []StockPlan) (p *putting, ok bool) {
	p = &putting{k: k, jobs: map[*slot]*Job{}, stocks: stocks, homes: append([]StayPlace(nil), k.s.homes...), sure: true}
	taken := 0
	for _, sl := range k.slots {
		if k.holds(sl.present()) {
			p.jobs[sl] = jobs[taken]
			taken++
		}
	}
	for space := range k.m.Spaces {
		if !p.fillSpace(space) {
			return p, false
		}
	}
	return p, true
}

// fillSpace puts the boxes of one space.
func (p *putting) fillSpace(space int) bool {
	sp := &p.k.m.Spaces[space]
	list, stays := p.standers(space)
	for i := range list {
		if !list[i].fact && anyOverlap(sp.Closed, list[i].from, list[i].until) {
			p.forbid(stays[i:i+1], list[i:i+1], nil)
			return false
		}
	}
	if len(sp.Floors) == 0 {
		beside := p.countedBeside(space)
		at := overfull(slices.Concat(list, beside), sp.Capacity)
		if len(at) > 0 {
			at = slices.DeleteFunc(at, func(i int) bool { return i >= len(list) })
			p.forbid(chosen(stays, at), chosen(list, at), beside)
		}
		return len(at) == 0
	}
	beside := p.standersBeside(space, list)
	places, core, v, work := standBoxes(p.k.m, space, slices.Concat(list, beside))
	p.k.s.spent += work / kernelWork
	switch v {
	case stands:
		for i, b := range stays {
			p.settle(&b, places[i])
		}
		return true
	case standsUnknown:
		p.sure = false
	default:
		list, stays = chosen(list, core), chosen(stays, core)
		// Where all of them stand there already, no plan put them so: nothing follows.
		p.sure = slices.ContainsFunc(stays, func(b boxStay) bool { return !b.fact })
	}
	p.forbid(stays, list, beside)
	return false
}

// overfull gives the members of the list that stand at a moment at which they are too
// many boxes, and which are not all there since before the plan; none where there is no such
// moment. The statement sees most of this: it counts in steps, and what comes off the grid it
// takes to come at the next.
func overfull(list []stander, capacity int) []int {
	for _, s := range list {
		var at []int
		boxes, planned := 0, false
		for i, o := range list {
			if o.from <= s.from && s.from < o.until {
				at = append(at, i)
				boxes += o.boxes
				planned = planned || !o.fact
			}
		}
		if boxes > capacity && planned {
			return at
		}
	}
	return nil
}

// standers are the stays that an answer has in a space.
func (p *putting) standers(space int) ([]stander, []boxStay) {
	var list []stander
	var stays []boxStay
	for _, b := range p.k.boxes {
		if b.space != space {
			continue
		}
		var s stander
		switch {
		case b.slot == nil:
			st := &p.k.m.Stocks[b.stock]
			s = stander{from: p.k.m.From, until: p.stocks[b.stock].End, kind: b.kind, boxes: st.Boxes, fact: true}
			if known := p.k.s.stocks[b.stock].Place.Stacks; len(st.Prefer) > 0 {
				s.known = known
			}
		case p.jobs[b.slot] == nil || !p.inSpace(&b):
			continue
		default:
			j := p.jobs[b.slot]
			mode := p.k.s.modeOf(j)
			from, until, ok := staySpan(j, mode, b.r)
			if !ok {
				continue
			}
			s = stander{from: max(from, p.k.m.From), until: until, kind: b.kind, boxes: mode.Stays[b.r].Boxes, fact: b.fact}
			if b.fact && len(p.k.m.Begun[b.slot.begun].Prefer) > 0 {
				s.known = p.homes[b.slot.begun].Stacks
			}
		}
		if s.until > s.from && s.boxes > 0 {
			list, stays = append(list, s), append(stays, b)
		}
	}
	return list, stays
}

// inSpace reports whether the answer has a stay in that space.
func (p *putting) inSpace(b *boxStay) bool {
	for _, l := range b.task.If {
		if !p.k.holds(l) {
			return false
		}
	}
	return true
}

// settle notes where boxes stand.
func (p *putting) settle(b *boxStay, stacks []Standing) {
	place := StayPlace{Space: b.space, Stacks: stacks}
	switch {
	case b.slot == nil:
		p.stocks[b.stock].Place = place
	default:
		p.jobs[b.slot].Stays[b.r] = place
		if b.fact {
			p.homes[b.slot.begun] = place
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
func (p *putting) meetings(stays []boxStay, list, beside []stander) []stander {
	out := append([]stander(nil), list...)
	all := slices.Concat(list, beside)
	for i := range list {
		s := &list[i]
		from, until := Infinite, -Infinite
		for o := range all {
			if o != i && all[o].from < s.until && s.from < all[o].until {
				t := max(s.from, all[o].from)
				from, until = min(from, t), max(until, t+1)
			}
		}
		for f := range p.k.m.Spaces[stays[i].space].Floors {
			for _, c := range p.k.m.Spaces[stays[i].space].Floors[f].Closed {
				if !s.fact && c.From < s.until && s.from < c.Until {
					last := min(c.Until, s.until) - 1
					first := last
					if stays[i].task.Least > 0 {
						last, first = c.Until-1, c.From
					}
					from, until = min(from, last), max(until, first+1)
				}
			}
		}
		if from < Infinite {
			out[i].from, out[i].until = max(from, s.from), min(until, s.until)
		}
	}
	return out
}

// forbid makes the clause that the stays do not all stand there for as long as the
// list says, with as many boxes.
func (p *putting) forbid(stays []boxStay, list, beside []stander) {
	k := p.k
	p.clause = p.clause[:0]
	list = p.meetings(stays, list, beside)
	put := func(l kernel.Lit) {
		if l != k.yes {
			p.clause = append(p.clause, l.Not())
		}
	}
	for i, b := range stays {
		for _, l := range b.task.If {
			put(l)
		}
		if !b.fact {
			put(atMost(b.task.From, k.g.down(list[i].from)))
		}
		put(p.lasts(&b, list[i].until))
		if len(b.boxes.Table) > 1 {
			put(b.boxes.By.Ge(sizeFor(b.boxes, int32(list[i].boxes))))
		}
	}
}

// lasts is the literal that a stay of the answer goes on until a tick or beyond. What
// leaves at moments that nobody plans may leave off the grid; its end is stated rounded
// up, which does not tell such a tick from a later one of the same step.
func (p *putting) lasts(b *boxStay, until int) kernel.Lit {
	k, sl := p.k, b.slot
	if sl == nil {
		leave := k.stock[b.stock].leave
		return leave.rank.Ge(int32(sort.SearchInts(leave.ticks, until)))
	}
	stated := atLeast(b.task.Until, k.g.up(until))
	n := sl.acts()
	if sl.begun < 0 || sl.modes[0].Stays[b.r].Last+1 < n || k.g.tick(k.g.down(until-1)) == until-1 {
		return stated
	}
	for _, sh := range p.jobs[sl].Shares {
		if k.m.Demands[sh.Demand].Due >= until {
			return sl.give[slices.Index(sl.reach, sh.Demand)].Ge(1)
		}
	}
	if sl.fixed == n {
		return k.yes
	}
	return sl.start[n-1].Ge(k.g.up(until - sl.modes[0].Acts[n-1].Work - lastLag(sl.modes[0]).Least))
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
