package trace

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// Leaving is what left of one batch for one want of a target, or was to.
type Leaving struct {
	Target  string
	By      resources.Moment // when it was to leave, or did
	Planned int              // pieces that the plan had for it
	Pieces  int              // that left
	Back    int              // of them, that came back
	To      string           // one of the businesses; "" where none was said
	Known   Known            // Planned: nothing has left yet
	Took    *record.Entry    // that says how many left; nil for none
	BackBy  *record.Entry    // that says how many came back; nil for none
}

// handed is what is known of one cheese of one target.
type handed struct {
	took, back *record.Entry // that hold; nil for none
	out        *record.Entry // that says when it was sold out; nil for none
	shares     []share       // that plans gave, of what is packed first first
	loose      int           // pieces of took that are of no batch that is known
}

// share is what one batch gave to one want.
type share struct {
	source *source
	kept   *schedule.KeptShare // nil where no plan had it
	took   int                 // of what somebody said
	back   int
}

// handOver works out for every target what left for it, and of which batch.
func (a *Archive) handOver() {
	of := func(target, cheese string) *handed {
		k := passing{target, cheese}
		if a.targets[k] == nil {
			a.targets[k] = &handed{}
		}
		return a.targets[k]
	}
	for _, s := range a.sources {
		if s.kept == nil {
			continue
		}
		for i := range s.kept.For {
			h := of(s.kept.For[i].Target, s.cheese)
			h.shares = append(h.shares, share{source: s, kept: &s.kept.For[i]})
		}
	}
	for _, e := range a.standing(a.book.All()) {
		if e.Subject.Kind != record.OfTarget {
			continue
		}
		name := e.Subject.Full()
		if a.targets[passing{name, e.Subject.Cheese}] == nil && a.targets[passing{e.Subject.Name, e.Subject.Cheese}] != nil {
			name = e.Subject.Name // it does not repeat, and its date was said all the same
		}
		h := of(name, e.Subject.Cheese)
		if e.Target.Took.Given && (h.took == nil || e.At >= h.took.At) {
			h.took = e
		}
		if e.Target.Back.Given && (h.back == nil || e.At >= h.back.At) {
			h.back = e
		}
		if e.Target.SoldOut.Given && (h.out == nil || e.At >= h.out.At) {
			h.out = e
		}
	}
	for _, h := range a.targets {
		slices.SortStableFunc(h.shares, func(x, y share) int { return cmp.Compare(x.source.kept.Packed(), y.source.kept.Packed()) })
		a.took(h)
		a.cameBack(h)
	}
	for k, h := range a.targets {
		for i := range h.shares {
			s := h.shares[i].source
			s.gave = append(s.gave, gift{k.target, h, &h.shares[i]})
		}
	}
}

// gift is what one batch gave to one want of a target.
type gift struct {
	target string
	of     *handed
	share  *share
}

// took shares out what somebody said was taken: by the lots that were named; else in turn
// ([record.TakenInTurn]).
func (a *Archive) took(h *handed) {
	if h.took == nil {
		return
	}
	took := h.took.Target
	if len(took.Of) > 0 {
		h.loose = took.Took.Value
		for _, l := range took.Of {
			h.of(a.named[l.Lot]).took += l.Pieces
			h.loose -= l.Pieces
		}
		h.loose = max(h.loose, 0)
		return
	}
	if len(h.shares) == 0 {
		h.loose = took.Took.Value
	}
	planned := make([]int, len(h.shares))
	for i := range h.shares {
		planned[i] = h.shares[i].kept.Pieces
	}
	for i, n := range record.TakenInTurn(took.Took.Value, planned) {
		h.shares[i].took = n
	}
}

// of is the first share of a batch; a new one where no plan gave any.
func (h *handed) of(s *source) *share {
	if found := find(h.shares, func(x *share) bool { return x.source == s }); found != nil {
		return found
	}
	h.shares = append(h.shares, share{source: s})
	return &h.shares[len(h.shares)-1]
}

// cameBack shares out what came back: by the lots that were named, where the entry does not say
// with them what was taken; else in turn ([record.BackInTurn]).
func (a *Archive) cameBack(h *handed) {
	if h.back == nil {
		return
	}
	back := h.back.Target
	if len(back.Of) > 0 && !back.Took.Given {
		for _, l := range back.Of {
			h.of(a.named[l.Lot]).back += l.Pieces
		}
		return
	}
	left := make([]int, len(h.shares))
	for i := range h.shares {
		left[i] = h.left(&h.shares[i])
	}
	for i, n := range record.BackInTurn(back.Back.Value, left) {
		h.shares[i].back = n
	}
}

// left is how many pieces of a share left.
func (h *handed) left(s *share) int {
	switch {
	case h.took != nil:
		return s.took
	case s.kept == nil || !s.kept.Gone:
		return 0
	case s.kept.Assumed:
		return s.kept.Left
	}
	return s.kept.Pieces // what was said when a plan was last kept has been struck since
}

// leaving tells of one share.
func (h *handed) leaving(target string, s *share) Leaving {
	l := Leaving{Target: target, Pieces: h.left(s), Back: s.back, Known: Assumed, Took: h.took}
	if s.kept != nil {
		l.By, l.Planned = s.kept.By, s.kept.Pieces
		if !s.kept.Gone {
			l.Known = Planned
		}
	}
	if h.took != nil {
		l.Known, l.To = Said, h.took.Target.To
		if s.kept == nil {
			l.By = h.took.At
		}
	}
	if s.back > 0 {
		l.BackBy = h.back
		if l.By == 0 {
			l.By = h.back.At
		}
	}
	return l
}

// leavings are all of a batch, by moment.
func (a *Archive) leavings(s *source) (out []Leaving) {
	for _, g := range s.gave {
		out = append(out, g.of.leaving(g.target, g.share))
	}
	slices.SortFunc(out, func(x, y Leaving) int {
		return cmp.Or(cmp.Compare(x.By, y.By), cmp.Compare(x.Target, y.Target), cmp.Compare(x.Planned, y.Planned), cmp.Compare(x.Pieces, y.Pieces))
	})
	return out
}
