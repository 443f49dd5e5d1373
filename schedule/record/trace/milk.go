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
	// Came is what came of it, as was said; not given where nobody said so. Used is what the batches are
	// known to have been made of.
	Came record.Said[resources.Millilitres]
	Used resources.Millilitres
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
	if came := a.standing(out.Entries).With(func(e *record.Entry) bool { return e.Milk.Came.Given }).Latest(); came != nil {
		out.Came = came.Milk.Came
	}
	for _, s := range a.drew[c] {
		out.Batches = append(out.Batches, a.neighbour(s))
		out.Used += a.litresOf(s)
	}
	return out
}

// litresOf is how much milk went into a batch: as was said, else as planned; 0 where nobody knows.
func (a *Archive) litresOf(s *source) resources.Millilitres {
	planned := resources.Millilitres(0)
	if s.kept != nil {
		planned = s.kept.Litres
	}
	return a.standing(s.entries).Litres(planned)
}

// collections are all that are known, by day and supply.
func (a *Archive) collections(fits func(collection) bool) (out []*Collection) {
	seen := map[collection]bool{}
	for c := range a.milk {
		seen[c] = true
	}
	for c := range a.drew {
		seen[c] = true
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
