package judge

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
)

// supply finds a milk supply by name; nil when there is none.
func (h *hearing) supply(name string) *resources.Milk {
	for i := range h.kitchen.Milk {
		if h.kitchen.Milk[i].Name == name {
			return &h.kitchen.Milk[i]
		}
	}
	return nil
}

// collected gives the collection of a supply on a day; false when there is none.
func (h *hearing) collected(m *resources.Milk, d day) (resources.Moment, bool) {
	ready := wallClock(h.zone, d, m.Ready)
	if !m.Days.Has(d.weekday()) {
		return 0, false
	}
	// A closed day has no collection; its noon stands for it, as a "24:00" collection
	// is ready only on the next day.
	noon := wallClock(h.zone, d, 12*60)
	for _, c := range m.Closed {
		if c.From <= noon && noon < c.Until {
			return 0, false
		}
	}
	return ready, true
}

// checkMilk: a new batch whose recipe names a supply draws on a collection that
// exists and can be used, and its make starts while the milk keeps. A begun batch
// has drawn on its collection already.
func checkMilk(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		if l.past != nil {
			h.checkBegunMilk(l)
			continue
		}
		d, begins := l.batch.Milk, l.batch.Stages[0].Start
		if l.recipe.Milk == "" || d == nil {
			if l.recipe.Milk != "" || d != nil {
				h.failLot("milk", l, "got milk from %q, want %q", supplyOf(d), l.recipe.Milk)
			}
			continue
		}
		m := h.supply(d.Supply)
		if d.Supply != l.recipe.Milk || m == nil {
			h.failLot("milk", l, "got milk from %q, want %q", d.Supply, l.recipe.Milk)
			continue
		}
		if !h.isCollection(m, d.Collect) {
			h.failLot("no-collection", l, "got milk collected at %s, want a collection of %s", h.when(d.Collect), m.Name)
			continue
		}
		if begins < d.Collect || begins > d.Collect.Add(m.Keeps) {
			h.failLot("milk-age", l, "got a make at %s, want it within %d min after the collection at %s", h.when(begins), m.Keeps, h.when(d.Collect))
		}
	}
}

func supplyOf(d *schedule.Draw) string {
	if d == nil {
		return ""
	}
	return d.Supply
}

// isCollection reports whether milk of the supply is ready at that very moment.
func (h *hearing) isCollection(m *resources.Milk, at resources.Moment) bool {
	// A "24:00" collection, or one moved by a clock change, may show the next date.
	for d := dayIn(at, h.zone) - 1; d <= dayIn(at, h.zone); d++ {
		if ready, ok := h.collected(m, d); ok && ready == at {
			return true
		}
	}
	return false
}

// checkBegunMilk: the earlier plan's collection, else the latest one within keeps
// before the make.
func (h *hearing) checkBegunMilk(l *lot) {
	var want *schedule.Draw
	if old := h.went(l.batch.ID); old != nil && old.Milk != nil {
		want = old.Milk
	} else if m := h.supply(l.recipe.Milk); m != nil {
		begins := l.batch.Stages[0].Start
		last := dayIn(begins, h.zone)
		for d := last; d >= last-day(min(m.Keeps, Reach)/resources.Day)-2; d-- {
			if ready, ok := h.collected(m, d); ok && ready <= begins && begins <= ready.Add(m.Keeps) {
				want = &schedule.Draw{Supply: m.Name, Collect: ready}
				break
			}
		}
	}
	got := l.batch.Milk
	switch {
	case (got == nil) != (want == nil):
		h.failLot("begun-changed", l, "got milk from %q, want %q", supplyOf(got), supplyOf(want))
	case got != nil && *got != *want:
		h.failLot("begun-changed", l, "got milk of %s collected at %s, want %s at %s", got.Supply, h.when(got.Collect), want.Supply, h.when(want.Collect))
	}
}

