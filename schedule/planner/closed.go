package planner

import (
	"fmt"

	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

// What stands where it is closed is named, whatever becomes of it.

// warnClosed names what stands in a place or on a shelf while it is closed, each with its boxes
// and since when.
func (pl *Stated) warnClosed(plan *schedule.Plan, r *problem.Result) {
	carried := pl.carriesIn(r)
	for i := range carried {
		pl.noteCarry(&carried[i])
	}
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
			at, from := pl.standsFrom(carried, j.Begun, -1, j.Stays[run], from)
			pl.noteClosed(name, at, b.Mode.Stays[run].Boxes, problem.Span{From: from, Until: until})
		}
	}
	for s := range pl.stocks {
		st, p := &pl.model.Stocks[s], &r.Stocks[s]
		at, from := pl.standsFrom(carried, -1, s, p.Place, st.Ready)
		pl.noteClosed(pl.p.Stock[pl.stocks[s]].Cheese+" in stock", at, st.Boxes, problem.Span{From: from, Until: p.End})
	}
}

// standsFrom is where boxes stand that nothing has been said of yet, and from when: what was to be
// carried is where it is carried to, or nowhere.
func (pl *Stated) standsFrom(carried []toldCarry, begun, stock int, at problem.StayPlace, from int) (problem.StayPlace, int) {
	for i := range carried {
		if t := &carried[i]; t.begun == begun && t.stock == stock {
			if !t.isCarried() {
				return problem.StayPlace{Space: -1}, from
			}
			return t.there, pl.clock.tick(t.moved)
		}
	}
	return at, from
}

// noteCarry says what becomes of cheese that is to be carried, if it is still there when the place is
// closed.
func (pl *Stated) noteCarry(t *toldCarry) {
	if t.until <= t.moved {
		return
	}
	says := fmt.Sprintf("%s: %s %s, which is closed from %s on", t.name, standIn(t.count), t.where, pl.when(t.closed.From))
	switch to := "the " + t.To; {
	case !t.isMade():
		pl.note("no-place", t.moved, "%s, and no place takes it then. Find it one; whether it is still safe is yours to judge.", says)
	case !t.isCarried():
		pl.note("stands-closed", t.moved, "%s, until it goes on: %s.", says, pl.when(t.until))
	default:
		if t.To == t.From {
			to = "another shelf of it"
		}
		what := "it"
		if t.count > 1 {
			what = "them"
		}
		pl.note("stands-closed", t.moved, "%s. %s carries %s to %s: %s.", says, t.Who, what, to, pl.when(t.Start))
	}
}

// standIn says that boxes stand somewhere.
func standIn(boxes int) string {
	if boxes == 1 {
		return "1 box stands"
	}
	return schedule.Counted(boxes, "box") + " stand"
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
			pl.note("stands-closed", pl.clock.moment(max(c.From, stands.From)),
				"%s: %s %s, which is closed from %s on. Find the cheese another place, or take the closing out of kitchen.yaml.",
				what, standIn(boxes), where, pl.when(pl.clock.moment(c.From)))
			return
		}
	}
}
