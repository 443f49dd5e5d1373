package follows

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// forever is the end of what goes on until somebody says otherwise.
const forever = resources.Moment(1) << 40

// Closed is a problem with what was said by its planning start of who is away and of what is closed: all
// that is needed to show a plan that was made from there. Nothing of the one given is changed.
func Closed(p *schedule.Problem, all *record.Book) *schedule.Problem {
	known, _ := all.Until(p.From)
	f := &follower{p: clone(p), entries: known.Standing()}
	f.closeKitchen()
	return f.p
}

// closeKitchen puts what was said of people and places where kitchen.yaml's own absences and
// closings are. All of them join.
func (f *follower) closeKitchen() {
	for i := range f.p.Kitchen.People {
		p := &f.p.Kitchen.People[i]
		of := f.entries.Of(record.OfPerson, p.Name)
		p.Away = append(slices.Clone(p.Away), stretches(of, func(e *record.Entry) (record.Said[record.Stretch], bool) { return e.Person.Away, e.Person.Here })...)
	}
	for i := range f.p.Kitchen.Cold {
		c := &f.p.Kitchen.Cold[i]
		of := f.entries.Of(record.OfPlace, c.Name)
		closed := func(shelf string) []resources.Span {
			return stretches(of.With(func(e *record.Entry) bool { return e.Subject.Shelf == shelf }),
				func(e *record.Entry) (record.Said[record.Stretch], bool) { return e.Place.Closed, e.Place.Open })
		}
		c.Taken = append(slices.Clone(c.Taken), closed("")...)
		c.Shelves = slices.Clone(c.Shelves)
		for k := range c.Shelves {
			s := &c.Shelves[k]
			s.Taken = append(slices.Clone(s.Taken), closed(s.Name)...)
		}
	}
}

// taken finds work of batches under way that somebody has said to take on, the last one said. Of a
// batch that has not begun it is not known yet which it will be: there it counts from then on.
func (f *follower) taken(batches []*batch) {
	for _, e := range f.entries.With(func(e *record.Entry) bool { return e.Person.Takes.Given }).ByTime() {
		t := e.Person.Takes.Value
		k := slices.IndexFunc(batches, func(x *batch) bool { return x.id == t.Batch })
		if k < 0 || batches[k].recipe == nil || batches[k].lost {
			continue
		}
		x := batches[k]
		if x.recipe.StageNumber(t.Stage) < len(x.starts) || f.p.Kitchen.PersonNumber(e.Subject.Name) < 0 {
			continue
		}
		if len(x.starts) == 0 {
			f.note("taken-later", e.At, "%s takes the %s of %s: it counts from when that has begun.", e.Subject.Name, t.Stage, t.Batch)
			continue
		}
		f.p.TakenOn = slices.DeleteFunc(f.p.TakenOn, func(o schedule.TakenOn) bool { return o.Batch == t.Batch && o.Stage == t.Stage })
		f.p.TakenOn = append(f.p.TakenOn, schedule.TakenOn{Batch: t.Batch, Stage: t.Stage, Who: e.Subject.Name})
	}
}

// stretches are the times that entries open and end: each until the moment that it names, else
// until an entry after it ends it.
func stretches(of record.Entries, fact func(*record.Entry) (begins record.Said[record.Stretch], ends bool)) []resources.Span {
	var out []resources.Span
	open := -1 // of out: the one that goes on
	for _, e := range of.ByTime() {
		begins, ends := fact(e)
		if ends && open >= 0 {
			out[open].Until = max(e.At, out[open].From)
			open = -1
		}
		if !begins.Given {
			continue
		}
		s := begins.Value
		span := resources.Span{From: s.From, Until: s.Until.Or(forever)}
		if span.Until == forever && open < 0 {
			open = len(out)
		}
		out = append(out, span)
	}
	return resources.Merge(out)
}
