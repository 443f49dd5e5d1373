package coldroom

import (
	"slices"

	"ripeby/resources"
	"ripeby/resources/shelf"
)

// longest finds the place in which boxes that are put down at the question's moment
// may stay longest, the first of equal ones, and until when.
func (a *asking) longest() (best int, until Bound) {
	until.Sure = true
	for i := range a.rooms {
		b := a.rooms[i].longest(a.q.Span.From)
		until.Sure = until.Sure && b.Sure
		if b.Found && (!until.Found || b.At > until.At) {
			best, until.At, until.Found = i, b.At, true
		}
	}
	if until.At == Forever {
		until.Sure = true // there is no better one
	}
	return best, until
}

// longest finds until when boxes put down in this place at a moment may stay: until
// something comes for which they would be in the way. A later end has a place only
// if an earlier one has, so the ends are halved.
func (r *room) longest(from resources.Moment) Bound {
	ends := append(r.edges(from, true), Forever)
	answers := make([]shelf.Answer, len(ends))
	asked := make([]bool, len(ends))
	ask := func(i int) shelf.Answer {
		if !asked[i] {
			asked[i], answers[i] = true, r.fits(resources.Span{From: from, Until: ends[i]}).answer
		}
		return answers[i]
	}
	lo, hi := -1, len(ends)
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; ask(mid) == shelf.Yes {
			lo = mid
		} else {
			hi = mid
		}
	}
	b := Bound{Sure: hi == len(ends) || ask(hi) == shelf.No}
	if lo >= 0 {
		b.At, b.Found = ends[lo], true
	}
	return b
}

// next finds the next moment after the question's from which there is a place for
// the whole length. The last of the moments is looked at first: what stands from then
// on never leaves, and has mostly stood there all along, so that a No there is a No for
// all; and a Yes there is an answer, if not the soonest, when the budget ends on the
// way.
func (a *asking) next() Bound {
	var moments []resources.Moment
	for i := range a.rooms {
		moments = append(moments, a.rooms[i].edges(a.q.Span.From, false)...)
	}
	slices.Sort(moments)
	moments = slices.Compact(moments)
	b := Bound{Sure: true}
	if len(moments) == 0 {
		return b
	}
	ask := func(m resources.Moment) shelf.Answer {
		answer, _, _ := a.within(resources.Span{From: m, Until: m.Add(a.q.Span.Length())})
		return answer
	}
	last := moments[len(moments)-1]
	atLast := ask(last)
	if atLast == shelf.No && !a.filledLater() {
		return b
	}
	for _, m := range moments[:len(moments)-1] {
		switch ask(m) {
		case shelf.Yes:
			b.At, b.Found = m, true
			return b
		case shelf.Unknown:
			b.Sure = false
		}
	}
	switch atLast {
	case shelf.Yes:
		b.At, b.Found = last, true
	case shelf.Unknown:
		b.Sure = false
	}
	return b
}

// filledLater reports whether something comes after the question's moment that never
// leaves again.
func (a *asking) filledLater() bool {
	comes := func(s resources.Span) bool { return s.Until >= Forever && s.From > a.q.Span.From }
	return slices.ContainsFunc(a.rooms, func(r room) bool {
		return slices.ContainsFunc(r.counts, func(c countedStay) bool { return comes(c.span) }) ||
			slices.ContainsFunc(r.shelves, func(b board) bool {
				return slices.ContainsFunc(b.piles, func(p timedPile) bool { return comes(p.span) })
			})
	})
}

// edges lists, sorted, the moments after m at which something comes to the place or
// a part of it closes; or those at which something leaves or opens.
func (r *room) edges(m resources.Moment, comes bool) []resources.Moment {
	var out []resources.Moment
	add := func(s resources.Span) {
		at := s.Until
		if comes {
			at = s.From
		}
		if !s.Empty() && m < at && at < Forever {
			out = append(out, at)
		}
	}
	for _, s := range r.place.Taken {
		add(s)
	}
	for i := range r.shelves {
		for _, s := range r.shelves[i].shelf.Taken {
			add(s)
		}
		for _, p := range r.shelves[i].piles {
			add(p.span)
		}
	}
	for _, c := range r.counts {
		add(c.span)
	}
	slices.Sort(out)
	return slices.Compact(out)
}
