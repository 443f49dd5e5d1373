package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
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
	holds  []hold // of each stage
	actOf  []int  // activity of each stage
	acts   []act
	runs   []run
	stays  []stay
}

// hold is a stage's hold in minutes, its limits rounded inward to the grid. What
// runs already cannot end before soonest, whatever its limits; it costs by them.
type hold struct {
	least, best, most int
	hasBest           bool
	soonest           int
}

// shortest and longest are the lengths that can still come of a hold.
func (h hold) shortest() int { return max(h.least, h.soonest) }
func (h hold) longest() int  { return max(h.most, h.soonest) }

// act is the stages from first to last as one activity.
type act struct{ first, last int }

// run is kit that is kept over activities first to last; stage is where it starts.
type run struct {
	first, last, stage int
	use                schedule.Use
	box                *schedule.Boxing
	mould              string
}

// stay is boxes in a cold place over the holds of activities first to last.
type stay struct {
	first, last, stage int
	box                schedule.Boxing
	places             []int
}

func chainOf(r *schedule.Recipe, k *resources.Kitchen) *chain {
	c := &chain{recipe: r}
	for i := range r.Stages {
		c.holds = append(c.holds, holdOf(r, i, k.Step))
	}
	n := len(r.Stages)
	for i := range r.Stages {
		if i > 0 && i < n-1 && c.follows(i) {
			c.acts[len(c.acts)-1].last = i
		} else {
			c.acts = append(c.acts, act{i, i})
		}
		c.actOf = append(c.actOf, len(c.acts)-1)
	}
	c.runs = c.runsOf()
	c.stays = c.staysOf(k)
	return c
}

// holdOf rounds a stage's hold. The last stage's is the store: at most keeps.
func holdOf(r *schedule.Recipe, i int, step resources.Minutes) hold {
	h := r.Stages[i].Hold
	last := i == len(r.Stages)-1
	switch {
	case h == nil && last:
		return hold{most: int(r.Keeps)}
	case h == nil:
		return hold{}
	case last:
		return hold{least: int(resources.CeilLength(h.Least, step)), most: int(min(resources.FloorLength(h.Most, step), r.Keeps))}
	}
	return hold{least: int(resources.CeilLength(h.Least, step)), best: int(h.Best), most: int(resources.FloorLength(h.Most, step)), hasBest: h.HasBest}
}

// follows reports whether stage i has no work and comes after a hold.
func (c *chain) follows(i int) bool {
	return !hasWork(&c.recipe.Stages[i]) && c.holds[i-1].most > 0
}

func hasWork(s *schedule.Stage) bool {
	return s.Hands != nil && (s.Hands.Fixed > 0 || s.Hands.PerLitre > 0 || s.Hands.PerPiece > 0)
}

// runsOf finds the runs of kit: consecutive stages that name the same thing.
func (c *chain) runsOf() []run {
	var out []run
	for i := range c.recipe.Stages {
		st := &c.recipe.Stages[i]
		for _, u := range st.Uses {
			box := c.boxing(i, u)
			if i > 0 && !isFresh(st, u.Kind) && c.names(i-1, u, box) {
				for x := range out {
					if out[x].last == c.actOf[i-1] && sameThing(out[x].use, out[x].box, u, box) {
						out[x].last = c.actOf[i]
					}
				}
				continue
			}
			out = append(out, run{c.actOf[i], c.actOf[i], i, u, box, c.recipe.Mould})
		}
	}
	return out
}

// boxing is the kind of box that a use of stage i means; nil for other kit.
func (c *chain) boxing(i int, u schedule.Use) *schedule.Boxing {
	if u.Kind != schedule.UseBox {
		return nil
	}
	if b := c.recipe.Stages[i].Box; b != nil {
		return b
	}
	return c.recipe.Box
}

// names reports whether stage i uses that very thing.
func (c *chain) names(i int, u schedule.Use, box *schedule.Boxing) bool {
	for _, o := range c.recipe.Stages[i].Uses {
		if sameThing(o, c.boxing(i, o), u, box) {
			return true
		}
	}
	return false
}

func sameThing(a schedule.Use, abox *schedule.Boxing, b schedule.Use, bbox *schedule.Boxing) bool {
	if a != b {
		return false
	}
	return abox == bbox || (abox != nil && bbox != nil && *abox == *bbox)
}

func isFresh(st *schedule.Stage, kind schedule.UseKind) bool {
	for _, f := range st.Fresh {
		if f == kind {
			return true
		}
	}
	return false
}

// staysOf finds the stays in cold places. A last stage that nobody is there for
// goes on with the stay before it.
func (c *chain) staysOf(k *resources.Kitchen) []stay {
	var out []stay
	n := len(c.recipe.Stages)
	for i := range c.recipe.Stages {
		st := &c.recipe.Stages[i]
		if st.At.Kind == schedule.AtRoom {
			continue
		}
		places := placesFor(k, st.At)
		if i > 0 && c.follows(i) {
			if x := len(out) - 1; x >= 0 && out[x].last >= c.actOf[i-1] {
				out[x].last = c.actOf[i]
				out[x].places = both(out[x].places, places)
				continue
			}
		}
		box := c.boxOf(i)
		if box == nil || (c.holds[i].most == 0 && i < n-1) {
			continue
		}
		out = append(out, stay{c.actOf[i], c.actOf[i], i, *box, places})
	}
	return out
}

// boxOf is the kind of box that stage i uses, nil for none.
func (c *chain) boxOf(i int) *schedule.Boxing {
	for _, u := range c.recipe.Stages[i].Uses {
		if u.Kind == schedule.UseBox {
			return c.boxing(i, u)
		}
	}
	return nil
}
