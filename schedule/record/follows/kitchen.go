package follows

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/record"
)

// Forever is the end of what goes on until somebody says otherwise.
const Forever = resources.Moment(1) << 40

// Stretch is a time in which somebody is away, or a place or one shelf of it is closed, as the record says.
type Stretch struct {
	Person, Place, Shelf string
	resources.Span
}

// Stretches are those of a kitchen's people and places that end after a moment, by what was said until then:
// people first, each in the order of the kitchen.
func Stretches(k *resources.Kitchen, all *record.Book, at resources.Moment) (out []Stretch) {
	known, _ := all.Until(at)
	entries := known.Standing()
	add := func(s Stretch, spans []resources.Span) {
		for _, s.Span = range spans {
			if s.Until > at {
				out = append(out, s)
			}
		}
	}
	for i := range k.People {
		add(Stretch{Person: k.People[i].Name}, absences(entries, k.People[i].Name))
	}
	for i := range k.Cold {
		c := &k.Cold[i]
		add(Stretch{Place: c.Name}, closings(entries, c.Name, ""))
		for j := range c.Shelves {
			add(Stretch{Place: c.Name, Shelf: c.Shelves[j].Name}, closings(entries, c.Name, c.Shelves[j].Name))
		}
	}
	return out
}

// absences and closings are what was said of a person, and of a place or a shelf of it.
func absences(of record.Entries, person string) []resources.Span {
	return stretches(of.Of(record.OfPerson, person), func(e *record.Entry) (record.Said[record.Stretch], bool) { return e.Person.Away, e.Person.Here })
}

func closings(of record.Entries, place, shelf string) []resources.Span {
	return stretches(of.Of(record.OfPlace, place).With(func(e *record.Entry) bool { return e.Subject.Shelf == shelf }),
		func(e *record.Entry) (record.Said[record.Stretch], bool) { return e.Place.Closed, e.Place.Open })
}

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
		p.Away = append(slices.Clone(p.Away), absences(f.entries, p.Name)...)
	}
	for i := range f.p.Kitchen.Cold {
		c := &f.p.Kitchen.Cold[i]
		c.Taken = append(slices.Clone(c.Taken), closings(f.entries, c.Name, "")...)
		c.Shelves = slices.Clone(c.Shelves)
		for k := range c.Shelves {
			s := &c.Shelves[k]
			s.Taken = append(slices.Clone(s.Taken), closings(f.entries, c.Name, s.Name)...)
		}
	}
}

// takersOf is what was said of who takes on work of a batch, in order of time.
func (f *follower) takersOf(x *batch) record.Entries {
	return f.takers.With(func(e *record.Entry) bool { return slices.Contains(x.batch.Names(), e.Person.Takes.Value.Batch) })
}

// toTakers has the plan before tell work to whoever took it on before it was to be over: as silence goes, they
// did it.
func (f *follower) toTakers(x *batch) {
	for _, e := range f.takersOf(x) {
		for i := range x.batch.Stages {
			t := &x.batch.Stages[i]
			if t.Stage == e.Person.Takes.Value.Stage && t.Work > 0 && e.At < t.Start.Add(t.Work) && f.p.Kitchen.PersonNumber(e.Subject.Name) >= 0 {
				t.Who = e.Subject.Name
			}
		}
	}
}

// taken finds work to come that somebody has said to take on, the last one said. Of a batch that has not
// begun nobody is held to it where the recipe names others, or nothing that was told is: there it counts
// from when it has.
func (f *follower) taken(batches []*batch) {
	for _, x := range batches {
		if x.recipe == nil || x.lost || x.never || x.past {
			continue
		}
		for _, e := range f.takersOf(x) {
			f.takes(x, e)
		}
	}
}

// takes has somebody take on work of a batch in place of who took it before.
func (f *follower) takes(x *batch, e *record.Entry) {
	on := schedule.TakenOn{Batch: x.id, Stage: e.Person.Takes.Value.Stage, Who: e.Subject.Name, Begun: f.begunOf(x) > 0}
	stage := x.recipe.StageNumber(on.Stage)
	if stage >= 0 && stage < f.begunOf(x) || f.p.Kitchen.PersonNumber(on.Who) < 0 {
		return
	}
	f.p.TakenOn = slices.DeleteFunc(f.p.TakenOn, func(o schedule.TakenOn) bool { return o.Batch == on.Batch && o.Stage == on.Stage })
	why := ""
	switch {
	case stage < 0:
		f.note("taken-nothing", e.At, "%s takes the %s of %s, of which the recipe has no such stage.", on.Who, on.Stage, on.Batch)
		return
	case !needs.HasWork(&x.recipe.Stages[stage]):
		f.note("taken-nothing", e.At, "%s takes the %s of %s, in which nobody works.", on.Who, on.Stage, on.Batch)
		return
	case on.Begun:
	case len(x.recipe.Stages[stage].Who) > 0 && !slices.Contains(x.recipe.Stages[stage].Who, on.Who):
		why = "by its recipe others do it"
	case f.p.Kitchen.Settled == 0:
		why = "with settled: 0 h nobody is held to what was planned"
	}
	if why != "" {
		f.note("taken-later", e.At, "%s takes the %s of %s: it counts from when that has begun, for %s.", on.Who, on.Stage, on.Batch, why)
		return
	}
	f.p.TakenOn = append(f.p.TakenOn, on)
}

// begunOf is how many stages of a batch have begun, by begun.yaml where nobody else speaks of it.
func (f *follower) begunOf(x *batch) int {
	if x.alone {
		for i := range f.p.Begun {
			if f.p.Begun[i].ID == x.id {
				return len(f.p.Begun[i].Stages)
			}
		}
	}
	return len(x.starts)
}

// stretches are the times that entries open and end: each until the moment that it names, or
// until an entry after it ends it sooner.
func stretches(of record.Entries, fact func(*record.Entry) (begins record.Said[record.Stretch], ends bool)) []resources.Span {
	var out []resources.Span
	open := -1 // of out: the one that goes on
	for _, e := range of.ByTime() {
		begins, ends := fact(e)
		if ends {
			for i := range out {
				if out[i].From <= e.At && e.At < out[i].Until {
					out[i].Until = e.At
				}
			}
			open = -1
		}
		if !begins.Given {
			continue
		}
		s := begins.Value
		span := resources.Span{From: s.From, Until: s.Until.Or(Forever)}
		if span.Until == Forever && open < 0 {
			open = len(out)
		}
		out = append(out, span)
	}
	return resources.Merge(slices.DeleteFunc(out, resources.Span.Empty))
}
