package planner

import (
	"ripeby/resources"
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

// addMilk states the collections: those to come whose order moment is not past,
// and those that were ordered, up to what was ordered. What batches under way
// drew is gone.
func (pl *Stated) addMilk() {
	k := &pl.p.Kitchen
	drawn := map[drawKey]resources.Millilitres{}
	for _, u := range pl.under {
		if d := pl.drawOf(u); d != nil {
			drawn[drawKey{pl.supplyOf(u.recipe), d.Ready}] += u.litres
		}
	}
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
				amount = int64(most - drawn[drawKey{i, c.Ready}])
			}
			pl.intakes = append(pl.intakes, collected{i, c})
			pl.model.Intakes = append(pl.model.Intakes, problem.Intake{Supply: i, Ready: pl.clock.tick(c.Ready),
				Until: pl.clock.tick(c.Ready.Add(m.Keeps)), Amount: amount})
		}
	}
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
