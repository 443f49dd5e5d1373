package follows

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// counts works out what there is of a batch: pieces counted, gone since, and handed over to targets.
// All of it is worked out anew from how many there were at first, so that an entry counts once however
// many plans there were since, and not at all once it is struck.
func (f *follower) counts(x *batch) {
	b := &x.batch
	first := cmp.Or(b.Made, b.Pieces)
	unnamed := max(b.Gone-schedule.LeftPieces(b.Left), 0) // of a plan that did not remember for whom
	counted, gone := x.entries.With(func(e *record.Entry) bool { return e.At >= x.counted }).Pieces()
	since := max(x.since, 0) - 1
	if b.Pieces = first; counted != nil {
		b.Pieces, unnamed, since = counted.Batch.Pieces.Value, 0, counted.At
	}
	b.Pieces = max(b.Pieces-gone, 0)
	g := &given{id: x.id, cheese: b.Cheese, left: b.Left, to: b.For, counted: since, there: func(by resources.Moment) bool { return f.packedBy(x, by) },
		made: func(at resources.Moment) bool { return len(x.starts) > 0 && x.starts[0] <= at }}
	f.settle(g)
	b.Left, b.For, b.Pieces = g.gone, g.coming, b.Pieces+g.back
	b.Gone = unnamed + schedule.LeftPieces(g.gone)
	if b.Made = first; b.Made == b.Pieces {
		b.Made = 0
	}
}

// given is what a batch or an entry of stock gave to targets, and is to give.
type given struct {
	id, cheese string
	left       []schedule.LeftShare
	to         []schedule.Share
	counted    resources.Moment               // what left before is in that count
	there      func(by resources.Moment) bool // whether it can have left by then without a word
	made       func(at resources.Moment) bool // whether there was any of it then
	back       int                            // pieces that came back and were not counted as gone
	gone       []schedule.LeftShare           // what has left
	coming     []schedule.Share               // and what is still to leave
}

// settle works out what has left, target by target.
func (f *follower) settle(g *given) {
	var targets []string
	add := func(target string) {
		if !slices.Contains(targets, target) {
			targets = append(targets, target)
		}
	}
	for _, l := range g.left {
		add(l.Target)
	}
	for _, s := range g.to {
		add(s.Target)
	}
	for _, e := range f.entries.With(func(e *record.Entry) bool { return e.Subject.Kind == record.OfTarget && e.Subject.Cheese == g.cheese }) {
		add(e.Subject.Full())
	}
	for _, target := range targets {
		if h := f.handedOver(target, g.cheese); h.of != nil {
			f.asSaid(g, target, h)
		} else {
			f.asPlanned(g, target)
		}
	}
}

// asPlanned is what a target got of which nobody said anything.
func (f *follower) asPlanned(g *given, target string) {
	for _, l := range g.left {
		if l.Target == target && l.Planned > 0 {
			f.leaves(g, l, l.Planned, l.By)
		}
	}
	for _, s := range g.to {
		switch l := (schedule.LeftShare{Target: target, By: s.By, Want: s.Want, Planned: s.Pieces}); {
		case s.Target != target:
		case s.By >= f.p.From:
			g.coming = append(g.coming, s)
		default:
			f.leaves(g, l, s.Pieces, s.By)
		}
	}
}

// leaves has pieces leave without a word, where they can have.
func (f *follower) leaves(g *given, l schedule.LeftShare, pieces int, at resources.Moment) {
	if l.Pieces = 0; at > g.counted && g.there(at) && !f.p.Kitchen.UnsaidWaits {
		l.Pieces = pieces
	}
	g.gone = append(g.gone, l)
}

// asSaid is what a target got of which somebody said something.
func (f *follower) asSaid(g *given, target string, h *handed) {
	took, again := h.took, h.back
	for _, t := range h.of {
		l := schedule.LeftShare{Target: target, By: t.by, Want: t.want, Planned: t.planned}
		before := len(g.gone)
		switch {
		case t.holder != g.id:
			continue
		case took != nil:
			if took.At > g.counted && g.made(took.At) {
				l.Pieces = t.took
			}
			g.gone = append(g.gone, l)
		case t.by >= f.p.From:
			k := slices.IndexFunc(g.to, func(s schedule.Share) bool { return s.Target == target && s.By == t.by && s.Want == t.want })
			g.coming = append(g.coming, g.to[k])
		default:
			f.leaves(g, l, t.took, t.by)
		}
		if again != nil && again.At > g.counted && len(g.gone) > before && (took != nil && took.At <= g.counted || took == nil && t.by <= g.counted) {
			g.back += t.back
		}
	}
	g.gone = slices.DeleteFunc(g.gone, func(l schedule.LeftShare) bool { return l.Planned == 0 && l.Pieces == 0 })
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
