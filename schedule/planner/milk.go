package planner

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// collected is one collection that a batch may draw on.
type collected struct {
	milk int
	resources.Collection
}

// drawKey names a collection.
type drawKey struct {
	milk  int
	ready resources.Moment
}

// addMilk states the collections that batches may draw on, and how much. What batches
// that have begun drew is gone.
func (pl *Stated) addMilk() {
	k := &pl.p.Kitchen
	drawn := pl.drawnBefore()
	for i := range k.Milk {
		m := &k.Milk[i]
		within := resources.Span{From: pl.p.From.Add(-m.Keeps), Until: pl.within.Until}
		for _, c := range m.Collections(within, k.Zone) {
			most, open := needs.Drawable(pl.p, m, c)
			if !open {
				continue
			}
			amount := int64(problem.Infinite)
			if most != resources.NoLimit {
				amount = int64(max(0, most-drawn[drawKey{i, c.Ready}]))
			}
			pl.intakes = append(pl.intakes, collected{i, c})
			pl.model.Intakes = append(pl.model.Intakes, problem.Intake{Supply: i, Ready: pl.clock.tick(c.Ready),
				Until: pl.clock.tick(c.Ready.Add(m.Keeps)), Amount: amount})
		}
	}
}

// drawnBefore is what batches that have begun drew from each collection: those under way,
// and those of the earlier plan that are over or lost by now. A lost one whose make lay
// before the planning start may never have begun, but its milk is not counted on. One of which
// the record shows that it never began has drawn nothing.
func (pl *Stated) drawnBefore() map[drawKey]resources.Millilitres {
	drawn := map[drawKey]resources.Millilitres{}
	for _, u := range pl.under {
		if d := pl.drawOf(u); d != nil {
			drawn[drawKey{pl.supplyOf(u.recipe), d.Ready}] += u.litres
		}
	}
	if pl.p.Earlier == nil {
		return drawn
	}
	for i := range pl.p.Earlier.Batches {
		b := &pl.p.Earlier.Batches[i]
		here := slices.ContainsFunc(pl.under, func(u *underWay) bool { return u.id == b.ID })
		if here || b.Milk == nil || len(b.Stages) == 0 || b.Stages[0].Start >= pl.p.From || !pl.p.HasBegun(b.ID) && !pl.isLost(b.ID) {
			continue
		}
		if n := pl.milkNamed(b.Milk.Supply); n >= 0 {
			drawn[drawKey{n, b.Milk.Collect}] += b.Litres
		}
	}
	return drawn
}

// drawOf is the collection that a batch under way drew on: the earlier plan's,
// else the latest within keeps before its make; nil when there is none.
func (pl *Stated) drawOf(u *underWay) *resources.Collection {
	m := pl.milkOf(u.recipe)
	if m == nil || len(u.starts) == 0 {
		return nil
	}
	if e := u.earlier; e != nil && e.Milk != nil && e.Milk.Supply == m.Name {
		return &resources.Collection{Day: e.Milk.Collect.DateIn(pl.p.Kitchen.Zone), Ready: e.Milk.Collect, OrderBy: e.Milk.Collect.Add(-m.Order)}
	}
	return needs.DrewOn(m, u.starts[0], pl.p.Kitchen.Zone)
}

// warnUnused says, week by week, which milk comes of a supply without an order that the
// plan does not use, up to the last target.
func (pl *Stated) warnUnused(plan *schedule.Plan) {
	k := &pl.p.Kitchen
	last := pl.p.From
	for i := range pl.p.Targets {
		last = max(last, pl.p.Targets[i].By)
	}
	drawn := pl.drawnBefore()
	for i := range plan.Batches {
		if b := &plan.Batches[i]; b.Milk != nil && !b.Begun {
			drawn[drawKey{pl.milkNamed(b.Milk.Supply), b.Milk.Collect}] += b.Litres
		}
	}
	for i := range k.Milk {
		m := &k.Milk[i]
		if m.Standing == 0 {
			continue
		}
		week, since, texts := resources.Date{}, resources.Moment(0), []string(nil)
		tell := func() {
			if len(texts) > 0 {
				pl.note("milk-unused", since, "%s comes without an order, and nothing uses %s. Plan more with it, or have less come.", m.Name, strings.Join(texts, ", "))
			}
			texts = nil
		}
		for _, c := range m.Collections(resources.Span{From: pl.p.From.Add(-m.Keeps), Until: last + 1}, k.Zone) {
			rest := pl.standsOf(m, c) - drawn[drawKey{i, c.Ready}]
			if rest <= 0 {
				continue
			}
			if of := c.Day.Monday(); of != week {
				tell()
				week, since = of, c.Ready
			}
			texts = append(texts, fmt.Sprintf("%s of %s", resources.FormatVolume(rest), resources.ShowDay(c.Day.Start(k.Zone), k.Zone)))
		}
		tell()
	}
}

// standsOf is what comes of a collection without an order: what came, where that is said.
func (pl *Stated) standsOf(m *resources.Milk, c resources.Collection) resources.Millilitres {
	if came, said := pl.p.CameOf(m.Name, c.Day); said {
		return came
	}
	return m.Standing
}
