package trace

import (
	"cmp"
	"slices"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// Archive is all that is known of what was made. It is not changed once it is made.
type Archive struct {
	book    *record.Book
	zone    *time.Location
	sources []*source // in the order in which they were made; those of which that is not known last
	named   map[string]*source
	milk    map[collection]record.Entries // struck ones too
	drew    map[collection][]*source      // what was made of it, in the order in which it was
	opened  map[string][]opened           // packets, by what is in them as it is compared, in the order of opening
	things  map[string]bool               // what went into any batch, as it is compared
	targets map[passing]*handed
	off     map[*record.Entry]*source // by the line that says that it was made off the plan
}

// source is what there is about one batch: what was kept of it, what the record says of it, or
// both.
type source struct {
	kept    *schedule.KeptBatch // nil where only the record knows of it
	names   []string            // none of a batch off the plan that no plan has named yet
	cheese  string
	made    resources.Moment // when its make began; 0 where that is not known
	place   int              // in the order of sources
	entries record.Entries   // about it, struck ones too, in the order of writing
	packets []Packet
	gave    []gift // what left of it, or was to
}

// collection is the milk of one supply on one day.
type collection struct {
	supply string
	day    resources.Date
}

// passing is one cheese of one target, by the target's name with its date where it repeats.
type passing struct{ target, cheese string }

// New makes an archive of what was kept, and of the record.
func New(kept []schedule.KeptBatch, book *record.Book, zone *time.Location) *Archive {
	a := &Archive{book: book, zone: zone, named: map[string]*source{}, milk: map[collection]record.Entries{}, drew: map[collection][]*source{}, targets: map[passing]*handed{}, off: map[*record.Entry]*source{}}
	for i := range kept {
		b := &kept[i]
		s := &source{kept: b, names: b.Names(), cheese: b.Cheese}
		a.sources = append(a.sources, s)
		for _, name := range s.names {
			if a.named[name] == nil {
				a.named[name] = s
			}
		}
	}
	for _, e := range book.All() {
		a.enter(e)
	}
	for _, s := range a.sources {
		if stages := a.stages(s); len(stages) > 0 && stages[0].Known != Planned {
			s.made = stages[0].Start
		}
	}
	a.order()
	a.handOver()
	a.openings()
	for _, s := range a.sources {
		if c, _, ok := a.milkOf(s); ok {
			a.drew[c] = append(a.drew[c], s)
		}
	}
	return a
}

// enter files an entry with all that it is about.
func (a *Archive) enter(e *record.Entry) {
	switch e.Subject.Kind {
	case record.OfBatch:
		a.about(e.Subject.Name, e)
	case record.OfCheese:
		s := a.offPlan(e)
		s.entries = append(s.entries, e)
	case record.OfMilk:
		c := collection{e.Subject.Name, e.Subject.Day}
		a.milk[c] = append(a.milk[c], e)
	case record.OfPerson:
		if t := e.Person.Takes; t.Given {
			a.about(t.Value.Batch, e)
		}
	case record.OfTarget:
		for _, l := range e.Target.Of {
			a.about(l.Lot, e)
		}
	}
}

// about files an entry with a batch, which may be one that nothing else knows of.
func (a *Archive) about(name string, e *record.Entry) {
	s := a.named[name]
	if s == nil {
		s = &source{names: []string{name}}
		a.named[name] = s
		a.sources = append(a.sources, s)
	}
	if s.cheese == "" && e.Subject.Kind == record.OfTarget {
		s.cheese = e.Subject.Cheese
	}
	if n := len(s.entries); n == 0 || s.entries[n-1] != e { // one may name a batch twice
		s.entries = append(s.entries, e)
	}
}

// offPlan is the batch that an entry says was made off the plan: of one that is corrected that of
// the correction.
func (a *Archive) offPlan(e *record.Entry) *source {
	if a.off[e] == nil {
		if by := a.book.StruckBy(e); by != nil && by.Subject == e.Subject {
			a.off[e] = a.offPlan(by)
		} else {
			a.off[e] = a.madeBy(e)
		}
	}
	return a.off[e]
}

// madeBy is the batch that was kept for an entry; a new one where none was.
func (a *Archive) madeBy(e *record.Entry) *source {
	for _, s := range a.sources {
		if s.kept == nil || s.kept.OffPlan == nil || s.cheese != e.Subject.Name {
			continue
		}
		if o := s.kept.OffPlan; o.Nr == e.Nr && o.At == e.At {
			return s
		}
	}
	s := &source{cheese: e.Subject.Name}
	a.sources = append(a.sources, s)
	return s
}

// order puts the batches in the order in which they were made.
func (a *Archive) order() {
	slices.SortStableFunc(a.sources, func(x, y *source) int {
		if (x.made == 0) != (y.made == 0) {
			return cmp.Compare(y.made, x.made)
		}
		return cmp.Or(cmp.Compare(x.made, y.made), schedule.CompareIDs(x.name(), y.name()))
	})
	for i, s := range a.sources {
		s.place = i
	}
}

// name is what a batch is called first: its lot, else its id; "" where no plan has named it yet.
func (s *source) name() string {
	if s.kept != nil && s.kept.Lot != "" {
		return s.kept.Lot
	}
	if len(s.names) > 0 {
		return s.names[0]
	}
	return ""
}

// standing keeps those of some entries that are not struck.
func (a *Archive) standing(of record.Entries) record.Entries {
	return of.With(func(e *record.Entry) bool { return a.book.StruckBy(e) == nil })
}

// StruckBy is the entry by which another is struck; nil for none.
func (a *Archive) StruckBy(e *record.Entry) *record.Entry { return a.book.StruckBy(e) }

// Kept is what was kept of a batch; nil where nothing was.
func (a *Archive) Kept(n Neighbour) *schedule.KeptBatch {
	if s := a.named[n.ID]; s != nil {
		return s.kept
	}
	return nil
}

// Round is what holds of what was said of the round of a day; nil for nothing.
func (a *Archive) Round(day resources.Date) *record.Entry {
	return a.standing(a.book.All()).With(func(e *record.Entry) bool {
		return e.Subject.Kind == record.OfRound && e.Subject.Day == day
	}).Latest()
}

// Zone is where the kitchen's days begin and end.
func (a *Archive) Zone() *time.Location { return a.zone }

// Batches is how many batches are known.
func (a *Archive) Batches() int { return len(a.sources) }

// Names are the ids and lots of all batches, those made last first.
func (a *Archive) Names() (names []string) {
	for i := len(a.sources) - 1; i >= 0; i-- {
		names = append(names, a.sources[i].names...)
	}
	return names
}
