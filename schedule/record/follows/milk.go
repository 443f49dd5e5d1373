package follows

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// milk takes over what was said of orders and collections: it replaces what begun.yaml has for
// the same collection.
func (f *follower) milk() {
	for _, e := range f.entries.With(func(e *record.Entry) bool { return e.Subject.Kind == record.OfMilk }).ByTime() {
		if e.Milk.Ordered.Given {
			o := schedule.Ordered{Milk: e.Subject.Name, Day: e.Subject.Day, Litres: e.Milk.Ordered.Value}
			f.p.Ordered = append(without(f.p.Ordered, o), o)
		}
		if e.Milk.Came.Given {
			c := schedule.Came{Milk: e.Subject.Name, Day: e.Subject.Day, Litres: e.Milk.Came.Value}
			f.p.Came = slices.DeleteFunc(f.p.Came, func(o schedule.Came) bool { return o.Milk == c.Milk && o.Day == c.Day })
			f.p.Came = append(f.p.Came, c)
		}
	}
}

// without drops what is said of one collection.
func without(list []schedule.Ordered, of schedule.Ordered) []schedule.Ordered {
	return slices.DeleteFunc(slices.Clone(list), func(o schedule.Ordered) bool { return o.Milk == of.Milk && o.Day == of.Day })
}

// collected is when the milk of a collection was ready.
func (f *follower) collected(d record.Draw) (resources.Moment, bool) {
	m := f.p.Supply(d.Supply)
	if m == nil {
		return 0, false
	}
	for _, c := range m.Collections(resources.Span{From: f.p.From.Add(-collectedWithin), Until: f.p.From.Add(resources.Day)}, f.p.Kitchen.Zone) {
		if c.Day == d.Day {
			return c.Ready, true
		}
	}
	return 0, false
}

// collectedWithin is how long ago milk that a living batch drew on can have come.
const collectedWithin = 400 * resources.Day

// hadMilk reports whether the milk for a make that nobody spoke of came. What came goes to makes
// that were said first, then to planned ones in the order of their starts; a make gets all its
// litres or none.
func (f *follower) hadMilk(x *batch) bool {
	d := x.batch.Milk
	if d == nil {
		return true
	}
	m := f.p.Supply(d.Supply)
	if m == nil {
		return true
	}
	left, said := f.p.CameOf(m.Name, schedule.CollectionDay(m, d.Collect, f.p.Kitchen.Zone))
	if !said {
		return true
	}
	for _, b := range f.makesFrom(d) {
		if b.Litres > left {
			if b.ID == x.id {
				return false
			}
			continue
		}
		left -= b.Litres
		if b.ID == x.id {
			return true
		}
	}
	return true
}

// makesFrom lists the batches of the plan before that draw on a collection: those whose make
// somebody spoke of first, then by start.
func (f *follower) makesFrom(d *schedule.Draw) []*schedule.Batch {
	var out []*schedule.Batch
	for i := range f.p.Earlier.Batches {
		if b := &f.p.Earlier.Batches[i]; b.Milk != nil && *b.Milk == *d && len(b.Stages) > 0 {
			out = append(out, b)
		}
	}
	said := func(b *schedule.Batch) int {
		of := f.entries.Of(record.OfBatch, b.Names()...)
		if len(of.Began(b.Stages[0].Stage))+len(of.Did(b.Stages[0].Stage)) > 0 {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(out, func(a, b *schedule.Batch) int {
		if x, y := said(a), said(b); x != y {
			return x - y
		}
		return int(a.Stages[0].Start - b.Stages[0].Start)
	})
	return out
}
