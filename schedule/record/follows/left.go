package follows

import (
	"cmp"
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// What left for a target is as planned until somebody says how much it took. That replaces what the plan
// had, whenever it is said:
//
//	planned   A 6, B 4           packed first first
//	took 7    A 6, B 1           what was not taken stays with the one packed last
//	took 12   A 6, B 6           more than planned comes from the one packed last
//	took 7, of {B: 7}            as said
//	back 3, resell               comes back to the one packed last that gave some
//
// So a plan remembers what it took for gone, and batches and stock of which nothing is left, for as long
// as they keep ([schedule.LeftShare], Past and PastStock of [schedule.Plan]).

// holder is a batch or an entry of stock that may have given something to a target.
type holder struct {
	id     string // of the batch; of stock [stockHolder]
	names  []string
	packed resources.Moment
	left   []schedule.LeftShare
	to     []schedule.Share
}

// taking is what a target got of one share of a holder.
type taking struct {
	holder  string
	want    int
	by      resources.Moment
	planned int
	took    int // that left, less what came back to be sold again
	back    int
}

// stockHolder is how an entry of stock is named among holders: by its place in the plan before, those
// that were used up last.
func stockHolder(i int) string { return fmt.Sprint(schedule.StockEntry, " ", i) }

// holders lists what the plan before had of a cheese, packed first first; once, as [follower.handedOver].
func (f *follower) holders(cheese string) []holder {
	e := f.p.Earlier
	if e == nil {
		return nil
	}
	if out, known := f.held[cheese]; known {
		return out
	}
	var out []holder
	for _, list := range [][]schedule.Batch{e.Past, e.Batches} {
		for i := range list {
			if b := &list[i]; b.Cheese == cheese && len(b.Stages) > 0 {
				out = append(out, holder{b.ID, b.Names(), f.packedAt(b), b.Left, b.For})
			}
		}
	}
	for i, s := range stockBefore(e) {
		if s.Cheese == cheese {
			out = append(out, holder{stockHolder(i), []string{s.Lot}, s.Packed, s.Left, s.For})
		}
	}
	slices.SortStableFunc(out, func(a, b holder) int { return cmp.Compare(a.packed, b.packed) })
	f.held[cheese] = out
	return out
}

// packedAt is when a batch of the plan before was packed, or was to be: as somebody said, else by that
// plan.
func (f *follower) packedAt(b *schedule.Batch) resources.Moment {
	t := &b.Stages[len(b.Stages)-1]
	of := f.entries.Of(record.OfBatch, b.Names()...)
	if e, _ := of.Did(t.Stage).First(); e != nil {
		return e.At
	}
	if e, _ := of.Began(t.Stage).First(); e != nil {
		return e.At.Add(t.Work)
	}
	return t.Start.Add(t.Work)
}

// stockBefore is all stock that a plan knows of.
func stockBefore(e *schedule.Plan) []schedule.StockUse { return slices.Concat(e.Stock, e.PastStock) }

// handed is what was said of a cheese of a target: how much of it was taken, what came back to be sold
// again, nil where nobody said so; and what it got by that, share by share.
type handed struct {
	took, back *record.Entry
	of         []taking
}

// handedOver is what was said of a cheese of a target. Every batch of the cheese asks for it; it is worked
// out once.
func (f *follower) handedOver(target, cheese string) *handed {
	k := [2]string{target, cheese}
	if f.handed[k] == nil {
		h := &handed{took: f.tookEntry(target, cheese), back: f.backEntry(target, cheese)}
		h.of = f.takings(target, cheese, h.took, h.back)
		f.handed[k] = h
	}
	return f.handed[k]
}

// takings is what a target got of a cheese, share by share, where somebody said how much it took or what
// came back to be sold again; nil where nobody did.
func (f *follower) takings(target, cheese string, took, back *record.Entry) []taking {
	if took == nil && back == nil {
		return nil
	}
	all := f.holders(cheese)
	var out []taking
	for _, h := range all {
		for _, l := range h.left {
			if l.Target == target {
				out = append(out, taking{h.id, l.Want, l.By, l.Planned, l.Planned, 0})
			}
		}
		for _, s := range h.to {
			if s.Target == target {
				out = append(out, taking{h.id, s.Want, s.By, s.Pieces, s.Pieces, 0})
			}
		}
	}
	switch {
	case took == nil:
	case len(took.Target.Of) > 0:
		out = takenOf(out, all, took)
	case len(out) == 0 && f.seenBefore(took): // of what gave it nothing keeps any more
	default:
		out = takenInTurn(out, all, took)
		f.asBefore(out, all, took, back)
	}
	if back != nil {
		comeBack(out, all, back)
	}
	return out
}

// takenInTurn has a target take pieces of what was planned ([record.TakenInTurn]); where nothing was, of
// what was packed last by then.
func takenInTurn(list []taking, all []holder, e *record.Entry) []taking {
	if len(list) == 0 { // it was to get none
		for i := range all {
			if all[i].packed <= e.At {
				list = []taking{{holder: all[i].id, by: e.At}}
			}
		}
	}
	planned := make([]int, len(list))
	for i := range list {
		planned[i] = list[i].planned
	}
	for i, n := range record.TakenInTurn(e.Target.Took.Value, planned) {
		list[i].took = n
	}
	return list
}

// takenOf has a target take pieces as they were said to be of.
func takenOf(list []taking, all []holder, e *record.Entry) []taking {
	for i := range list {
		list[i].took = 0
	}
	for _, of := range e.Target.Of {
		h := holderOf(all, of.Lot)
		if h == nil {
			continue
		}
		i := slices.IndexFunc(list, func(t taking) bool { return t.holder == h.id })
		if i < 0 {
			i = len(list)
			list = append(list, taking{holder: h.id, by: e.At})
		}
		list[i].took += of.Pieces
	}
	return list
}

// holderOf finds what bears a name; nil for nothing.
func holderOf(all []holder, name string) *holder {
	for i := range all {
		if name != "" && slices.Contains(all[i].names, name) {
			return &all[i]
		}
	}
	return nil
}

// comeBack has pieces come back to be sold again: of those that were said to, else to the ones packed
// last first; no more than left.
func comeBack(list []taking, all []holder, e *record.Entry) {
	give := func(i, n int) int {
		n = min(n, list[i].took)
		list[i].took, list[i].back = list[i].took-n, list[i].back+n
		return n
	}
	if len(e.Target.Of) > 0 && !e.Target.Took.Given {
		for _, of := range e.Target.Of {
			h, left := holderOf(all, of.Lot), of.Pieces
			for i := range list {
				if h != nil && list[i].holder == h.id {
					left -= give(i, left)
				}
			}
		}
		return
	}
	took := make([]int, len(list))
	for i := range list {
		took[i] = list[i].took
	}
	for i, n := range record.BackInTurn(e.Target.Back.Value, took) {
		give(i, n)
	}
}

// tookEntry is what was said last of how many pieces of a cheese left for a target.
func (f *follower) tookEntry(target, cheese string) *record.Entry {
	return f.ofTarget(target, cheese, func(t *record.TargetFacts) bool { return t.Took.Given })
}

// backEntry is what was said last of what came back, where that may be sold again.
func (f *follower) backEntry(target, cheese string) *record.Entry {
	e := f.ofTarget(target, cheese, func(t *record.TargetFacts) bool { return t.Back.Given })
	if e == nil || !e.Target.Resell {
		return nil
	}
	return e
}

// ofTarget is the last entry about a cheese of a target that says something.
func (f *follower) ofTarget(target, cheese string, says func(*record.TargetFacts) bool) *record.Entry {
	return f.entries.With(func(e *record.Entry) bool {
		return e.Subject.Kind == record.OfTarget && e.Subject.Cheese == cheese && e.Subject.Full() == target && says(&e.Target)
	}).Latest()
}