// checkCollections: a collection that new batches draw on serves, and no more is drawn
// from it than it gives. Batches of the earlier plan whose make lay before the planning
// start have drawn, though they are over or lost and not listed any more, unless it is known
// that they never began.
func checkCollections(h *hearing) {
	drawn := map[schedule.Draw]resources.Millilitres{}
	listed := map[string]bool{}
	var order []schedule.Draw
	planned := map[schedule.Draw]*lot{}
	for _, l := range h.lots {
		listed[l.batch.ID] = true
		if l.batch.Milk == nil {
			continue
		}
		d := *l.batch.Milk
		drawn[d] += l.batch.Litres
		if l.past == nil && planned[d] == nil {
			planned[d] = l
			order = append(order, d)
		}
	}
	if old := h.problem.Earlier; old != nil {
		for i := range old.Batches {
			b := &old.Batches[i]
			if b.Milk != nil && !listed[b.ID] && len(b.Stages) > 0 && b.Stages[0].Start < h.from && !h.neverBegan(b.ID) {
				drawn[*b.Milk] += b.Litres
			}
		}
	}
	for _, d := range order {
		m := h.supply(d.Supply)
		if m == nil {
			continue
		}
		most, text := h.usable(m, d.Collect)
		switch {
		case text != "":
			h.failLot("milk-too-late", planned[d], "%s", text)
		case most >= 0 && drawn[d] > most:
			h.failLot("milk-over", planned[d], "got %d mL drawn from the collection of %s at %s, want at most %d", drawn[d], m.Name, h.when(d.Collect), most)
		}
	}
	h.checkUnused(drawn)
}

// usable gives how much a collection can give ([resources.NoLimit] when it does
// not say), or why it cannot be used. What came is all of it. Else it serves when it is
// ready and to be ordered at or after the planning start; or up to what was ordered or
// stands, or what the earlier plan drew from it where nobody said what was ordered.
func (h *hearing) usable(m *resources.Milk, collect resources.Moment) (resources.Millilitres, string) {
	var came, ordered resources.Millilitres
	cameSaid, orderSaid := false, false
	for _, c := range h.problem.Came {
		if c.Milk == m.Name && wallClock(h.zone, dayOf(c.Day), m.Ready) == collect {
			came, cameSaid = came+c.Litres, true
		}
	}
	if cameSaid {
		return came, ""
	}
	if collect >= h.from && collect-resources.Moment(m.Order) >= h.from {
		return m.Most, ""
	}
	for _, o := range h.problem.Ordered {
		if o.Milk == m.Name && wallClock(h.zone, dayOf(o.Day), m.Ready) == collect {
			ordered, orderSaid = ordered+o.Litres, true
		}
	}
	if !orderSaid && h.problem.Earlier != nil && !h.kitchen.UnsaidWaits {
		for _, b := range h.problem.Earlier.Batches {
			if b.Milk != nil && b.Milk.Supply == m.Name && b.Milk.Collect == collect {
				ordered += b.Litres
			}
		}
	}
	comes := max(ordered, m.Standing)
	if comes == 0 {
		return 0, fmt.Sprintf("got milk of %s from the collection at %s, want one that is ready and can be ordered at or after %s, was ordered, or comes without",
			m.Name, h.when(collect), h.when(h.from))
	}
	if m.Most >= 0 {
		comes = min(comes, m.Most)
	}
	return comes, ""
}

// checkUnused: milk that comes without an order, still keeps or is to come up to the last
// target, and is not all drawn is said.
func (h *hearing) checkUnused(drawn map[schedule.Draw]resources.Millilitres) {
	last := h.from
	for i := range h.problem.Targets {
		last = max(last, h.problem.Targets[i].By)
	}
	for i := range h.kitchen.Milk {
		m := &h.kitchen.Milk[i]
		if m.Standing <= 0 {
			continue
		}
		for d := dayIn(h.from-resources.Moment(m.Keeps), h.zone) - 1; d <= dayIn(last, h.zone); d++ {
			ready, is := h.collected(m, d)
			if !is || ready < h.from-resources.Moment(m.Keeps) || ready > last {
				continue
			}
			stands := m.Standing
			for _, c := range h.problem.Came {
				if c.Milk == m.Name && dayOf(c.Day) == d {
					stands = c.Litres
				}
			}
			if stands > drawn[schedule.Draw{Supply: m.Name, Collect: ready}] && !h.warned("milk-unused") {
				h.fail("warning-missing", "milk-unused", ready, "got milk of %s that comes and is not used, and no warning, want one", m.Name)
				return
			}
		}
	}
}
