package judge

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// carryWithin is how far ahead somebody's hours for a carry are sought.
const carryWithin = 21 * resources.Day

// checkCarries: what stands where it is closed is carried, whole and in order, to the first listed
// place that takes it, by the first who is free; what nothing takes has a warning. Of what goes on
// before that nothing is carried. Whether a place has room is only sure where boxes put one after
// another find some; so a plan is held to what is sure.
func checkCarries(h *hearing) {
	free := h.freeToCarry()
	var maybe []block // kept free for somebody, or not: a plan does not tell of what goes on before
	told := 0
	for _, x := range h.sitters {
		if x.closing == nil {
			if x.carry != nil {
				told++
				h.failCarry("carry-needless", x, "got it carried to %s, want it left in the %s, which is open for as long as it may stand there", x.at, x.place.Name)
			}
			continue
		}
		if x.carry != nil {
			if told < len(h.plan.Carries) && x.carry != &h.plan.Carries[told] {
				h.failCarry("carry-order", x, "got another carry before it, want them by id, and stock as it is listed")
			}
			told++
		}
		who, start := h.freeFirst(free, nil, x.moved)
		other, later := h.freeFirst(free, maybe, x.moved)
		if who < 0 || start >= x.closing.Until {
			if x.carry != nil || x.at != x.place.Name {
				h.failCarry("carry", x, "got it carried to %s, want it left: nobody is there before the %s is open again", x.at, x.place.Name)
			}
			continue
		}
		if x.carry == nil && x.at == x.place.Name && (other < 0 || later >= x.closing.Until) {
			continue // who could is kept free for what was to be carried before it, and goes on
		}
		if c := x.carry; c == nil && other >= 0 || c != nil && c.Start == later && c.Who == h.nameOf(other) {
			who, start = other, later
		}
		if h.checkCarry(x, who, start) {
			b := block{person: who, span: resources.Span{From: start, Until: start.Add(h.carryLong())}}
			if x.carry == nil {
				maybe = append(maybe, b)
			} else {
				free[who] = without(free[who], []resources.Span{b.span})
			}
		}
	}
	if told != len(h.plan.Carries) {
		h.fail("carry", "", 0, "got %d carries, want one each of what stands where it is closed: %d", len(h.plan.Carries), told)
	}
}

// carryLong is how long a carry takes.
func (h *hearing) carryLong() resources.Minutes { return (5 + h.step - 1) / h.step * h.step }

// nameOf is a person's name, "" for nobody.
func (h *hearing) nameOf(who int) string {
	if who < 0 {
		return ""
	}
	return h.people[who].Name
}

func (h *hearing) failCarry(rule string, x *sitter, format string, args ...any) {
	if x.lot != nil {
		h.failStage(rule, x.lot, x.stage, x.place.Name, format, args...)
		return
	}
	h.fail(rule, "stock of "+x.cheese, x.moved, format, args...)
}

// checkCarry checks what becomes of cheese that somebody can carry, and reports whether a place may
// have been kept for it.
func (h *hearing) checkCarry(x *sitter, who int, start resources.Moment) bool {
	c := x.carry
	switch {
	case c != nil:
		want := schedule.Carry{Stock: x.stock, Start: start, Minutes: h.carryLong(), Who: h.nameOf(who), From: x.place.Name, To: x.at, Since: x.moved}
		if x.lot != nil {
			want.Batch, want.Stage = x.lot.batch.ID, x.lot.batch.Stages[x.stage].Stage
		}
		if got := *c; got.Batch != want.Batch || got.Stage != want.Stage || got.Stock != want.Stock || got.Start != want.Start || got.Minutes != want.Minutes ||
			got.Who != want.Who || got.From != want.From || got.To != want.To || got.Since != want.Since {
			h.failCarry("carry", x, "got a carry at %s by %q from %s to %s since %s, %d min, want %s by %q from %s to %s since %s, %d min", h.when(c.Start), c.Who, c.From, c.To,
				h.when(c.Since), c.Minutes, h.when(want.Start), want.Who, want.From, want.To, h.when(want.Since), want.Minutes)
		}
		if x.ends <= start {
			h.failCarry("carry-needless", x, "got a carry at %s, want none: it goes on by then", h.when(start))
		}
		h.checkStood(x)
	case x.at == x.place.Name && x.ends <= start:
		return true // it goes on by then: whether a place was kept for it is not told
	case x.at == x.place.Name:
		if !h.plan.Warned("no-place", x.name) {
			h.failCarry("carry-missing", x, "got it left in the %s, which is closed from %s on, want it carried, or said that nothing takes it", x.place.Name, h.when(x.moved))
		}
		for _, place := range x.places {
			if h.surelyTakes(x, place, x.openFor()) || h.surelyTakes(x, place, resources.Span{From: x.moved, Until: x.moved + 1}) {
				h.failCarry("carry-missing", x, "got it left in the %s, want it carried: the %s takes it", x.place.Name, place)
				break
			}
		}
		return false
	case x.later() || x.ends > start:
		h.failCarry("carry-missing", x, "got it at %s without a carry, want it in the %s", x.at, x.place.Name)
	}
	h.checkTakes(x)
	return true
}

