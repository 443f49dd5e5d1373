package follows

import (
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/record"
)

// offPlan are the batches that somebody made and no plan had. One that the plan before has since
// carried on is that one: it began when it was said to. Else it gets the next free number of the
// day of its make.
func (f *follower) offPlan(known []*batch) []*batch {
	var out []*batch
	numbers := f.p.NumbersGiven()
	claimed := map[string]bool{}
	for _, e := range f.entries.With(func(e *record.Entry) bool { return e.Subject.Kind == record.OfCheese }) {
		r := f.p.Recipe(e.Subject.Name)
		if r == nil || len(r.Stages) == 0 || e.Batch.Began != r.Stages[0].Name && e.Batch.Did != r.Stages[0].Name {
			continue
		}
		x := f.carriedSince(known, claimed, e)
		if x == nil {
			b := schedule.Batch{Cheese: r.Name, Litres: e.Batch.Litres.Or(r.Batch.Least), Spare: r.Spare}
			b.Pieces = needs.Pieces(r, b.Litres)
			b.ID = numbers.Next(r.LotDay(e.At.DateIn(f.p.Kitchen.Zone)))
			x = f.newBatch(b, 0)
			out = append(out, x)
		}
		claimed[x.id] = true
		x.entries = append(record.Entries{e}, x.entries...)
	}
	return out
}

// carriedSince is the batch of the plan before that an entry began; nil when there is none.
func (f *follower) carriedSince(known []*batch, claimed map[string]bool, e *record.Entry) *batch {
	for _, b := range known {
		if claimed[b.id] || b.recipe == nil || b.batch.Cheese != e.Subject.Name || b.planned == 0 || !b.batch.Begun {
			continue
		}
		t := &b.batch.Stages[0]
		if e.Batch.Began != "" && t.Start == e.At || e.Batch.Did != "" && t.Start.Add(t.Work) == e.At {
			return b
		}
	}
	return nil
}
