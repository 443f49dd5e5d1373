package follows

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// counts works out what there is of a batch: pieces counted, gone since, and handed over to
// targets.
//
// What left for a target counts as planned unless somebody said how many were taken.
func (f *follower) counts(x *batch) {
	counted, gone := x.entries.Pieces()
	since := max(x.since, 0) - 1
	if counted != nil {
		x.batch.Pieces, x.batch.Gone, since = counted.Batch.Pieces.Value, 0, counted.At
	}
	x.batch.Pieces = max(x.batch.Pieces-gone, 0)
	var coming []schedule.Share
	for _, s := range x.batch.For {
		switch took, said := f.tookFrom(x, &s); {
		case said:
			if s.By > since {
				x.batch.Gone += took
			}
		case s.By >= f.p.From:
			coming = append(coming, s)
		case s.By > since && f.packedBy(x, s.By) && !f.p.Kitchen.UnsaidWaits:
			x.batch.Gone += s.Pieces
		}
	}
	x.batch.For = coming
}

// packedBy reports whether a batch was packed at a moment: what was not cannot have left.
func (f *follower) packedBy(x *batch, m resources.Moment) bool {
	last := len(x.recipe.Stages) - 1
	return len(x.starts) == last+1 && x.starts[last].Add(x.works[last]) <= m
}

// takenTargets ends what was taken before its time: what was said to have left for a target is all
// of that cheese that it gets.
func (f *follower) takenTargets() {
	for i := range f.p.Targets {
		t := &f.p.Targets[i]
		wants := slices.Clone(t.Wants)
		for k := range wants {
			if f.tookEntry(t.Name, wants[k].Cheese) != nil {
				wants[k].Pieces = 0
			}
		}
		t.Wants = wants
	}
}

// tookFrom is how many pieces of a batch's share left, where somebody said what a target took of
// the cheese. Pieces not taken stay with the batch that was packed last; more than planned comes
// from that one.
func (f *follower) tookFrom(x *batch, s *schedule.Share) (took int, said bool) {
	e := f.tookEntry(s.Target, x.batch.Cheese)
	if e == nil {
		return 0, false
	}
	if len(e.Target.Of) > 0 {
		for _, of := range e.Target.Of {
			if slices.Contains(x.batch.Names(), of.Lot) && s.Want == f.firstWant(x, s.Target) {
				took += of.Pieces
			}
		}
		return took, true
	}
	left := e.Target.Took.Value
	shares := f.sharesOf(s.Target, x.batch.Cheese)
	for i, o := range shares {
		take := min(left, o.share.Pieces)
		left -= take
		if o.id != x.id || o.share.Want != s.Want {
			continue
		}
		if took = take; i == len(shares)-1 {
			took += left
		}
	}
	return took, true
}

// tookEntry is what was said last of how many pieces of a cheese left for a target.
func (f *follower) tookEntry(target, cheese string) *record.Entry {
	return f.entries.With(func(e *record.Entry) bool {
		return e.Subject.Kind == record.OfTarget && e.Target.Took.Given && e.Subject.Cheese == cheese && e.Subject.Full() == target
	}).Latest()
}

// firstWant is the place of the first want of a target that a batch has a share of.
func (f *follower) firstWant(x *batch, target string) int {
	for _, s := range x.batch.For {
		if s.Target == target {
			return s.Want
		}
	}
	return -1
}

// planShare is what one batch was to give to a target.
type planShare struct {
	id    string
	share *schedule.Share
}

// sharesOf lists what the plan before gave to a target of a cheese, those packed first first.
func (f *follower) sharesOf(target, cheese string) []planShare {
	if f.p.Earlier == nil {
		return nil
	}
	type packed struct {
		b  *schedule.Batch
		at resources.Moment
	}
	var order []packed
	for i := range f.p.Earlier.Batches {
		b := &f.p.Earlier.Batches[i]
		if b.Cheese == cheese && len(b.Stages) > 0 {
			t := &b.Stages[len(b.Stages)-1]
			order = append(order, packed{b, t.Start.Add(t.Work)})
		}
	}
	slices.SortStableFunc(order, func(a, b packed) int { return cmp.Compare(a.at, b.at) })
	var out []planShare
	for _, o := range order {
		for k := range o.b.For {
			if s := &o.b.For[k]; s.Target == target {
				out = append(out, planShare{o.b.ID, s})
			}
		}
	}
	return out
}
