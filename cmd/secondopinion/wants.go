package main

import (
	"fmt"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
)

// wantRow is a want of a target: after and before are grid steps between which the
// packing of a new batch for it is done.
type wantRow struct {
	target, want  int
	recipe        int
	pieces        int
	price         int
	promised      bool
	after, before int
	by            resources.Moment
}

// setWants lists the wants in order and finds the last moment of the plan.
func (s *statement) setWants() error {
	s.last = s.zero
	for i := range s.p.Targets {
		t := &s.p.Targets[i]
		s.last = max(s.last, t.By)
		for k, w := range t.Wants {
			row := wantRow{target: i, want: k, recipe: s.p.RecipeNumber(w.Cheese), pieces: w.Pieces, price: int(w.Price), promised: w.Promised, by: t.By}
			if row.recipe < 0 {
				return &refusal{"a want without a recipe", fmt.Sprintf("%s wants %s", t.Name, w.Cheese)}
			}
			keeps := s.p.Recipes[row.recipe].Keeps
			row.after = s.stepFrom(t.By.Add(-keeps))
			row.before = s.stepUntil(t.By.Add(-t.Packed))
			s.wants = append(s.wants, row)
		}
	}
	if n := s.stepUntil(s.last); n > maxSteps {
		return &refusal{"a long season", fmt.Sprintf("%d grid steps to the last target, at most %d are stated", n, maxSteps)}
	}
	return nil
}

// setLengths lists the different lengths of work, shortest first met first.
func (s *statement) setLengths() {
	seen := map[int]bool{}
	for _, f := range s.forms {
		for _, w := range f.work {
			if w > 0 && !seen[w] {
				seen[w] = true
				s.lengths = append(s.lengths, w)
			}
		}
	}
}

func (s *statement) writeWants(w *generalsolver.Values) {
	w.Note("wants: what is packed for them from one step to another, and when it leaves")
	var recipe, pieces, price, after, before, by []int
	var promised []bool
	for _, v := range s.wants {
		recipe, pieces, price = append(recipe, v.recipe+1), append(pieces, v.pieces), append(price, v.price)
		after, before, by = append(after, v.after), append(before, v.before), append(by, max(0, s.at(v.by)))
		promised = append(promised, v.promised)
	}
	w.Number("wants", len(recipe))
	w.List("want_recipe", recipe)
	w.List("want_pieces", pieces)
	w.List("want_price", price)
	w.List("promised", promised)
	w.List("want_after", after)
	w.List("want_before", before)
	w.List("want_by", by)
}
