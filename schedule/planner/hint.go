package planner

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

// addHints offers the earlier plan to the engine.
func (pl *Stated) addHints() {
	if pl.p.Earlier != nil {
		pl.hintAt(pl.p.Earlier)
	}
}

// hintAt offers a plan to the engine: what it has for batches not yet begun, for those
// under way and for stock is worth trying again as it was.
func (pl *Stated) hintAt(e *schedule.Plan) {
	pl.model.Hints = nil
	wants := pl.wantNumbers()
	for i := range e.Batches {
		b := &e.Batches[i]
		h := problem.Hint{Family: pl.Family(b.Cheese), Begun: -1, Stock: -1, Shares: pl.sharesAgain(b.For, b.Cheese, wants)}
		if h.Family < 0 || pl.isLost(b.ID) {
			continue
		}
		for k, u := range pl.under {
			if u.id == b.ID {
				h.Begun = k
			}
		}
		if h.Begun < 0 && !pl.mayBeAgain(b) {
			continue
		}
		if h.Begun < 0 {
			h.Kept = pl.before.kept[b.ID]
		}
		h.Stuck = h.Begun >= 0 && len(b.Stages) < len(pl.under[h.Begun].recipe.Stages) && len(b.Stages) == len(pl.under[h.Begun].starts)
		h.Starts = pl.startsAgain(b, h)
		if h.Starts != nil {
			c := pl.chains[h.Family]
			if h.Begun >= 0 {
				c = pl.under[h.Begun].chain
			}
			for _, st := range c.stays {
				h.Stood = append(h.Stood, pl.standings(b.Stages[st.stage].BoxesAt, len(b.Stages[st.stage].BoxesAt)))
			}
		}
		h.Exact = pl.exactly(b, &h)
		pl.model.Hints = append(pl.model.Hints, h)
	}
	for s, i := range pl.stocks {
		st := &pl.p.Stock[i]
		for k := range e.Stock {
			o := &e.Stock[k]
			if o.Cheese == st.Cheese && o.Packed == st.Packed {
				pl.model.Hints = append(pl.model.Hints, problem.Hint{Family: pl.Family(st.Cheese), Begun: -1, Stock: s,
					Shares: pl.sharesAgain(o.For, o.Cheese, wants)})
			}
		}
	}
}

// wantKey names a want over plans.
type wantKey struct {
	target string
	by     resources.Moment
	want   int
}

// wantNumbers gives the engine's number of every want.
func (pl *Stated) wantNumbers() map[wantKey]int {
	out := map[wantKey]int{}
	for d, w := range pl.wants {
		t := &pl.p.Targets[w.Target]
		out[wantKey{t.Name, t.By, w.Want}] = d
	}
	return out
}

// sharesAgain are the shares of an earlier plan that are still wanted.
func (pl *Stated) sharesAgain(list []schedule.Share, cheese string, wants map[wantKey]int) []problem.Share {
	var out []problem.Share
	for _, s := range list {
		d, ok := wants[wantKey{s.Target, s.By, s.Want}]
		if !ok || pl.p.Targets[pl.wants[d].Target].Wants[s.Want].Cheese != cheese {
			continue
		}
		out = append(out, problem.Share{Demand: d, Units: s.Pieces})
	}
	return out
}

// startsAgain are the starts of an earlier batch's activities; nil when the
// recipe has other stages now. What has begun began when it did.
func (pl *Stated) startsAgain(b *schedule.Batch, h problem.Hint) []int {
	c := pl.chains[h.Family]
	if len(b.Stages) != len(c.recipe.Stages) {
		return nil
	}
	var out []int
	for _, ac := range c.acts {
		at := b.Stages[ac.first].Start
		if h.Begun >= 0 && ac.first < len(pl.under[h.Begun].starts) {
			at = pl.under[h.Begun].starts[ac.first]
		}
		out = append(out, pl.clock.tick(at))
	}
	return out
}

// exactly is the rest of what an earlier batch was: its size, who did what, with which
// kit, where and on which milk; nil where something of it is not there any more.
func (pl *Stated) exactly(b *schedule.Batch, h *problem.Hint) *problem.Exact {
	if h.Starts == nil {
		return nil
	}
	c := pl.chains[h.Family]
	e := &problem.Exact{Mode: -1, Intake: -1}
	var mode *problem.Mode
	fixed := 0
	if h.Begun >= 0 {
		mode, fixed = &pl.model.Begun[h.Begun].Mode, len(pl.model.Begun[h.Begun].Starts)
		c = pl.under[h.Begun].chain
	} else {
		for k, sz := range pl.modes[h.Family] {
			if sz.Litres == b.Litres {
				e.Mode, mode = k, &pl.model.Families[h.Family].Modes[k]
			}
		}
		if mode == nil || pl.p.Recipe(b.Cheese).Milk != "" && b.Milk == nil {
			return nil
		}
		for i := range pl.intakes {
			if in := &pl.intakes[i]; b.Milk != nil && pl.p.Kitchen.Milk[in.milk].Name == b.Milk.Supply && in.Ready == b.Milk.Collect {
				e.Intake = i
			}
		}
		if b.Milk != nil && e.Intake < 0 {
			return nil
		}
	}
	for a := range mode.Acts {
		w := -1
		switch {
		case a < fixed:
			w = pl.model.Begun[h.Begun].Workers[a]
		case mode.Acts[a].Work > 0:
			if w = pl.p.Kitchen.PersonNumber(b.Stages[c.acts[a].first].Who); w < 0 {
				return nil
			}
		}
		e.Workers = append(e.Workers, w)
	}
	for r := range mode.Runs {
		at := -1
		for x, ch := range mode.Runs[r].Choices {
			for _, u := range b.Stages[c.runs[r].First].Uses {
				if pool, known := pl.poolOf[u.Thing]; known && pool == ch.Pool && u.Count == mode.Runs[r].Amount {
					at = x
				}
			}
		}
		if mode.Runs[r].First < fixed {
			at = pl.model.Begun[h.Begun].Choices[r]
		}
		if at < 0 {
			return nil
		}
		e.Choices = append(e.Choices, at)
	}
	for r := range mode.Stays {
		space := pl.placeNamed(b.Stages[c.stays[r].stage].At)
		if mode.Stays[r].First >= fixed && !slices.Contains(mode.Stays[r].Spaces, space) {
			return nil
		}
		e.Spaces = append(e.Spaces, space)
	}
	return e
}

func (pl *Stated) isLost(id string) bool { return slices.Contains(pl.p.Lost, id) }
