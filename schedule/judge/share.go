package judge

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// serving is what gives pieces to targets: a batch or an entry of stock.
type serving struct {
	cheese string
	packed resources.Moment
	keeps  resources.Minutes
	shares []schedule.Share
	fail   func(rule, format string, args ...any)
}

// checkShares: each share is of a want that exists and of its cheese, once, and
// the packing is done in time for the target and keeps until it leaves. Promised
// pieces are those of a promised want. A stuck batch serves nothing.
func checkShares(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		if l.stuck {
			if len(l.batch.For) > 0 {
				h.failLot("serve", l, "got pieces of a stuck batch on targets, want none")
			}
			continue
		}
		h.checkServing(serving{l.batch.Cheese, l.packed(), l.recipe.Keeps, l.batch.For,
			func(rule, format string, args ...any) { h.failLot(rule, l, format, args...) }})
	}
	for i := range h.plan.Stock {
		s := &h.plan.Stock[i]
		if r := h.problem.Recipe(s.Cheese); r != nil {
			h.checkServing(serving{s.Cheese, s.Packed, r.Keeps, s.For,
				func(rule, format string, args ...any) { h.fail(rule, "stock of "+s.Cheese, s.Packed, format, args...) }})
		}
	}
}

func (h *hearing) checkServing(from serving) {
	seen := map[wantKey]bool{}
	for _, s := range from.shares {
		key := wantKey{s.Target, s.By, s.Want}
		w := h.wants[key]
		if w == nil {
			from.fail("share", "got a share of want %d of %q at %s, want one that exists", s.Want, s.Target, h.when(s.By))
			continue
		}
		promised := 0
		if w.Promised {
			promised = s.Pieces
		}
		switch {
		case seen[key]:
			from.fail("share", "got two shares of want %d of %q, want one", s.Want, s.Target)
		case w.Cheese != from.cheese:
			from.fail("share", "got %s for want %d of %q, want %s", from.cheese, s.Want, s.Target, w.Cheese)
		case s.Pieces < 1:
			from.fail("share", "got %d pieces for %q, want at least one", s.Pieces, s.Target)
		case s.Promised != promised:
			from.fail("share", "got %d promised of %d pieces for %q, want %d", s.Promised, s.Pieces, s.Target, promised)
		case from.packed.Add(w.target.Packed) > s.By:
			from.fail("serve", "got packing done at %s, want it %d min or more before %q leaves at %s", h.when(from.packed), w.target.Packed, s.Target, h.when(s.By))
		case s.By > from.packed.Add(from.keeps):
			from.fail("serve", "got %q leaving at %s, want it within %d min of the packing at %s", s.Target, h.when(s.By), from.keeps, h.when(from.packed))
		}
		seen[key] = true
	}
}

// checkSellable: no more pieces go to targets than can be sold: all but the spare;
// of a begun batch, what is left as far as it is not the spare.
func checkSellable(h *hearing) {
	for _, l := range h.lots {
		if l.recipe == nil {
			continue
		}
		most := l.batch.Pieces - l.recipe.Spare
		if l.past != nil {
			most = sellable(l.recipe, l.batch.Litres, l.batch.Pieces) - l.past.gone
			if l.batch.Gone != l.past.gone {
				h.failLot("gone", l, "got %d pieces gone, want %d", l.batch.Gone, l.past.gone)
			}
			if !slices.Equal(l.batch.Left, l.past.left) || l.batch.Made != l.past.made {
				h.failLot("gone", l, "got %v left of %d at first, want %v of %d", l.batch.Left, l.batch.Made, l.past.left, l.past.made)
			}
		} else if l.batch.Gone != 0 || len(l.batch.Left) > 0 || l.batch.Made != 0 {
			h.failLot("gone", l, "got %d pieces gone, %v left, of a batch that has not begun", l.batch.Gone, l.batch.Left)
		}
		if got := given(l.batch.For); got > max(0, most) {
			h.failLot("sellable", l, "got %d pieces on targets, want at most %d", got, max(0, most))
		}
	}
	for i := range h.plan.Stock {
		s := &h.plan.Stock[i]
		if got := given(s.For); got > s.Pieces {
			h.fail("sellable", "stock of "+s.Cheese, s.Packed, "got %d pieces on targets, want at most %d", got, s.Pieces)
		}
	}
}

// sellable is how many of a begun batch's pieces targets may have in all.
func sellable(r *schedule.Recipe, litres resources.Millilitres, pieces int) int {
	return min(pieces, made(r, litres)-r.Spare)
}

// given is how many pieces the shares give away.
func given(shares []schedule.Share) int {
	n := 0
	for _, s := range shares {
		n += s.Pieces
	}
	return n
}

// checkServes: a new batch serves a target, with at least batch.serves pieces or
// one that is promised.
func checkServes(h *hearing) {
	for _, l := range h.lots {
		if l.past != nil || l.recipe == nil {
			continue
		}
		promised := 0
		for _, s := range l.batch.For {
			if w := h.wants[wantKey{s.Target, s.By, s.Want}]; w != nil && w.Promised {
				promised += s.Pieces
			}
		}
		if got, want := given(l.batch.For), max(1, l.recipe.Batch.Serves); got < want && promised < 1 {
			h.failLot("batch-serves", l, "got %d pieces on targets, want at least %d or a promised one", got, want)
		}
	}
}

// checkWants: no want gets more pieces than it asks for.
func checkWants(h *hearing) {
	for i := range h.problem.Targets {
		t := &h.problem.Targets[i]
		for k, w := range t.Wants {
			if got := h.met[wantKey{t.Name, t.By, k}]; got > w.Pieces {
				h.fail("over-served", t.Name, t.By, "got %d pieces of %s for want %d, want at most %d", got, w.Cheese, k, w.Pieces)
			}
		}
	}
}
