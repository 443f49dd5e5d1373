package follows

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
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

// stock takes from each entry of stock what the plan before gave to targets since the entry was
// written. An entry of which nothing is left is none.
func (f *follower) stock() {
	e := f.went
	if e == nil {
		return
	}
	used := make([]bool, len(e.Stock)) // each stands for one entry
	var out []schedule.Stock
	for _, s := range f.p.Stock {
		_, before := f.asOf(schedule.StockEntry, s.InShort())
		if !before {
			out = append(out, s)
			continue
		}
		left := 0 // the plan before did not list it: nothing was left
		if f.p.Kitchen.UnsaidWaits {
			left = s.Pieces
		}
		for k := range e.Stock {
			was := &e.Stock[k]
			if used[k] || was.Cheese != s.Cheese || was.Packed != s.Packed || was.WrittenAt() != s.WrittenAt() {
				continue
			}
			used[k] = true
			s.At, s.Written = was.At, was.Written // it may have been carried since
			if f.p.Kitchen.UnsaidWaits {
				break
			}
			left = min(was.Pieces, s.Pieces)
			for _, sh := range was.For {
				if sh.By < f.p.From {
					left -= sh.Pieces
				}
			}
			break
		}
		if s.Pieces = left; left > 0 {
			out = append(out, s)
		}
	}
	f.p.Stock = out
}
