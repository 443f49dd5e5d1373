package main

import (
	"fmt"
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule"
)

// keptRow is a batch of the earlier plan: one under way, or one that has not begun and may be any new
// batch of its cheese.
type keptRow struct {
	id     string
	recipe int // row of its recipe, or its own where it is under way
}

// How the earlier plan told a task.
const (
	toldSettled = 1 // to begin in the settled time
	toldLater   = 2 // to begin after it
	toldNoMore  = 3 // the stage was to begin before the planning start: it counts in nothing
)

// toldRow is what the earlier plan told of a stage of one of its batches.
type toldRow struct {
	kept, form, as int
	at             resources.Moment
	who            int // -1 for a person that there is no more
	taken          int // 1 where that person has taken it on
}

// toldRows are what the earlier plan told; what is otherwise in every plan is counted in always.
type toldRows struct {
	settled resources.Moment // when the settled time is over; the planning start for none
	kept    []keptRow
	rows    []toldRow
	always  struct{ moved, bother int }
}

// setTold states what the earlier plan told. What it has begun, and begun.yaml does not tell, is refused.
func (s *statement) setTold() error {
	e := s.p.Earlier
	s.told.settled = s.p.Settled().Until
	if e == nil {
		return nil
	}
	for i := range e.Batches {
		b := &e.Batches[i]
		if slices.Contains(s.p.Lost, b.ID) {
			continue
		}
		row := slices.IndexFunc(s.recipes, func(r recipeRow) bool { return r.begun != nil && s.p.Begun[r.begun.entry].ID == b.ID })
		over := slices.ContainsFunc(s.packed, func(r recipeRow) bool { return s.p.Begun[r.begun.entry].ID == b.ID })
		if row < 0 && !over {
			if len(b.Stages) == 0 || b.Stages[0].Start < s.p.From {
				return &refusal{"an earlier plan", fmt.Sprintf("that it has begun %s stands nowhere else", b.ID)}
			}
			row = s.p.RecipeNumber(b.Cheese)
		}
		if !s.p.Settled().Empty() && !over {
			s.tell(b, row)
		}
	}
	return nil
}

// tell states what was told of one batch, which follows a row of recipes, -1 for none.
func (s *statement) tell(b *schedule.Batch, row int) {
	kept := len(s.told.kept)
	if row >= 0 {
		s.told.kept = append(s.told.kept, keptRow{b.ID, row})
	}
	for i := range b.Stages {
		t := &b.Stages[i]
		who, taken := s.p.ToldTo(b.ID, t)
		x := toldRow{kept: kept, as: toldLater, at: t.Start, who: s.p.Kitchen.PersonNumber(who)}
		if taken {
			x.taken = 1
		}
		switch {
		case t.Start < s.p.From:
			x.as = toldNoMore
		case t.Work == 0:
			continue
		case t.Start < s.told.settled:
			x.as = toldSettled
		}
		stage := -1
		if row >= 0 {
			stage = s.recipes[row].r.StageNumber(t.Stage)
		}
		switch {
		case stage >= 0 && stage < s.recipes[row].done():
		case stage >= 0:
			x.form = s.recipes[row].forms[stage-s.recipes[row].done()]
			s.told.rows = append(s.told.rows, x)
		default:
			s.told.always.moved += x.taken
			switch x.as {
			case toldSettled:
				s.told.always.moved++
			case toldLater:
				s.told.always.bother += schedule.OtherwisePoints
			}
		}
	}
}

// writeTold writes it.
func (s *statement) writeTold(w *generalsolver.Values) {
	w.Note("what the earlier plan told: its batches, and their stages")
	settled := 0
	if !s.p.Settled().Empty() {
		settled = s.stepFrom(s.told.settled)
	}
	w.Number("settled", settled)
	var recipe, kept, form, as, at, who, taken []int
	for _, k := range s.told.kept {
		recipe = append(recipe, k.recipe+1)
	}
	for _, x := range s.told.rows {
		step := -1
		if x.at >= s.zero && resources.Minutes(x.at-s.zero)%s.step == 0 {
			step = s.stepFrom(x.at)
		}
		kept, form, as, at, who = append(kept, x.kept+1), append(form, x.form+1), append(as, x.as), append(at, step), append(who, x.who+1)
		taken = append(taken, x.taken)
	}
	w.Number("kepts", len(recipe))
	w.List("kept_recipe", recipe)
	w.Number("tolds", len(kept))
	w.List("told_kept", kept)
	w.List("told_form", form)
	w.List("told_as", as)
	w.List("told_at", at)
	w.List("told_who", who)
	w.List("told_taken", taken)
	w.Number("always_moved", s.told.always.moved)
	w.Number("always_points", s.told.always.bother)
}

// toldFact is the same as facts.
func (s *statement) toldFact() toldFact {
	f := toldFact{Always: map[string]int{"moved": s.told.always.moved, "points": s.told.always.bother}}
	if !s.p.Settled().Empty() {
		f.Settled = s.minute(s.told.settled)
	}
	for k, kept := range s.told.kept {
		b := toldBatch{Row: kept.recipe}
		for _, x := range s.told.rows {
			if x.kept == k {
				b.Tasks = append(b.Tasks, toldTask{slices.Index(s.recipes[kept.recipe].forms, x.form), s.minute(x.at), x.who, x.taken == 1})
			}
		}
		f.Batches = append(f.Batches, b)
	}
	return f
}
