package planner

import (
	"fmt"

	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

// What stands in a cold place stays there until its batch goes on or leaves, also where the
// place or its shelf is closed meanwhile: to carry it elsewhere is the maker's.

// warnClosed names what stands in a place or on a shelf while it is closed, each with its boxes
// and since when.
func (pl *Stated) warnClosed(plan *schedule.Plan, r *problem.Result) {
	for i := range r.Jobs {
		j := &r.Jobs[i]
		if j.Begun < 0 {
			continue
		}
		b := &pl.model.Begun[j.Begun]
		run := b.RunningStay()
		if run < 0 {
			continue
		}
		if from, until, ok := j.Occupies(&b.Mode, b.Mode.Stays[run].Occupied()); ok {
			name := fmt.Sprintf("%s (%s)", plan.Batches[i].ID, plan.Batches[i].Cheese)
			pl.noteClosed(name, j.Stays[run], b.Mode.Stays[run].Boxes, problem.Span{From: from, Until: until})
		}
	}
	for s := range r.Stocks {
		st, p := &pl.model.Stocks[s], &r.Stocks[s]
		pl.noteClosed(pl.p.Stock[pl.stocks[s]].Cheese+" in stock", p.Place, st.Boxes, problem.Span{From: st.Ready, Until: p.End})
	}
}

// noteClosed says of boxes where they stand while that is closed, if they do.
func (pl *Stated) noteClosed(what string, at problem.StayPlace, boxes int, stands problem.Span) {
	stands.From = max(stands.From, pl.model.From)
	if at.Space < 0 || boxes == 0 {
		return
	}
	place, sp := &pl.p.Kitchen.Cold[at.Space], &pl.model.Spaces[at.Space]
	pl.noteClosing(what, fmt.Sprintf("in the %s", place.Name), boxes, sp.Closed, stands)
	on := make([]int, len(sp.Floors))
	for _, st := range at.Stacks {
		on[st.Floor] += st.Boxes
	}
	for f, n := range on {
		if n > 0 {
			pl.noteClosing(what, fmt.Sprintf("on the shelf %s of the %s", place.Shelves[f].Name, place.Name), n, sp.Floors[f].Closed, stands)
		}
	}
}

// noteClosing warns of the first closing in which boxes stand where they do.
func (pl *Stated) noteClosing(what, where string, boxes int, closed []problem.Span, stands problem.Span) {
	for _, c := range closed {
		if c.From < stands.Until && stands.From < c.Until {
			verb := "stand"
			if boxes == 1 {
				verb = "stands"
			}
			pl.note("stands-closed", pl.clock.moment(max(c.From, stands.From)),
				"%s: %s %s %s, which is closed from %s on. Find the cheese another place, or take the closing out of kitchen.yaml.",
				what, schedule.Counted(boxes, "box"), verb, where, pl.when(pl.clock.moment(c.From)))
			return
		}
	}
}
