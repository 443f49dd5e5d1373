package main

import (
	"fmt"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/schedule/needs"
)

// dzn writes the statement as values for kitchen.mzn. Lists count from 1 there; "none"
// is 0. The same problem gives the same bytes.
func (s *statement) dzn() string {
	w := &generalsolver.Values{}
	w.Note("Values for kitchen.mzn, written from a kitchen folder.")
	w.Note(fmt.Sprintf("Step 0 is minute %d of 1970-01-01T00:00Z; a step has %d min, a unit %d min.", s.zero, s.step, s.unit))
	if s.capped {
		w.Note(fmt.Sprintf("At most %d batches of a cheese are stated; a best plan may have more where something is short.", s.cap))
	}
	w.Number("q", s.perStep())
	w.Number("last_step", s.steps)
	w.Number("last_unit", max(s.at(max(s.last, s.end)), s.steps*s.perStep())+s.perStep())
	s.writeRecipes(w)
	s.writeSlots(w)
	s.writePeople(w)
	s.writeKit(w)
	s.writePlaces(w)
	s.writeStays(w)
	s.writeStock(w)
	s.writeSpace(w)
	s.writeMilk(w)
	s.writeWants(w)
	return w.String()
}

func (s *statement) writeRecipes(w *generalsolver.Values) {
	most := 0
	for _, r := range s.recipes {
		most = max(most, len(r.litres))
	}
	w.Note("recipes: sizes of batches, smallest first; column 0 is an empty slot")
	w.Number("recipes", len(s.recipes))
	w.Number("sizes", most)
	var sizes, serves, endLeast, endMost, cheese []int
	var litres, sellable [][]int
	for _, r := range s.recipes {
		sizes, serves, cheese = append(sizes, len(r.litres)), append(serves, max(1, r.r.Batch.Serves)), append(cheese, r.cheese+1)
		v, n := []int{0}, []int{0}
		for z := range r.litres {
			v, n = append(v, int(r.litres[z]/s.measure)), append(n, max(0, r.pieces[z]-r.r.Spare))
		}
		if g := r.begun; g != nil { // it counts in no litres, and need not serve anything
			serves[len(serves)-1], v[1], n[1] = 0, 0, max(0, min(r.pieces[0], g.made-r.r.Spare))
		}
		litres, sellable = append(litres, wide(v, most+1)), append(sellable, wide(n, most+1))
		least, past := 0, s.at(max(s.last, s.end))+s.steps*s.perStep()+1
		if end := len(r.r.Stages) - 1; r.r.Stages[end].Hold != nil {
			h := needs.HoldOf(r.r, end, s.step)
			least, past = s.units(h.Least), s.units(h.Most)
		}
		endLeast, endMost = append(endLeast, least), append(endMost, past)
	}
	w.List("sizes_of", sizes)
	w.List("cheese", cheese)
	w.Table("litres", "R, Z", litres)
	w.Table("sellable", "R, Z", sellable)
	w.List("serves", serves)
	w.List("end_least", endLeast)
	w.List("end_most", endMost)
	s.writeForms(w, most)
}

// writeForms writes the stages of the recipes.
func (s *statement) writeForms(w *generalsolver.Values, sizes int) {
	var work [][]int
	var works []bool
	var least, most, at, costs []int
	var may [][]int
	for _, f := range s.forms {
		work = append(work, wide(append([]int{0}, f.work...), sizes+1))
		works = append(works, f.work[0] > 0)
		least, most = append(least, f.least), append(most, f.most)
		at, costs = append(at, len(costs)), append(costs, f.cost...)
		may = append(may, from1(f.may))
	}
	w.Number("forms", len(s.forms))
	w.Table("work", "F, Z", work)
	w.List("works", works)
	w.List("least", least)
	w.List("most", most)
	w.List("off_best_at", at)
	w.List("off_best", costs)
	w.Sets("may", may)
}

// from1 counts from 1.
func from1(list []int) []int {
	out := make([]int, len(list))
	for i, n := range list {
		out[i] = n + 1
	}
	return out
}

// wide fills a row up with zeros.
func wide(row []int, n int) []int {
	out := make([]int, n)
	copy(out, row)
	return out
}
