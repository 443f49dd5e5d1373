package follows

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/record"
)

// offPlan are the batches that somebody made and no plan had. Each line that says so is taken
// once: which batch it began, plans remember ([schedule.Plan.OffPlan]) for as long as there are
// any, so that one that is over is not made again. A line that corrects another is of the same
// batch. Where the line is struck and nothing else was said of the batch, it never was.
//
// A batch that no plan remembers gets the next free number of the day of its make, unless all of
// it would be over by now.
func (f *follower) offPlan(known []*batch) (out []*batch) {
	said := f.entries.With(func(e *record.Entry) bool {
		r := f.p.Recipe(e.Subject.Name)
		return e.Subject.Kind == record.OfCheese && r != nil && len(r.Stages) > 0 && (e.Batch.Began == r.Stages[0].Name || e.Batch.Did == r.Stages[0].Name)
	})
	if f.p.Earlier != nil {
		f.p.OffPlan = slices.Clone(f.p.Earlier.OffPlan)
	}
	claimed := f.claim(said)
	numbers := f.p.NumbersGiven()
	for i, e := range said {
		r := f.p.Recipe(e.Subject.Name)
		if claimed[i] == nil && !overBy(r, &f.p.Kitchen, e.At, f.p.From) {
			id := numbers.Next(r.LotDay(e.At.DateIn(f.p.Kitchen.Zone)))
			b := schedule.Batch{ID: id, Cheese: r.Name, Litres: e.Batch.Litres.Or(r.Batch.Least), Spare: r.Spare}
			b.Pieces = needs.Pieces(r, b.Litres)
			out = append(out, f.newBatch(b, 0))
			out[len(out)-1].entries = append(record.Entries{e}, out[len(out)-1].entries...)
			f.p.OffPlan = append(f.p.OffPlan, schedule.MadeOffPlan{ID: id, Cheese: r.Name, Nr: e.Nr, At: e.At})
		}
		if o := claimed[i]; o != nil {
			if x := batchOf(known, o.ID); x != nil {
				x.entries = append(record.Entries{e}, x.entries...)
			}
			o.Nr, o.At = e.Nr, e.At
		}
	}
	for i := range f.p.OffPlan {
		o := &f.p.OffPlan[i]
		struck := slices.ContainsFunc(f.all, func(e *record.Entry) bool { return isLine(o, e) && !slices.Contains(said, e) })
		if x := batchOf(known, o.ID); x != nil && struck {
			x.never = len(x.entries) == 0
		}
	}
	return out
}

// batchOf finds a batch by its id; nil for none.
func batchOf(list []*batch, id string) *batch {
	if k := slices.IndexFunc(list, func(x *batch) bool { return x.id == id }); k >= 0 {
		return list[k]
	}
	return nil
}

// overBy reports whether a batch that was made at a moment is over, with every hold as long as it
// may be in a room as warm as the kitchen's ever is.
func overBy(r *schedule.Recipe, k *resources.Kitchen, made, now resources.Moment) bool {
	for i := range r.Stages {
		if h := r.Stages[i].Hold; h != nil {
			made = made.Add(h.Longest(k))
		}
	}
	return made.Add(r.Keeps).Add(patience) < now
}

// patience is how much longer than its holds may last a batch is taken to be under way: the
// longest that anything is waited for.
const patience = 60 * resources.Day

// claim finds for each entry what is remembered of the batch that it began; nil where that is
// nothing. Each is of one entry: of its own line; else of one that corrects it, or that it corrected
// and that stands again; else, where lines have no numbers, of one that stands where its own has
// been written anew.
func (f *follower) claim(said record.Entries) []*schedule.MadeOffPlan {
	out := make([]*schedule.MadeOffPlan, len(said))
	for _, is := range []func(*schedule.MadeOffPlan, *record.Entry) bool{
		isLine,
		func(o *schedule.MadeOffPlan, e *record.Entry) bool {
			return o.Nr > 0 && slices.Contains(e.Strikes, o.Nr)
		},
		func(o *schedule.MadeOffPlan, e *record.Entry) bool { // what corrected it is struck itself, so that it stands again
			by := find(f.all, func(e *record.Entry) bool { return isLine(o, e) })
			return by != nil && e.Nr > 0 && slices.Contains(by.Strikes, e.Nr)
		},
		func(o *schedule.MadeOffPlan, e *record.Entry) bool {
			return o.Nr == 0 && e.Nr == 0 && find(f.all, func(e *record.Entry) bool { return isLine(o, e) }) == nil
		},
	} {
		for i, e := range said {
			for k := range f.p.OffPlan {
				o := &f.p.OffPlan[k]
				if out[i] == nil && o.Cheese == e.Subject.Name && !slices.Contains(out, o) && is(o, e) {
					out[i] = o
				}
			}
		}
	}
	return out
}

// find gives the first of some entries that fits; nil for none.
func find(of record.Entries, fits func(*record.Entry) bool) *record.Entry {
	if k := slices.IndexFunc(of, fits); k >= 0 {
		return of[k]
	}
	return nil
}

// isLine reports whether an entry is the line by which a batch was made.
func isLine(o *schedule.MadeOffPlan, e *record.Entry) bool {
	return e.Subject.Kind == record.OfCheese && o.Cheese == e.Subject.Name && o.Nr == e.Nr && o.At == e.At
}
