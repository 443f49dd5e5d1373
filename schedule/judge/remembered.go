package judge

import (
	"reflect"
	"slices"

	"ripeby/schedule"
)

// soldOut is a batch that keeps and of which nothing is left to sell.
type soldOut struct {
	was *schedule.Batch // in the plan that is carried on
	is  *past
}

// checkRemembered: a plan remembers the batches and the stock that still keep and of which nothing is left
// to sell, as they were, without what they used; and what it was made of.
func checkRemembered(h *hearing) {
	want := slices.Clone(h.over)
	if went := h.problem.Went(); went != nil {
		for i := range went.Past {
			b := &went.Past[i]
			r := h.problem.Recipe(b.Cheese)
			if n := len(b.Stages); r == nil || n == 0 || b.Stages[n-1].Start.Add(b.Stages[n-1].Work+r.Keeps) < h.from {
				continue
			}
			want = append(want, soldOut{b, &past{gone: b.Gone, left: b.Left}})
		}
	}
	got := h.plan.Past
	for _, w := range want {
		switch {
		case len(got) > 0 && w.isIn(&got[0]):
			got = got[1:]
		case !w.is.optional:
			h.fail("remembered", w.was.ID, 0, "got no such batch among those that are sold out, or another than it was, want it with %d gone, %v", w.is.gone, w.is.left)
			return
		}
	}
	if len(got) > 0 {
		h.fail("remembered", got[0].ID, 0, "got a batch that is not sold out")
	}
	if !sameStock(h.plan.PastStock, h.problem.PastStock) {
		h.fail("remembered", "stock", 0, "got %v of stock that is used up, want %v", h.plan.PastStock, h.problem.PastStock)
	}
	if !reflect.DeepEqual(h.plan.MadeOf, h.problem.MadeOf) {
		h.fail("remembered", "made of", 0, "got %v, want %v", h.plan.MadeOf, h.problem.MadeOf)
	}
}

// isIn reports whether a plan has the batch as it is to be remembered.
func (w *soldOut) isIn(b *schedule.Batch) bool {
	o := w.was
	if b.ID != o.ID || b.Lot != o.Lot || b.Cheese != o.Cheese || b.Litres != o.Litres || b.Pieces != o.Pieces || b.Spare != o.Spare || b.Made != o.Made ||
		!b.Begun || b.Gone != w.is.gone || !slices.Equal(b.Left, w.is.left) || len(b.For)+len(b.Care) > 0 || !reflect.DeepEqual(b.Milk, o.Milk) || len(b.Stages) != len(o.Stages) {
		return false
	}
	for i := range b.Stages {
		is, was := b.Stages[i], o.Stages[i]
		if len(is.Uses)+len(is.BoxesAt) > 0 {
			return false
		}
		is.Uses, was.Uses, is.BoxesAt, was.BoxesAt = nil, nil, nil, nil
		if !reflect.DeepEqual(is, was) {
			return false
		}
	}
	return true
}

// sameStock reports whether two lists of stock say the same.
func sameStock(a, b []schedule.StockUse) bool {
	return slices.EqualFunc(a, b, func(x, y schedule.StockUse) bool {
		return x.Cheese == y.Cheese && x.Pieces == y.Pieces && x.Packed == y.Packed && x.Lot == y.Lot && x.At == y.At && x.Ends == y.Ends && slices.Equal(x.Left, y.Left) &&
			len(x.BoxesAt)+len(x.For) == len(y.BoxesAt)+len(y.For)
	})
}
