package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// placeOf is where a stage is: its stay's place, or the room.
func (pl *Stated) placeOf(j *problem.Job, c *chain, stage int, u *underWay) string {
	at := c.recipe.Stages[stage].At
	if at.Kind == schedule.AtRoom {
		return "room"
	}
	a := c.actOf[stage]
	if u != nil && stage < len(u.starts)-1 && u.earlier != nil && stage < len(u.earlier.Stages) {
		return u.earlier.Stages[stage].At // past: as it was
	}
	for r, s := range c.stays {
		if s.first <= a && a <= s.last && s.first < len(j.Starts) {
			p := j.Stays[r].Space
			if u != nil && stage < len(u.starts) && c.actOf[len(u.starts)-1] <= s.last {
				p = pl.stoodIn(u, s, stage)
			}
			if p >= 0 {
				return pl.p.Kitchen.Cold[p].Name
			}
		}
	}
	if places := needs.Places(&pl.p.Kitchen, at); len(places) > 0 {
		return pl.p.Kitchen.Cold[places[0]].Name
	}
	return "room"
}

// stoodIn is the place of a begun stage of the stay that runs: where it is, however few boxes are
// left, and of one that is over where that was before it was carried.
func (pl *Stated) stoodIn(u *underWay, s stay, stage int) int {
	if u.to != "" && stage == len(u.starts)-1 {
		return pl.placeNamed(u.to)
	}
	return pl.homeUnderWay(u, s)
}

// addUses writes every run's occupation at the first stage of the run.
func (pl *Stated) addUses(b *schedule.Batch, j *problem.Job, c *chain, mode *problem.Mode) {
	leaves := pl.clock.moment(min(j.End, pl.clock.tick(pl.within.Until)))
	for r, x := range c.runs {
		if x.First >= len(b.Stages) {
			continue
		}
		thing, first := pl.thingOf(mode.Runs[r].Choices[j.Choices[r]]), &b.Stages[x.First]
		first.Uses = append(first.Uses, thing.Occupied(mode.Runs[r].Amount, x.Held(b.Stages, leaves)))
	}
}

// addBoxes writes where the boxes of every stay stand, at each of its stages.
func (pl *Stated) addBoxes(b *schedule.Batch, j *problem.Job, c *chain, mode *problem.Mode) {
	var u *underWay
	if j.Begun >= 0 {
		u = pl.under[j.Begun]
	}
	for i := range b.Stages {
		if b.Stages[i].Hold == 0 { // also one that was not spoken of, and was over before the plan had it begin
			continue
		}
		if u != nil && u.isOver(c, i) {
			b.Stages[i].BoxesAt = stoodBefore(u, c, i)
			continue
		}
		if c.recipe.Stages[i].At.Kind == schedule.AtRoom {
			continue
		}
		for r, s := range c.stays {
			if s.first <= c.actOf[i] && c.actOf[i] <= s.last && r < len(j.Stays) {
				b.Stages[i].BoxesAt = pl.standing(j.Stays[r], mode.Stays[r].Boxes)
			}
		}
	}
}

// standing lists boxes one by one, stack after stack from the bottom; what they come to stand on,
// layers.go tells.
func (pl *Stated) standing(p problem.StayPlace, boxes int) []schedule.Standing {
	out := []schedule.Standing{}
	if p.Space < 0 || p.Homeless {
		return out
	}
	place := &pl.p.Kitchen.Cold[p.Space]
	if !place.Measured() {
		for i := 0; i < boxes; i++ {
			out = append(out, schedule.Standing{Place: place.Name})
		}
		return out
	}
	for _, st := range p.Stacks {
		for l := 1; l <= st.Boxes; l++ {
			out = append(out, schedule.Standing{Place: place.Name, Shelf: place.Shelves[st.Floor].Name,
				X: resources.Micrometres(st.Place.X), Y: resources.Micrometres(st.Place.Y),
				Width: resources.Micrometres(st.Place.W), Depth: resources.Micrometres(st.Place.D), Layer: l})
		}
	}
	return out
}

// stoodBefore is where the boxes of a stage that is over stood, as far as there is
// cheese for them still.
func stoodBefore(u *underWay, c *chain, stage int) []schedule.Standing {
	box := needs.BoxOf(c.recipe, &c.recipe.Stages[stage])
	if u.earlier == nil || stage >= len(u.earlier.Stages) || box == nil {
		return nil
	}
	stood := u.earlier.Stages[stage].BoxesAt
	return stood[:min(len(stood), needs.Boxes(box, u.left))]
}
