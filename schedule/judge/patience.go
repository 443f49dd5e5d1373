package judge

import "ripeby/resources"

// patience is how long after the planning start the next stage of a begun batch may be
// waited for; a running hold that may last longer is waited for in any case. Who finds no
// moment for it within that has a batch that goes no further.
const patience = 60 * resources.Day

// latestStarts gives by stage the last moment at which each stage of a begun batch that is
// still to come may start: the first within the patience, each after it by as much later as
// the work and the longest holds between them.
func (h *hearing) latestStarts(l *lot) []resources.Moment {
	out := make([]resources.Moment, len(l.recipe.Stages))
	at := h.from.Add(patience)
	if k := l.begun; k > 0 && k <= len(l.batch.Stages) {
		_, most := limits(l.recipe, k-1, h.step)
		at = max(at, l.work(k-1).Until.Add(most))
	}
	for k := l.begun; k < len(out); k++ {
		out[k] = at
		_, most := h.ever(l, k)
		at = at.Add(h.workOf(l, k) + most)
	}
	return out
}

// checkPatience: what has begun is carried on within the patience, or left where it is.
func checkPatience(h *hearing) {
	for _, l := range h.lots {
		if !l.sound || l.past == nil || l.stuck {
			continue
		}
		for i, latest := range h.latestStarts(l) {
			if i >= l.begun && l.batch.Stages[i].Start > latest {
				h.failStage("patience", l, i, "", "got a start at %s, want none after %s: by then the batch goes no further", h.when(l.batch.Stages[i].Start), h.when(latest))
				break
			}
		}
	}
}
