package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

// addRecipes states every recipe as a family of modes, one a size.
func (pl *Stated) addRecipes() {
	pl.modes = make([][]size, len(pl.p.Recipes))
	for f := range pl.p.Recipes {
		r := &pl.p.Recipes[f]
		c := pl.chains[f]
		fam := problem.Family{Keeps: int(r.Keeps), Supply: pl.supplyOf(r), Serves: max(1, r.Batch.Serves)}
		lags := c.lags(int(pl.clock.step))
		for _, sz := range sizesOf(r) {
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

// lags are the lags of a chain's activities; those of all sizes are alike.
func (c *chain) lags(step int) []problem.Lag {
	out := make([]problem.Lag, len(c.acts))
	for a, ac := range c.acts {
		if a == len(c.acts)-1 {
			h := c.holds[ac.last]
			out[a] = problem.Lag{Least: h.least, Most: h.most}
			continue
		}
		out[a] = c.holdsTable(ac.first, ac.last, step, 0).lag()
		out[a].Slip = c.slipOf(ac.first, ac.last, 0, step, 0)
	}
	return out
}

// modeOf is one size of a chain; false when the kitchen has no kit for it.
func (pl *Stated) modeOf(c *chain, sz size, lags []problem.Lag) (problem.Mode, bool) {
	m := problem.Mode{Amount: int64(sz.litres), Units: sz.pieces - c.recipe.Spare}
	for a, ac := range c.acts {
		st := &c.recipe.Stages[ac.first]
		work := workOf(st, sz, pl.clock.step)
		activity := problem.Activity{Work: work, Lag: lags[a]}
		if work > 0 {
			activity.Workers = pl.workersFor(st)
			if len(activity.Workers) == 0 {
				return m, false
			}
		}
		m.Acts = append(m.Acts, activity)
	}
	for _, r := range c.runs {
		choices, amount := pl.choicesFor(r, sz)
		choices = pl.enough(choices, amount)
		if len(choices) == 0 {
			return m, false
		}
		m.Runs = append(m.Runs, problem.Run{First: r.first, Last: r.last, Amount: amount, Choices: choices})
	}
	for _, s := range c.stays {
		m.Stays = append(m.Stays, problem.Stay{First: s.first, Last: s.last, Kind: pl.kindOf[s.box.Name],
			Boxes: boxesOf(s.box, sz.pieces), Spaces: s.places})
		if len(s.places) == 0 {
			return m, false
		}
	}
	return m, pl.cleanedBetween(&m, 0)
}

// workersFor are the people who may do a stage's work, in the kitchen's order.
func (pl *Stated) workersFor(st *schedule.Stage) []int {
	var out []int
	for i := range pl.p.Kitchen.People {
		if mayDo(st, pl.p.Kitchen.People[i].Name) {
			out = append(out, i)
		}
	}
	return out
}

func mayDo(st *schedule.Stage, name string) bool {
	if len(st.Who) == 0 {
		return true
	}
	for _, w := range st.Who {
		if w == name {
			return true
		}
	}
	return false
}

// choicesFor are the pools that a run may use and how many units of one.
func (pl *Stated) choicesFor(r run, sz size) ([]problem.PoolChoice, int) {
	k := &pl.p.Kitchen
	one := func(name string) []problem.PoolChoice {
		pool, ok := pl.poolOf[name]
		if !ok {
			return nil
		}
		return []problem.PoolChoice{{Pool: pool, Clean: pl.cleanOf(name)}}
	}
	switch r.use.Kind {
	case schedule.UsePot:
		var out []problem.PoolChoice
		for i := range k.Pots {
			if (r.use.Name == "" || r.use.Name == k.Pots[i].Name) && k.Pots[i].Holds >= sz.litres {
				out = append(out, one(k.Pots[i].Name)...)
			}
		}
		return out, 1
	case schedule.UseStation:
		for i := range k.Stations {
			if k.Stations[i].Name == r.use.Name {
				return one(r.use.Name), stationsOf(&k.Stations[i], sz)
			}
		}
		return nil, 0
	case schedule.UseBox:
		return one(r.box.Name), boxesOf(*r.box, sz.pieces)
	default:
		return one(r.mould), sz.pieces
	}
}

// enough leaves the pools that have so many: what is in use for no time at all still
// has to be there.
func (pl *Stated) enough(choices []problem.PoolChoice, amount int) []problem.PoolChoice {
	var out []problem.PoolChoice
	for _, c := range choices {
		if pl.model.Pools[c.Pool].Capacity >= amount {
			out = append(out, c)
		}
	}
	return out
}

// supplyOf is the number of a recipe's milk, -1 for none.
func (pl *Stated) supplyOf(r *schedule.Recipe) int {
	for i := range pl.p.Kitchen.Milk {
		if r.Milk != "" && pl.p.Kitchen.Milk[i].Name == r.Milk {
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
