package planner_test

import (
	"fmt"
	"math"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// collected is one collection of milk, drawn as a thing of so many millilitres.
type collected struct {
	resources.Collection
	usable bool
	thing  int
}

// collections writes a supply's collections out. Of one that has come there is what came.
// One that is ready, and to be ordered, at or after the planning start has as much as the
// supply gives; any other what was ordered, or what the plan before drew from it where
// nobody said what was and silence does not mean that none was, and at least what stands.
func (e *everyWorld) collections(m *resources.Milk, all resources.Span) {
	for _, c := range m.Collections(all, e.p.Kitchen.Zone) {
		limit, usable := int64(math.MaxInt64/4), true
		if m.Most != resources.NoLimit {
			limit = int64(m.Most)
		}
		if c.Ready < e.from || c.OrderBy < e.from {
			comes := int64(m.Standing)
			if ordered, said := said(e.p.Ordered, func(o schedule.Ordered) bool { return o.Milk == m.Name && o.Day == c.Day }); said {
				comes = max(comes, ordered)
			} else if e.p.Earlier != nil && !e.p.Kitchen.UnsaidWaits {
				drew := int64(0)
				for _, b := range e.p.Earlier.Batches {
					if b.Milk != nil && b.Milk.Supply == m.Name && b.Milk.Collect == c.Ready {
						drew += int64(b.Litres)
					}
				}
				comes = max(comes, drew)
			}
			limit, usable = min(limit, comes), comes > 0
		}
		if came, said := said(e.p.Came, func(o schedule.Came) bool { return o.Milk == m.Name && o.Day == c.Day }); said {
			limit, usable = came, came > 0
		}
		t := e.add(fmt.Sprintf("milk %s %d", m.Name, c.Ready), sideMilk, limit)
		e.milk[m.Name] = append(e.milk[m.Name], collected{c, usable, t})
	}
}

// said adds up the litres of entries that are of a collection; false where none is.
func said[T interface {
	schedule.Ordered | schedule.Came
}](list []T, of func(T) bool) (sum int64, any bool) {
	for _, o := range list {
		if of(o) {
			sum, any = sum+int64(schedule.Ordered(o).Litres), true
		}
	}
	return sum, any
}

// drawnByOthers takes off what batches of the plan before drew that are over or lost now.
func (e *everyWorld) drawnByOthers() {
	for _, b := range e.gone() {
		for _, c := range e.milk[b.Milk.Supply] {
			if c.Ready == b.Milk.Collect {
				e.things[c.thing].limit -= int64(b.Litres)
			}
		}
	}
}

// gone are the batches of the plan before that have drawn milk by now and are not under way.
func (e *everyWorld) gone() []schedule.Batch {
	if e.p.Earlier == nil {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(e.p.Earlier.Batches), func(b schedule.Batch) bool {
		here := slices.ContainsFunc(e.under, func(u everyBegun) bool { return u.ID == b.ID })
		never := e.p.Lived != nil && !e.p.HasBegun(b.ID) && !slices.Contains(e.p.Lost, b.ID)
		return here || never || b.Milk == nil || b.Stages[0].Start >= e.from
	})
}

// warnUnused says that milk comes which a plan does not use, if some does.
func (e *everyWorld) warnUnused(plan *schedule.Plan) {
	for i := range e.p.Kitchen.Milk {
		m := &e.p.Kitchen.Milk[i]
		for _, c := range e.milk[m.Name] {
			if m.Standing == 0 || c.Ready < e.from.Add(-m.Keeps) || c.Ready > e.last {
				continue
			}
			rest := int64(m.Standing)
			if came, said := said(e.p.Came, func(o schedule.Came) bool { return o.Milk == m.Name && o.Day == c.Day }); said {
				rest = came
			}
			for _, b := range append(e.gone(), plan.Batches...) {
				if b.Milk != nil && b.Milk.Supply == m.Name && b.Milk.Collect == c.Ready {
					rest -= int64(b.Litres)
				}
			}
			if rest > 0 {
				warn(plan, "milk-unused", m.Name)
				return
			}
		}
	}
}
