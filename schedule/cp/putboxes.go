package cp

import (
	"slices"

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
		return true
	}
	beside := p.standersBeside(space, list)
	places, core, v, work := p.k.m.standAll(space, slices.Concat(list, beside))
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
// those moments to the latest.
func (p *putting) meetings(space int, list, beside []stander) []stander {
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
		for f := range p.k.m.Spaces[space].Floors {
			for _, c := range p.k.m.Spaces[space].Floors[f].Closed {
				if !s.fact && c.From < s.until && s.from < c.Until {
					from, until = min(from, c.Until-1), max(until, c.From+1)
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
	list = p.meetings(stays[0].space, list, beside)
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
		put(atLeast(b.task.Until, k.g.up(list[i].until)))
		if len(b.boxes.Table) > 1 {
			put(b.boxes.By.Ge(sizeFor(b.boxes, int32(list[i].boxes))))
		}
	}
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
