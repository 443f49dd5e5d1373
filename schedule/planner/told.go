package planner

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

// What the earlier plan told is kept where it can be. Of batches under way it is known which they
// were. Of batches that have not begun each may be any new batch of the same cheese, or none: the
// engine chooses, so that as little as can be is moved, and the batch takes the id ([problem.Kept]).
// What is otherwise whatever the plan, since the recipe or its stage is gone, is counted here.

// told is what of the earlier plan may be a new batch, and what is otherwise in any case.
type told struct {
	ids    []string                 // of each kept job of the model
	kept   map[string]*problem.Kept // by id
	always problem.Unrest
}

// addTold states what the earlier plan told.
func (pl *Stated) addTold() {
	settled := pl.p.Settled()
	if settled.Empty() {
		return
	}
	m := pl.model
	m.Settled = int(settled.Length())
	for i, u := range pl.under {
		if was := earlierBatch(pl.p.Earlier, u.id); was != nil {
			m.Begun[i].Told = pl.toldOf(was, u.chain, len(u.starts), settled)
		}
	}
	e := pl.p.Earlier
	for i := range e.Batches {
		b := &e.Batches[i]
		under := slices.ContainsFunc(pl.under, func(u *underWay) bool { return u.id == b.ID })
		family := pl.Family(b.Cheese)
		switch {
		case under || pl.isLost(b.ID):
		case family < 0 || !pl.mayBeAgain(b):
			pl.toldOf(b, &chain{}, 0, settled)
		default:
			m.Kept = append(m.Kept, problem.Kept{Number: len(m.Kept), Family: family, Told: pl.toldOf(b, pl.chains[family], 0, settled)})
			pl.before.ids = append(pl.before.ids, b.ID)
		}
	}
	pl.before.kept = map[string]*problem.Kept{}
	for k := range m.Kept {
		pl.before.kept[pl.before.ids[k]] = &m.Kept[k]
	}
}

// mayBeAgain reports whether a batch of the earlier plan that is not under way may be a new one: one
// that was to begin later, or of which the record shows that it never began.
func (pl *Stated) mayBeAgain(b *schedule.Batch) bool {
	return len(b.Stages) > 0 && !pl.p.HasBegun(b.ID) && (pl.p.Lived != nil || !b.Begun && b.Stages[0].Start >= pl.p.From)
}

// toldOf is what was told of a chain's activities, of which so many stages have begun. A task of a stage
// that is none's first any more, or is nowhere in the recipe, is otherwise in any case.
func (pl *Stated) toldOf(b *schedule.Batch, c *chain, begun int, settled resources.Span) []problem.Told {
	out := make([]problem.Told, len(c.acts))
	for i := range b.Stages {
		t := &b.Stages[i]
		who, taken := pl.p.ToldTo(b.ID, t)
		is := problem.Told{As: problem.ToldLater, Start: pl.clock.tick(t.Start), Worker: pl.p.Kitchen.PersonNumber(who), Taken: taken}
		switch {
		case t.Start < settled.From:
			is.As = problem.ToldNoMore
		case t.Work == 0:
			continue
		case t.Start < settled.Until:
			is.As = problem.ToldSettled
		}
		stage := -1
		if c.recipe != nil {
			stage = c.recipe.StageNumber(t.Stage)
		}
		switch {
		case stage >= 0 && stage < begun:
		case stage >= 0 && c.acts[c.actOf[stage]].first == stage:
			out[c.actOf[stage]] = is
		default:
			u := is.Undone()
			pl.before.always.Moved, pl.before.always.Points = pl.before.always.Moved+u.Moved, pl.before.always.Points+u.Points
		}
	}
	return out
}
