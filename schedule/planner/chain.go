package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// chain is a recipe's stages as the engine's activities. Stages that nobody is
// there for, after a hold, are one activity with the stage before: only the sum
// of their holds matters to the kitchen. The last stage stays by itself, since
// packing is when cheese can begin to leave.
//
//	stages      make  set  drain  chill  rest  ripen  pack
//	activities   0     1     2      3.....3      4      5
type chain struct {
	recipe *schedule.Recipe
	holds  []hold                // of each stage; where it goes by when the hold begins, what it may ever be
	spells map[int][]needs.Spell // of the stages where it does: [chain.at]
	actOf  []int                 // activity of each stage
	acts   []act
	runs   []run
	stays  []stay

	lateUnit int32 // a tenth of lateness, of what is under way
}

// hold is a stage's hold. What runs already cannot end before soonest, whatever its
// limits; it costs by them.
type hold struct {
	needs.Hold
	soonest resources.Minutes
}

// least and most are its limits, in the engine's minutes.
func (h hold) least() int { return int(h.Least) }
func (h hold) most() int  { return int(h.Most) }

// shortest and longest are the lengths that can still come of a hold.
func (h hold) shortest() int { return int(max(h.Least, h.soonest)) }
func (h hold) longest() int  { return int(max(h.Most, h.soonest)) }

// bother is what a hold of so many minutes costs.
func (h hold) bother(minutes int) int32 { return h.Bother(resources.Minutes(minutes)) }

// act is the stages from first to last as one activity.
type act struct{ first, last int }

// run is kit that is kept over activities first to last.
type run struct {
	first, last int
	needs.Run
}

// stay is boxes in a cold place over the holds of activities first to last; stage is where
// they are put.
type stay struct {
	first, last, stage int
	box                *schedule.Boxing
	places             []int
}

func chainOf(r *schedule.Recipe, k *resources.Kitchen) *chain {
	c := &chain{recipe: r}
	for i := range r.Stages {
		spells := needs.Spells(r, i, k)
		if len(spells) == 1 {
			c.holds = append(c.holds, hold{Hold: spells[0].Hold})
			continue
		}
		if c.spells == nil {
			c.spells = map[int][]needs.Spell{}
		}
		c.spells[i], c.holds = spells, append(c.holds, hold{Hold: needs.Ever(spells)})
	}
	n := len(r.Stages)
	for i := range r.Stages {
		if i < n-1 && needs.Follows(r, i, k.Step) {
			c.acts[len(c.acts)-1].last = i
		} else {
			c.acts = append(c.acts, act{i, i})
		}
		c.actOf = append(c.actOf, len(c.acts)-1)
	}
	for _, x := range needs.Runs(r) {
		c.runs = append(c.runs, run{c.actOf[x.First], c.actOf[x.Last], x})
	}
	for _, x := range needs.Stays(r, k) {
		if x.Box != nil && (c.holds[x.First].Most > 0 || x.First == n-1) { // what holds nothing stays nowhere
			c.stays = append(c.stays, stay{c.actOf[x.First], c.actOf[x.Last], x.First, x.Box, x.Places})
		}
	}
	return c
}
