package record

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// Entries are some entries of a book in the order of writing.
type Entries []*Entry

// With keeps those of which something is true.
func (l Entries) With(fits func(*Entry) bool) Entries {
	var kept Entries
	for _, e := range l {
		if fits(e) {
			kept = append(kept, e)
		}
	}
	return kept
}

// Of keeps those about a subject that has one of the names: a batch is called by its id
// and by its lot.
func (l Entries) Of(kind Kind, names ...string) Entries {
	return l.With(func(e *Entry) bool { return e.Subject.Kind == kind && slices.Contains(names, e.Subject.Name) })
}

// ByTime puts them in the order of At, ties by writing.
func (l Entries) ByTime() Entries {
	sorted := slices.Clone(l)
	slices.SortStableFunc(sorted, func(a, b *Entry) int { return cmp.Compare(a.At, b.At) })
	return sorted
}

// Latest is the one that holds of facts that replace each other: that with the later At,
// of equals the one written last; nil of none.
func (l Entries) Latest() *Entry {
	var latest *Entry
	for _, e := range l {
		if latest == nil || e.At >= latest.At {
			latest = e
		}
	}
	return latest
}

// First is the one that holds of what happens once, began and did of a stage: the first
// written; nil of none. The rest was said twice.
func (l Entries) First() (first *Entry, again Entries) {
	if len(l) == 0 {
		return nil, nil
	}
	return l[0], l[1:]
}

// Began keeps what says that a stage began.
func (l Entries) Began(stage string) Entries {
	return l.With(func(e *Entry) bool { return e.Batch.Began == stage })
}

// Did keeps what says that the work of a stage was done.
func (l Entries) Did(stage string) Entries {
	return l.With(func(e *Entry) bool { return e.Batch.Did == stage })
}

// NotYet keeps what says that the hold before a stage is not over.
func (l Entries) NotYet(stage string) Entries {
	return l.With(func(e *Entry) bool { return e.Batch.NotYet == stage })
}

// FirstCount is how many pieces were counted first of a batch, whose entries these are; false where
// nobody counted.
func (l Entries) FirstCount() (pieces int, counted bool) {
	counts := l.With(func(e *Entry) bool { return e.Batch.Pieces.Given }).ByTime()
	if len(counts) == 0 {
		return 0, false
	}
	return counts[0].Batch.Pieces.Value, true
}

// Litres is what was said last of how much milk went into a batch, whose entries these are; otherwise
// where nothing was said.
func (l Entries) Litres(otherwise resources.Millilitres) resources.Millilitres {
	if e := l.With(func(e *Entry) bool { return e.Batch.Litres.Given }).Latest(); e != nil {
		return e.Batch.Litres.Value
	}
	return otherwise
}

// Pieces is what was said last of how many pieces there are of a batch, whose entries
// these are: counted, less all that is gone since. counted is nil where nobody counted;
// gone is then all that is gone since it was made.
func (l Entries) Pieces() (counted *Entry, gone int) {
	for _, e := range l.ByTime() {
		if e.Batch.Pieces.Given {
			counted, gone = e, 0
		}
		gone += e.Batch.Gone.Or(0)
	}
	return counted, gone
}

// Measured is what was measured, by these entries, in the order of their moments. What was said with a stage that
// began, was done or is waited for is of that stage.
func (l Entries) Measured() (all []schedule.Measured) {
	for _, e := range l.ByTime() {
		stage := cmp.Or(e.Batch.Did, e.Batch.Began, e.Batch.NotYet)
		for _, list := range [][]Measure{e.Batch.Measured, e.Place.Measured} {
			for _, m := range list {
				all = append(all, schedule.Measured{What: m.What, Is: m.Is, Stage: stage, At: e.At, Who: e.Who, Nr: e.Nr})
			}
		}
	}
	return all
}
