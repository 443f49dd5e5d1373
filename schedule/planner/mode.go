package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// addRecipes states every recipe as a family of modes, one a size.
func (pl *Stated) addRecipes() {
	pl.modes = make([][]needs.Size, len(pl.p.Recipes))
	for f := range pl.p.Recipes {
		r := &pl.p.Recipes[f]
		c := pl.chains[f]
		fam := problem.Family{Keeps: int(r.Keeps), Supply: pl.supplyOf(r), Serves: max(1, r.Batch.Serves)}
		lags := c.lags(pl.clock, false)
		for _, sz := range needs.Sizes(r) {
			mode, ok := pl.modeOf(c, sz, lags)
			if !ok {
				continue
			}
			fam.Modes = append(fam.Modes, mode)
			pl.modes[f] = append(pl.modes[f], sz)
		}
		pl.model.Families = append(pl.model.Families, fam)
	}
}

// modeOf is one size of a chain; false when the kitchen has no kit for it.
func (pl *Stated) modeOf(c *chain, sz needs.Size, lags []problem.Lag) (problem.Mode, bool) {
	m := problem.Mode{Amount: int64(sz.Litres), Units: sz.Pieces - c.recipe.Spare}
	for a, ac := range c.acts {
		st := &c.recipe.Stages[ac.first]
		work := int(needs.Work(st, sz, pl.clock.step))
		activity := problem.Activity{Work: work, Lag: lags[a]}
		if work > 0 {
			activity.Workers = needs.Who(st, &pl.p.Kitchen)
			if len(activity.Workers) == 0 {
				return m, false
			}
		}
		m.Acts = append(m.Acts, activity)
	}
	for _, r := range c.runs {
		choices, amount := pl.poolsFor(c, r, sz)
		choices = pl.enough(choices, amount)
		if len(choices) == 0 {
			return m, false
		}
		m.Runs = append(m.Runs, problem.Run{First: r.first, Last: r.last, Amount: amount, Choices: choices})
	}
	for _, s := range c.stays {
		m.Stays = append(m.Stays, problem.Stay{First: s.first, Last: s.last, Kind: pl.kindOf[s.box.Name],
			Boxes: needs.Boxes(s.box, sz.Pieces), Spaces: s.places})
		if len(s.places) == 0 {
			return m, false
		}
	}
	return m, pl.cleanedBetween(&m, 0)
}

// supplyOf is the number of a recipe's milk, -1 for none.
func (pl *Stated) supplyOf(r *schedule.Recipe) int {
	if r.Milk == "" {
		return -1
	}
	return pl.milkNamed(r.Milk)
}

// milkNamed is the number of a supply, -1 where the kitchen has none of that name.
func (pl *Stated) milkNamed(name string) int {
	for i := range pl.p.Kitchen.Milk {
		if pl.p.Kitchen.Milk[i].Name == name {
			return i
		}
	}
	return -1
}

// milkOf is the supply of a recipe, nil for none.
func (pl *Stated) milkOf(r *schedule.Recipe) *resources.Milk {
	if i := pl.supplyOf(r); i >= 0 {
		return &pl.p.Kitchen.Milk[i]
	}
	return nil
}
