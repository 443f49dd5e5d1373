package follows

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// begun.yaml is the position that the folder starts from: an entry is the last word as of a
// moment. Where the maker does not write which, it is the start of the first plan that read the
// entry as it stands now, which that plan remembers and every plan after it. What the plan before
// had between then and now went by the record, and by silence.

// positions finds as of when each entry of begun.yaml holds.
func (f *follower) positions() {
	var known []schedule.BegunAsOf // of the plan before, each for one entry
	if e := f.p.Earlier; e != nil {
		known = slices.Clone(e.BegunAsOf)
	}
	add := func(id, entry string) {
		x := schedule.BegunAsOf{ID: id, AsOf: f.p.From, Entry: entry}
		if k := slices.IndexFunc(known, func(o schedule.BegunAsOf) bool { return o.ID == id && o.Entry == entry }); k >= 0 {
			x.AsOf = known[k].AsOf
			known = slices.Delete(known, k, k+1)
		}
		if f.p.AsOf != nil {
			x.AsOf = *f.p.AsOf
		}
		f.p.BegunAsOf = append(f.p.BegunAsOf, x)
	}
	for i := range f.p.Begun {
		add(f.p.Begun[i].ID, f.p.Begun[i].InShort())
	}
	for i := range f.p.Stock {
		add(schedule.StockEntry, f.p.Stock[i].InShort())
	}
}

// asOf is as of when an entry of begun.yaml holds, and whether the plan before knew it so.
func (f *follower) asOf(id, entry string) (m resources.Moment, before bool) {
	for _, x := range f.p.BegunAsOf {
		if x.ID == id && x.Entry == entry {
			return x.AsOf, f.p.Earlier != nil && x.AsOf <= f.p.Earlier.From
		}
	}
	return f.p.From, false
}

// begunOver takes out the entries of batches that the plan before has read as they stand and does
// not have: they are over, however long they stand there.
func (f *follower) begunOver() {
	e := f.p.Earlier
	if e == nil {
		return
	}
	f.p.Begun = slices.DeleteFunc(f.p.Begun, func(b schedule.Begun) bool {
		entry := b.InShort()
		read := slices.ContainsFunc(e.BegunAsOf, func(x schedule.BegunAsOf) bool { return x.ID == b.ID && x.Entry == entry })
		return read && e.Batch(b.ID) == nil && !e.Warned("cheese-gone", b.ID)
	})
}

// stock takes from each entry of stock what left since the entry was written. An entry of which nothing
// is left is none, but remembered as long as it keeps.
func (f *follower) stock() {
	e := f.went
	if e == nil {
		return
	}
	known := stockBefore(e)
	used := make([]bool, len(known)) // each stands for one entry
	var out []schedule.Stock
	for _, s := range f.p.Stock {
		asOf, before := f.asOf(schedule.StockEntry, s.InShort())
		k := -1
		for i := range known {
			if was := &known[i]; k < 0 && !used[i] && was.Cheese == s.Cheese && was.Packed == s.Packed && was.WrittenAt() == s.WrittenAt() && was.Lot == s.Lot {
				k = i
			}
		}
		switch {
		case !before:
			out = append(out, s)
		case k >= 0:
			used[k] = true
			s.At, s.Written = known[k].At, known[k].Written // it may have been carried since
			if left := f.leftOfStock(&s, k, &known[k], asOf); left.Pieces > 0 {
				out = append(out, left)
			} else if r := f.p.Recipe(s.Cheese); r != nil && s.Packed.Add(r.Keeps) >= f.p.From {
				was := known[k]
				was.Pieces, was.Left, was.For, was.BoxesAt = 0, left.Left, nil, nil
				f.p.PastStock = append(f.p.PastStock, was)
			}
		}
	}
	f.p.Stock = out
}

// leftOfStock is what is left of an entry that the plan before had.
func (f *follower) leftOfStock(s *schedule.Stock, at int, was *schedule.StockUse, asOf resources.Moment) schedule.Stock {
	out := *s
	out.Pieces = min(was.Pieces+schedule.LeftPieces(was.Left), s.Pieces) // of a plan that did not remember for whom
	always := func(resources.Moment) bool { return true }
	g := &given{id: stockHolder(at), cheese: s.Cheese, left: was.Left, to: was.For, counted: -1, there: always, made: always}
	if s.Lot != "" {
		of := f.entries.Of(record.OfBatch, s.Lot).With(func(e *record.Entry) bool { return e.At >= asOf })
		counted, gone := of.Pieces()
		if out.Pieces = s.Pieces; counted != nil {
			out.Pieces, g.counted = counted.Batch.Pieces.Value, counted.At
		}
		out.Pieces = max(out.Pieces-gone, 0)
		if slices.ContainsFunc(of, func(e *record.Entry) bool { return e.Batch.Lost }) {
			out.Pieces = 0
		}
	}
	f.settle(g)
	out.Left = g.gone
	out.Pieces = max(out.Pieces+g.back-schedule.LeftPieces(g.gone), 0)
	return out
}
