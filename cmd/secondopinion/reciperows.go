package main

import (
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// recipeRow is a recipe with the sizes of its batches, smallest first.
type recipeRow struct {
	r      *schedule.Recipe
	litres []resources.Millilitres
	pieces []int
	forms  []int // its stages, those still to come of a batch under way
	slots  int
	cheese int       // the recipe whose wants it serves
	begun  *begunRow // nil for batches that may be made
}

// formRow is a stage of a recipe; work is in steps by size, holds in steps.
type formRow struct {
	stage       int
	work        []int
	least, most int
	itself      bool // begins by itself when the hold before it ends
	hold        needs.Hold
	cost        []int // bother of a hold, from least to most; of the last one nothing
	may         []int // people who may do the work
}

// works reports whether a stage has work in some size.
func (f *formRow) works() bool { return slices.Max(f.work) > 0 }

// setRecipes lists all recipes, in the kitchen's order, with their stages, and finds the measure
// that all their litres are whole in.
func (s *statement) setRecipes() error {
	for i := range s.p.Recipes {
		r := &s.p.Recipes[i]
		row := recipeRow{r: r, cheese: i}
		for _, z := range needs.AllSizes(r) {
			row.litres, row.pieces = append(row.litres, z.Litres), append(row.pieces, z.Pieces)
			s.measure = gcd(s.measure, z.Litres)
		}
		s.addRecipe(row)
	}
	s.measure = max(1, s.measure) // where there is none, milk may be ordered all the same
	return nil
}

// addRecipe adds a recipe with its stages, those that have begun left out.
func (s *statement) addRecipe(row recipeRow) {
	for k := row.done(); k < len(row.r.Stages); k++ {
		row.forms = append(row.forms, len(s.forms))
		s.forms = append(s.forms, s.formOf(&row, k))
	}
	s.recipes = append(s.recipes, row)
}

// size is size z of a recipe's batches.
func (r *recipeRow) size(z int) needs.Size {
	return needs.Size{Litres: r.litres[z], Pieces: r.pieces[z]}
}

// sellable is how many pieces of size z can go to targets: of what is left of a batch under
// way no more than were to be sold.
func (r *recipeRow) sellable(z int) int {
	if g := r.begun; g != nil {
		return max(0, min(r.pieces[z], g.made-r.r.Spare))
	}
	return max(0, r.pieces[z]-r.r.Spare)
}

// formOf states stage k of a recipe.
func (s *statement) formOf(row *recipeRow, k int) formRow {
	g := &row.r.Stages[k]
	f := formRow{stage: k, cost: []int{0}}
	for z := range row.litres {
		w := int(needs.Work(g, row.size(z), s.step) / s.step)
		f.work = append(f.work, w)
	}
	if f.works() {
		f.may = needs.Who(g, &s.p.Kitchen)
	}
	f.itself = k < len(row.r.Stages)-1 && needs.Follows(row.r, k, s.step)
	if k < len(row.r.Stages)-1 {
		f.hold = needs.HoldOf(row.r, k, s.step)
		f.least, f.most, f.cost = int(f.hold.Least/s.step), int(f.hold.Most/s.step), nil
		for h := f.least; h <= f.most; h++ {
			f.cost = append(f.cost, int(f.hold.Bother(resources.Minutes(h)*s.step)))
		}
	}
	return f
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
			v, n = append(v, int(r.litres[z]/s.measure)), append(n, r.sellable(z))
		}
		if r.begun != nil { // it counts in no litres, and need not serve anything
			serves[len(serves)-1], v[1] = 0, 0
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
	var works, itself []bool
	var least, most, best, at, costs []int
	var may [][]int
	for _, f := range s.forms {
		work = append(work, wide(append([]int{0}, f.work...), sizes+1))
		works, itself = append(works, f.works()), append(itself, f.itself)
		least, most = append(least, f.least), append(most, f.most)
		if f.hold.HasBest {
			best = append(best, s.units(f.hold.Best))
		} else {
			best = append(best, -1)
		}
		at, costs = append(at, len(costs)), append(costs, f.cost...)
		may = append(may, from1(f.may))
	}
	w.Number("forms", len(s.forms))
	w.Table("work", "F, Z", work)
	w.List("works", works)
	w.List("itself", itself)
	w.List("least", least)
	w.List("most", most)
	w.List("best", best)
	w.List("off_best_at", at)
	w.List("off_best", costs)
	w.Sets("may", may)
}
