package judge

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// stockBoxes gives the kind of box that entry i of the plan's stock stands in, and
// how many: the kind that the recipe's last stage with boxes uses.
func (h *hearing) stockBoxes(i int) (kind string, count int) {
	if i >= len(h.problem.Stock) {
		return "", 0
	}
	s := &h.problem.Stock[i]
	r := h.problem.Recipe(s.Cheese)
	if r == nil {
		return "", 0
	}
	for k := range r.Stages {
		if b := boxingOf(r, k); b != nil {
			kind = b.Name
		}
	}
	return kind, s.Boxes
}

// stockStay is when stock takes space: it has stood there since before the
// planning start, until it leaves.
func (h *hearing) stockStay(i int) resources.Span {
	s := &h.plan.Stock[i]
	return resources.Span{From: min(s.Packed, h.from-1), Until: s.Ends}
}

// stockNow lists where stock stands: where it is, and where it is carried to.
func (h *hearing) stockNow(i int) []seat {
	if x := h.stockSitter(i); x != nil {
		return x.seats(h)
	}
	return []seat{{h.plan.Stock[i].BoxesAt, h.stockStay(i), true}}
}

// checkStock: one entry per entry of begun.yaml, in its order, as written; it ends
// with its last target, else when it no longer keeps, and until then its boxes
// stand in their place. Stock that no longer keeps takes no space.
func checkStock(h *hearing) {
	if got, want := len(h.plan.Stock), len(h.problem.Stock); got != want {
		h.fail("stock", "", 0, "got %d entries, want %d", got, want)
		return
	}
	for i := range h.plan.Stock {
		s, want := &h.plan.Stock[i], &h.problem.Stock[i]
		at := want.At
		if x := h.stockSitter(i); x != nil && x.closing != nil && slices.Contains(x.places, s.At) {
			at = s.At // carried there
		}
		if written := s.WrittenAt(); written != want.WrittenAt() {
			h.fail("stock", "stock of "+want.Cheese, s.Packed, "got it written at %s, want %s", written, want.WrittenAt())
		}
		if s.Cheese != want.Cheese || s.Pieces != want.Pieces || s.Packed != want.Packed || s.At != at || s.Lot != want.Lot || !slices.Equal(s.Left, want.Left) {
			h.fail("stock", "stock of "+want.Cheese, s.Packed, "got %d of %s packed at %s at %s, want %d of %s packed at %s at %s",
				s.Pieces, s.Cheese, h.when(s.Packed), s.At, want.Pieces, want.Cheese, h.when(want.Packed), want.At)
			continue
		}
		r := h.problem.Recipe(s.Cheese)
		if r == nil {
			continue
		}
		ends := s.Packed.Add(r.Keeps)
		if len(s.For) > 0 {
			ends = lastBy(s.For)
		}
		if s.Ends != ends {
			h.fail("stock-ends", "stock of "+s.Cheese, s.Packed, "got an end at %s, want %s", h.when(s.Ends), h.when(ends))
		}
		h.checkStockBoxes(i, s, s.Packed.Add(r.Keeps) >= h.from)
	}
}

func (h *hearing) checkStockBoxes(i int, s *schedule.StockUse, keeps bool) {
	kind, want := h.stockBoxes(i)
	place := h.cold(s.At)
	if place == nil || !keeps {
		want = 0
	}
	if got := len(s.BoxesAt); got != want {
		if got > 0 || !h.warned("boxes-do-not-fit") {
			h.fail("boxes-count", "stock of "+s.Cheese, s.Packed, "got %d boxes in place, want %d", got, want)
		}
		return
	}
	if want == 0 {
		return
	}
	for _, text := range h.faults(s.BoxesAt, place, kind) {
		h.fail("box-place", "stock of "+s.Cheese, s.Packed, "%s", text)
	}
}
