package main

import (
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule/needs"
)

// stockRow is an entry of stock that still keeps.
type stockRow struct {
	entry        int // in the problem's list; -1 for a packed batch under way
	pieces       int
	thing, boxes int              // thing -1: no boxes
	place        int              // -1: in the room
	kind         int              // of box, as in the kitchen's list
	ends         resources.Moment // when it serves no target
	may          []int            // wants that it can serve
}

// setStock lists the stock that keeps at the planning start.
func (s *statement) setStock() error {
	for i, e := range s.p.Stock {
		r := s.p.Recipe(e.Cheese)
		if r == nil {
			return &refusal{"stock without a recipe", e.Cheese}
		}
		row := stockRow{entry: i, pieces: e.Pieces, thing: -1, place: -1, kind: -1, boxes: e.Boxes, ends: e.Packed.Add(r.Keeps)}
		if row.ends < s.p.From {
			continue
		}
		box := needs.PackedIn(r)
		if box != nil {
			row.kind = s.kindOf(box)
		}
		if row.kind >= 0 && row.boxes > 0 {
			row.thing = s.named(box.Name)[0]
			row.place = slices.IndexFunc(s.p.Kitchen.Cold, func(c resources.ColdPlace) bool { return c.Name == e.At })
		}
		row.may = s.servedBy(s.p.RecipeNumber(e.Cheese), e.Packed, row.ends)
		if err := s.stockStands(&row, row.ends); err != nil {
			return err
		}
		s.end = max(s.end, row.ends)
		s.stock = append(s.stock, row)
	}
	return s.stockPacked()
}

// servedBy lists the wants that cheese of recipe r can serve that was packed at a moment
// and keeps until another.
func (s *statement) servedBy(r int, packed, keeps resources.Moment) []int {
	may := []int{}
	for w, want := range s.wants {
		t := &s.p.Targets[want.target]
		if want.recipe == r && packed.Add(t.Packed) <= t.By && t.By <= keeps {
			may = append(may, w)
		}
	}
	return may
}

// stockStands refuses stock on shelves that are closed while it may stand there: what
// happens to it then is not the plan's to say.
func (s *statement) stockStands(row *stockRow, keeps resources.Moment) error {
	if row.place < 0 || !s.p.Kitchen.Cold[row.place].Measured() {
		return nil
	}
	c := &s.p.Kitchen.Cold[row.place]
	if taken(c, resources.Span{From: s.p.From, Until: keeps + 1}.Overlaps) {
		return &refusal{"stock in a place that is taken", c.Name}
	}
	return nil
}

// taken reports whether a place or a shelf of it is taken at a time of which something holds.
func taken(c *resources.ColdPlace, holds func(resources.Span) bool) bool {
	return slices.ContainsFunc(c.Taken, holds) ||
		slices.ContainsFunc(c.Shelves, func(x resources.Shelf) bool { return slices.ContainsFunc(x.Taken, holds) })
}

func (s *statement) writeStock(w *generalsolver.Values) {
	var pieces, thing, boxes, place, keeps []int
	var may [][]int
	for _, t := range s.stock {
		pieces, thing, boxes = append(pieces, t.pieces), append(thing, t.thing+1), append(boxes, t.boxes)
		place, keeps, may = append(place, t.place+1), append(keeps, max(0, s.at(t.ends))), append(may, from1(t.may))
	}
	w.Number("stocks", len(s.stock))
	w.List("stock_pieces", pieces)
	w.List("stock_thing", thing)
	w.List("stock_boxes", boxes)
	w.List("stock_place", place)
	w.List("stock_keeps", keeps)
	w.Sets("stock_may", may)
}
