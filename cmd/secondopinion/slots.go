package main

import (
	"fmt"
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// setSlots gives each recipe as many slots as a best plan can need, or as many as the
// cap allows.
//
// Every batch of a best plan has a piece on a want that is worth something: without it,
// leaving the batch out would be no worse in what is short and better in batches. So
// there are no more batches than such pieces, and less by four further counts: a batch
// without a promised piece has at least `serves` pieces on targets; few sell less than
// they may; each keeps a pot
// busy for a least time; each takes a least time of somebody's work before the last
// packing.
//
// With a cap the answer holds for all plans when nothing comes short in it and it has no
// more batches than the cap: a plan with more is then worse in batches.
func (s *statement) setSlots() error {
	total, longest := 0, 0
	for r := range s.recipes {
		row := &s.recipes[r]
		row.slots = 1
		if row.begun == nil {
			row.slots = s.slotsFor(r)
		}
		if row.begun == nil && s.cap > 0 && row.slots > s.cap {
			row.slots, s.capped = s.cap, true
		}
		total += row.slots
		chain := 0
		for _, f := range row.forms {
			chain += s.forms[f].least
		}
		if row.begun != nil { // it runs its course, also after the last target
			chain = slices.Max(row.begun.latest)
		}
		longest = max(longest, chain)
		for range row.slots {
			s.slots = append(s.slots, r)
		}
	}
	if total > maxSlots {
		return &refusal{"many batches", fmt.Sprintf("a plan may need up to %d, at most %d are stated", total, maxSlots)}
	}
	s.steps = max(longest, s.stepUntil(s.last))
	s.setLengths()
	return nil
}

// slotsFor is the least of the bounds on a recipe's batches.
func (s *statement) slotsFor(r int) int {
	row := &s.recipes[r]
	for _, f := range row.forms {
		if s.forms[f].least > s.forms[f].most || s.forms[f].work[0] > 0 && len(s.forms[f].may) == 0 {
			return 0 // no hold fits the grid, or nobody may do the work: it is never made
		}
	}
	worth, promised, other := 0, 0, 0
	latest := 0
	for _, w := range s.wants {
		if w.recipe != r || w.before < 0 {
			continue
		}
		latest = max(latest, w.before)
		if w.promised {
			promised += w.pieces
		} else {
			other += w.pieces
		}
		if w.price > 0 {
			worth += w.pieces
		}
	}
	n := min(worth, promised+other/max(1, row.r.Batch.Serves), s.byPieces(r, worth))
	return max(0, min(n, s.byPot(r, latest), s.byWork(r, latest)))
}

// byPieces bounds the batches of a recipe by the pieces wanted that are worth something: of
// a best plan, all but one for each moment that they are wanted at can sell all they may.
//
// Join each batch to the moments that it serves. Where two batches that could sell more
// hang together, or where there is a circle, pieces can be handed round until a join is
// gone or one batch sells all it may; none sells nothing then, or there would be a plan with
// fewer batches. No batch leaves later than before. In the end there is at most one that
// could sell more in each part that hangs together, and each part has a moment. Where a
// batch must serve several pieces, or its store has a least time, handing round may not do.
func (s *statement) byPieces(r, worth int) int {
	row := &s.recipes[r]
	least := row.sellable(0)
	if row.r.Batch.Serves > 1 || row.r.Stages[len(row.r.Stages)-1].Hold != nil || least <= 0 {
		return worth
	}
	moments := map[wantRow]bool{}
	for _, w := range s.wants {
		if w.recipe == r && w.before >= 0 && w.price > 0 {
			moments[wantRow{after: w.after, before: w.before, by: w.by}] = true
		}
	}
	return worth/least + len(moments)
}

// byPot bounds the batches of a recipe by how long each keeps a pot busy, cleaning
// included, of the steps before the last packing and the cleaning after it.
func (s *statement) byPot(r, latest int) int {
	row, most := &s.recipes[r], 1<<30
	for _, x := range needs.Runs(row.r) {
		busy := 0
		for i := x.First; i <= x.Last; i++ {
			busy += s.forms[row.forms[i]].work[0] + s.forms[row.forms[i]].least
		}
		if x.Last+1 < len(row.forms) {
			busy += s.forms[row.forms[x.Last+1]].work[0]
		}
		if x.Use.Kind != schedule.UsePot || busy == 0 {
			continue
		}
		n := 0
		for _, pot := range s.named(x.Kit(&s.p.Kitchen, row.r, row.litres[0])...) {
			n += s.inTurn(pot, busy, latest)
		}
		most = min(most, n)
	}
	return most
}

// byWork bounds the batches of a recipe by the working time until the last packing of
// those who may do a stage, and of all of them for all stages.
func (s *statement) byWork(r, latest int) int {
	row, most := &s.recipes[r], 1<<30
	within := resources.Span{From: s.zero, Until: s.moment(latest)}
	all, sum := map[int]bool{}, resources.Minutes(0)
	hours := func(i int, whole resources.Minutes) (there resources.Minutes) {
		for _, span := range s.p.Kitchen.People[i].Windows(within, s.p.Kitchen.Zone) {
			there += span.Length() / whole * whole
		}
		return there
	}
	for _, f := range row.forms {
		need := resources.Minutes(s.forms[f].work[0]) * s.step
		if need == 0 {
			continue
		}
		sum += need
		there := resources.Minutes(0)
		for _, who := range s.forms[f].may {
			all[who] = true
			there += hours(who, need)
		}
		most = min(most, int(there/need))
	}
	there := resources.Minutes(0)
	for i := range s.p.Kitchen.People {
		if all[i] {
			there += hours(i, 1)
		}
	}
	if sum > 0 {
		most = min(most, int(there/sum))
	}
	return most
}

func (s *statement) writeSlots(w *generalsolver.Values) {
	w.Note("slots: batches that may be made")
	var recipe, first, last, slot, form, latest, worked, running []int
	var begun []bool
	var starts [][2]int
	for i, r := range s.slots {
		recipe = append(recipe, r+1)
		first = append(first, len(slot)+1)
		g := s.recipes[r].begun
		for k, f := range s.recipes[r].forms {
			slot, form, latest = append(slot, i+1), append(form, f+1), append(latest, s.steps)
			if g != nil {
				latest[len(latest)-1] = g.latest[k]
			}
		}
		last = append(last, len(slot))
		begun = append(begun, g != nil)
		if g != nil {
			starts = append(starts, [2]int{s.soonest(g), g.latest[0]})
			worked, running = append(worked, s.at(g.worked)), append(running, g.form+1)
		} else {
			starts, worked, running = append(starts, [2]int{0, s.steps}), append(worked, 0), append(running, 0)
		}
	}
	w.Number("slots", len(s.slots))
	w.Number("tasks", len(slot))
	w.List("recipe", recipe)
	w.List("begun", begun)
	w.Ranges("first_in", starts)
	w.List("worked", worked)
	w.List("running_form", running)
	w.List("latest", latest)
	w.List("first_task", first)
	w.List("last_task", last)
	w.List("slot_of", slot)
	w.List("form_of", form)
}
