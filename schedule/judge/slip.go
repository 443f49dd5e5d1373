package judge

import (
	"slices"

	"ripeby/resources"
)

// checkSlip: planned work may slip to a moment at which it could start: not before
// its planned start; on the grid; not past the hold before it, the milk's keeping
// or what its targets leave time for; with somebody there who may do it.
func checkSlip(h *hearing) {
	for _, l := range h.lots {
		if !l.sound || l.stuck {
			continue
		}
		for i := l.begun; i < len(l.batch.Stages); i++ {
			t := &l.batch.Stages[i]
			if t.Work == 0 {
				continue
			}
			if t.SlipUntil < t.Start {
				h.failStage("slip", l, i, "", "got a latest start at %s, want none before the start at %s", h.when(t.SlipUntil), h.when(t.Start))
			}
			if t.SlipUntil <= t.Start {
				continue
			}
			if limit := h.slipLimit(l, i); t.SlipUntil > limit {
				h.failStage("slip", l, i, "", "got a latest start at %s, want none after %s", h.when(t.SlipUntil), h.when(limit))
			} else if int64(t.SlipUntil)%int64(h.step) != 0 || !h.somebodyThere(l, i, t.SlipUntil) {
				h.failStage("slip", l, i, "", "got a latest start at %s, want a moment of the grid at which somebody may start it", h.when(t.SlipUntil))
			}
		}
	}
}

// slipLimit is the latest that stage i can start by the batch's own recipe, milk
// and targets, with the stages before it as planned and those after it at their
// shortest.
func (h *hearing) slipLimit(l *lot, i int) resources.Moment {
	limit := forever
	if i > 0 {
		_, most := limits(l.recipe, i-1, h.step)
		limit = l.hold(i - 1).From.Add(most)
	} else if d := l.batch.Milk; d != nil && l.past == nil {
		if m := h.supply(d.Supply); m != nil {
			limit = d.Collect.Add(m.Keeps)
		}
	}
	rest := resources.Minutes(0)
	for k := i; k < len(l.batch.Stages); k++ {
		rest += l.batch.Stages[k].Work
		if !l.last(k) {
			least, _ := limits(l.recipe, k, h.step)
			rest += least
		}
	}
	least, _ := limits(l.recipe, len(l.batch.Stages)-1, h.step)
	for k, s := range l.batch.For {
		if w := h.wants[wantKey{s.Target, s.By, s.Want}]; w != nil {
			limit = min(limit, s.By-resources.Moment(w.target.Packed+rest))
		}
		if k == len(l.batch.For)-1 {
			limit = min(limit, lastBy(l.batch.For)-resources.Moment(rest+least))
		}
	}
	// A late hold of a begun batch has no room left, but its end stands.
	return max(limit, l.batch.Stages[i].Start)
}

// somebodyThere reports whether a person who may do stage i is free by the hours
// for all of its work from the moment on.
func (h *hearing) somebodyThere(l *lot, i int, at resources.Moment) bool {
	may := l.recipe.Stages[i].Who
	span := resources.Span{From: at, Until: at.Add(l.batch.Stages[i].Work)}
	for _, p := range h.people {
		if (len(may) == 0 || slices.Contains(may, p.Name)) && covers(p.free, span) {
			return true
		}
	}
	return false
}
