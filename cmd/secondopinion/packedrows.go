package main

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// setPacked remembers a batch under way whose stages have all begun: what is left of it is
// told as stock is. What differs from stock is refused.
func (s *statement) setPacked(row *recipeRow) error {
	e, g := &s.p.Begun[row.begun.entry], row.begun
	if g.worked > s.zero {
		return &refusal{"a begun batch whose packing is running", e.ID}
	}
	if h := needs.HoldOf(row.r, len(row.r.Stages)-1, s.step); g.worked.Add(h.Least) > s.zero {
		return &refusal{"a packed batch whose store has a least time to run", e.ID}
	}
	for _, x := range needs.Runs(row.r) {
		if x.Last == len(row.r.Stages)-1 && x.Use.Kind != schedule.UseBox {
			return &refusal{"a packed batch that keeps kit other than boxes", e.ID}
		}
	}
	s.packed = append(s.packed, *row)
	return nil
}

// stockPacked tells what is left of packed batches under way as stock. What serves no
// target leaves at once.
func (s *statement) stockPacked() error {
	for i := range s.packed {
		row := &s.packed[i]
		e, g, last := &s.p.Begun[row.begun.entry], row.begun, len(row.r.Stages)-1
		t := stockRow{entry: -1, pieces: row.sellable(0), thing: -1, place: -1, kind: -1, ends: s.zero}
		keeps := g.worked.Add(needs.HoldOf(row.r, last, s.step).Most)
		if keeps < s.p.From {
			continue
		}
		if box := needs.BoxOf(row.r, &row.r.Stages[last]); box != nil {
			t.kind, t.boxes, t.thing = s.kindOf(box), needs.Boxes(box, row.pieces[0]), s.named(box.Name)[0]
		}
		if places := needs.Places(&s.p.Kitchen, row.r.Stages[last].At); len(places) > 0 {
			t.place = places[0]
			if at := slices.IndexFunc(s.p.Kitchen.Cold, func(c resources.ColdPlace) bool { return c.Name == e.At }); at >= 0 {
				t.place = at
			}
		}
		t.may = s.servedBy(row.cheese, g.worked, keeps)
		if err := s.stockStands(&t, keeps); err != nil {
			return fmt.Errorf("%s: %w", e.ID, err)
		}
		s.end = max(s.end, keeps)
		s.stock = append(s.stock, t)
	}
	return nil
}

// busyPacked lists the kit of packed batches that is still being cleaned.
func (s *statement) busyPacked() {
	for i := range s.packed {
		row := &s.packed[i]
		for _, x := range needs.Runs(row.r) {
			if x.Last == len(row.r.Stages)-1 {
				continue
			}
			if things := s.inHand(row, x); len(things) > 0 {
				s.cleaned(row, x, things[0])
			}
		}
	}
}
