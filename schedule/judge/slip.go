package judge

import (
	"slices"

	"ripeby/resources"
)

// checkSlip: planned work may slip to moments at which it could start: on the grid,
// with somebody there who may do it. The latest is not before its planned start and not
// past the hold before it, the milk's keeping or what its targets leave time for. The
// earliest is not after its planned start, and not before the planning start, the end of
// the hold before it, the milk or what its targets can still keep for. After a hold past
// its most both are the start.
func checkSlip(h *hearing) {
	for _, l := range h.lots {
		if !l.sound || l.stuck {
			continue
		}
		for i := l.begun; i < len(l.batch.Stages); i++ {
			if t := &l.batch.Stages[i]; t.Work > 0 {
				h.checkLatest(l, i)
				h.checkEarliest(l, i)
			}
		}
	}
}

func (h *hearing) checkLatest(l *lot, i int) {
	t := &l.batch.Stages[i]
	if t.SlipUntil < t.Start {
		h.failStage("slip", l, i, "", "got a latest start at %s, want none before the start at %s", h.when(t.SlipUntil), h.when(t.Start))
	}
	if t.SlipUntil <= t.Start {
		return
	}
	if limit := h.slipLimit(l, i); t.SlipUntil > limit {
		h.failStage("slip", l, i, "", "got a latest start at %s, want none after %s", h.when(t.SlipUntil), h.when(limit))
	} else if !h.couldStart(l, i, t.SlipUntil) {
		h.failStage("slip", l, i, "", "got a latest start at %s, want a moment of the grid at which somebody may start it", h.when(t.SlipUntil))
	}
}

func (h *hearing) checkEarliest(l *lot, i int) {
	t := &l.batch.Stages[i]
	if t.SlipFrom > t.Start {
		h.failStage("slip", l, i, "", "got an earliest start at %s, want none after the start at %s", h.when(t.SlipFrom), h.when(t.Start))
	}
	if t.SlipFrom >= t.Start {
		return
	}
	if h.overran(l, i-1) {
		h.failStage("slip", l, i, "", "got an earliest start at %s, want the start: the hold before it is past its most", h.when(t.SlipFrom))
		return
	}
	if limit := h.slipFloor(l, i); t.SlipFrom < limit {
		h.failStage("slip", l, i, "", "got an earliest start at %s, want none before %s", h.when(t.SlipFrom), h.when(limit))
	} else if !h.couldStart(l, i, t.SlipFrom) {
		h.failStage("slip", l, i, "", "got an earliest start at %s, want a moment of the grid at which somebody may start it", h.when(t.SlipFrom))
	}
}

// checkCritical: marked is exactly the planned work of a batch that is for a target
// that may begin no later than it is planned to.
func checkCritical(h *hearing) {
	for _, l := range h.lots {
		for i := range l.batch.Stages {
			t := &l.batch.Stages[i]
			want := !t.Begun && t.Work > 0 && len(l.batch.For) > 0 && t.SlipUntil <= t.Start
			switch {
			case t.Critical && !want:
				h.failStage("critical", l, i, "", "got a critical stage, want only planned work for a target that may begin no later")
			case want && !t.Critical:
				h.failStage("critical", l, i, "", "got a stage that is not critical, want it marked: it may begin no later")
			}
		}
	}
}

// overran reports whether the hold of stage i of a begun batch is past its most.
func (h *hearing) overran(l *lot, i int) bool {
	if i < 0 || l.past == nil {
		return false
	}
	_, most := limits(l.recipe, i, h.step)
	return l.batch.Stages[i].Hold > most
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
			least, _ := h.ever(l, k)
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
	// After a late hold of a begun batch there is no room left, but the start stands.
	return max(limit, l.batch.Stages[i].Start)
}

// slipFloor is the earliest that stage i can start by the planning start and by the
// batch's own recipe, milk and targets, with the stages before it as planned and those
// after it at their longest.
func (h *hearing) slipFloor(l *lot, i int) resources.Moment {
	floor := h.from
	if i > 0 {
		least, _ := limits(l.recipe, i-1, h.step)
		floor = max(floor, l.hold(i-1).From.Add(least))
	} else if d := l.batch.Milk; d != nil && l.past == nil {
		floor = max(floor, d.Collect)
	}
	if len(l.batch.For) == 0 {
		return min(floor, l.batch.Stages[i].Start)
	}
	rest := resources.Minutes(0)
	for k := i; k < len(l.batch.Stages); k++ {
		rest += l.batch.Stages[k].Work
		if !l.last(k) {
			_, most := h.ever(l, k)
			if h.overran(l, k) {
				most = max(most, l.batch.Stages[k].Hold) // no later than it is
			}
			rest += most
		}
	}
	// The cheese keeps until its last target leaves, and its last hold lasts until then.
	keeps, last := l.recipe.Keeps, len(l.batch.Stages)-1
	if l.recipe.Stages[last].Hold != nil {
		_, most := limits(l.recipe, last, h.step)
		keeps = min(keeps, most)
	}
	floor = max(floor, lastBy(l.batch.For)-resources.Moment(keeps+rest))
	return min(floor, l.batch.Stages[i].Start)
}

// couldStart reports whether the moment is one of the grid and a person who may do
// stage i is free by the hours for all of its work from then on.
func (h *hearing) couldStart(l *lot, i int, at resources.Moment) bool {
	if int64(at)%int64(h.step) != 0 {
		return false
	}
	may := l.recipe.Stages[i].Who
	span := resources.Span{From: at, Until: at.Add(l.batch.Stages[i].Work)}
	for _, p := range h.people {
		if (len(may) == 0 || slices.Contains(may, p.Name)) && covers(p.free, span) {
			return true
		}
	}
	return false
}