// openFor is when the place that it is carried to should be open.
func (x *sitter) openFor() resources.Span {
	return resources.Span{From: x.moved, Until: max(x.until, x.moved+1)}
}

// checkStood: what is carried stood where the plan before had it, if it could stand there.
func (h *hearing) checkStood(x *sitter) {
	if x.lot == nil || len(x.known) != x.count || !x.place.Measured() || sameStandings(flat(x.known), flat(x.carry.Stood)) {
		return
	}
	if h.couldStand(x.lot, x.stage, x.known, h.begunPiles()) {
		h.failCarry("carry", x, "got it carried from other spots than those where it stands")
	}
}

// freeToCarry are each person's hours as far ahead as anything is carried, without rounds, looks and
// the work that has begun.
func (h *hearing) freeToCarry() [][]resources.Span {
	last := h.from
	for _, x := range h.sitters {
		if x.closing != nil {
			last = max(last, x.moved)
		}
	}
	from, until := dayIn(h.from, h.zone)-2, dayIn(last.Add(carryWithin), h.zone)+2
	far := &hearing{kitchen: h.kitchen, zone: h.zone}
	for i := range h.kitchen.People {
		p := &h.kitchen.People[i]
		far.people = append(far.people, person{Person: p, free: without(windows(h.zone, p.Hours, from, until), p.Away)})
	}
	taken := make([][]resources.Span, len(far.people))
	for _, b := range far.roundBlocks(from, until) {
		taken[b.person] = append(taken[b.person], b.span)
	}
	for _, l := range h.problem.Looks {
		if who := h.personNamed(l.Who); who >= 0 {
			taken[who] = append(taken[who], resources.Span{From: l.Start, Until: l.Start.Add(l.Minutes)})
		}
	}
	for _, x := range h.pieces() {
		if !x.planned {
			taken[x.person] = append(taken[x.person], x.span)
		}
	}
	out := make([][]resources.Span, len(far.people))
	for i, p := range far.people {
		out[i] = without(p.free, taken[i])
	}
	return out
}

// freeFirst is who is free for a carry at the first grid moment from one on, beside what may be kept
// free besides; of several the first listed, -1 for nobody.
func (h *hearing) freeFirst(free [][]resources.Span, maybe []block, from resources.Moment) (who int, at resources.Moment) {
	who, at = -1, from.Add(carryWithin)
	for i := range free {
		var busy []resources.Span
		for _, b := range maybe {
			if b.person == i {
				busy = append(busy, b.span)
			}
		}
		for _, s := range without(free[i], busy) {
			if m := h.gridAfter(max(s.From, from)); m.Add(h.carryLong()) <= s.Until && m < at {
				who, at = i, m
			}
		}
	}
	return who, at
}

// carryBlocks are the times that carries keep free.
func (h *hearing) carryBlocks() []block {
	var out []block
	for i := range h.plan.Carries {
		c := &h.plan.Carries[i]
		if who := h.personNamed(c.Who); who >= 0 {
			out = append(out, block{day: dayIn(c.Start, h.zone), person: who, span: resources.Span{From: c.Start, Until: c.Ends()}})
		}
	}
	return out
}

// checkCarriesFree: nobody's planned work lies in a carry of theirs.
func checkCarriesFree(h *hearing) {
	all := h.pieces()
	for _, b := range h.carryBlocks() {
		for _, x := range all {
			if x.planned && x.person == b.person && x.span.From < b.span.Until && b.span.From < x.span.Until {
				h.failStage("carry-taken", x.lot, x.stage, h.people[x.person].Name, "got work from %s to %s, want the carry at %s kept free",
					h.when(x.span.From), h.when(x.span.Until), h.when(b.span.From))
			}
		}
	}
}

// checkCarried: a stage tells when an earlier plan had it carried last, and no other does.
func checkCarried(h *hearing) {
	for _, l := range h.lots {
		for i := 0; l.sound && i < len(l.batch.Stages); i++ {
			want := resources.Moment(0)
			if was := h.wentTask(l, i); was != nil && i < l.begun {
				want = was.Carried
			}
			if got := l.batch.Stages[i].Carried; got != want {
				h.failStage("carried", l, i, "", "got it carried at %s, want %s", h.when(got), h.when(want))
			}
		}
	}
}
