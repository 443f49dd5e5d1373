package trace

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// Collection is the milk of one supply on one day, and what was made of it.
type Collection struct {
	Supply string
	Day    resources.Date
	// Known is how it is known which milk a batch drew on; "" where no batch is asked about.
	Known   Known
	Lots    []string       // the supplier's own, or the delivery note
	Entries record.Entries // about it, struck ones too
	Batches []Neighbour    // that drew on it
}

// milkOf is the milk that a batch drew on; not ok where it is not known, or always to hand.
func (a *Archive) milkOf(s *source) (c collection, known Known, ok bool) {
	drew := a.standing(s.entries).With(func(e *record.Entry) bool { return e.Batch.Drew.Given }).Latest()
	switch {
	case drew != nil:
		d := drew.Batch.Drew.Value
		return collection{d.Supply, d.Day}, Said, true
	case s.kept != nil && s.kept.Milk != nil:
		return collection{s.kept.Milk.Supply, s.kept.Milk.Day}, Assumed, true
	}
	return collection{}, "", false
}

// collected tells of one collection.
func (a *Archive) collected(c collection) *Collection {
	out := &Collection{Supply: c.supply, Day: c.day, Entries: a.milk[c]}
	for _, e := range a.standing(out.Entries) {
		if e.Milk.Lot != "" && !slices.Contains(out.Lots, e.Milk.Lot) {
			out.Lots = append(out.Lots, e.Milk.Lot)
		}
	}
	for _, s := range a.sources {
		if of, _, ok := a.milkOf(s); ok && of == c {
			out.Batches = append(out.Batches, a.neighbour(s))
		}
	}
	return out
}

// collections are all that are known, by day and supply.
func (a *Archive) collections(fits func(collection) bool) (out []*Collection) {
	seen := map[collection]bool{}
	for c := range a.milk {
		seen[c] = true
	}
	for _, s := range a.sources {
		if c, _, ok := a.milkOf(s); ok {
			seen[c] = true
		}
	}
	var list []collection
	for c := range seen {
		if fits(c) {
			list = append(list, c)
		}
	}
	slices.SortFunc(list, func(x, y collection) int {
		if x.day != y.day {
			return -x.day.DaysUntil(y.day)
		}
		return schedule.CompareIDs(x.supply, y.supply)
	})
	for _, c := range list {
		out = append(out, a.collected(c))
	}
	return out
}
