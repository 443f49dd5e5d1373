package judge

import "ripeby/resources"

// A hold of a begun batch, running or to come, may run past its most: whoever should end
// it may be away, or what comes next may have no kit yet. It is late then by whole tenths
// of its most, counted against two hours at least, and never by more than mostLate. The
// last hold, the store, is not among them.
const (
	lateLeast = 2 * resources.Hour // the most against which a short hold is told
	mostLate  = 999                // of one hold
	stuckLate = 1000               // of a batch that nothing can carry on
)

// tenths is how late a hold is that runs past its most by so much.
func tenths(over, most resources.Minutes) int64 {
	if over <= 0 {
		return 0
	}
	return min(mostLate, 10*int64(over)/int64(max(most, lateLeast)))
}

// late adds up how late the batch's holds are that end at or after the planning start. The
// running hold of a stuck batch has no end: the batch counts as one.
func (h *hearing) late(l *lot) int64 {
	if l.past == nil || !l.sound {
		return 0
	}
	sum := int64(0)
	if l.stuck {
		sum = stuckLate
	}
	for i := range l.batch.Stages {
		t := &l.batch.Stages[i]
		if l.last(i) || t.Ends < h.from || l.endless(i) {
			continue
		}
		_, most := limits(l.recipe, i, h.step)
		sum += tenths(t.Hold-most, most)
	}
	return sum
}

// endless reports whether stage i is the running one of a stuck batch.
func (l *lot) endless(i int) bool { return l.stuck && i == len(l.batch.Stages)-1 }

// follows reports whether stage i comes by itself when the hold before it is over: it has
// no work, so nobody is there to wait for. The last stage does not: that cheese is packed,
// and may leave from then on, is for the maker to say.
func (h *hearing) follows(l *lot, i int) bool {
	if i < 1 || l.last(i) || h.workOf(l, i) > 0 {
		return false
	}
	_, most := limits(l.recipe, i-1, h.step)
	return most > 0
}

// longest is when the hold of stage i that began at done ends at the latest where a stage
// follows by itself: the last grid moment within its most. What is still to come cannot
// have come before the planning start, nor before the hold's least: where that is past its
// most, it comes just then.
func (h *hearing) longest(l *lot, i int, done resources.Moment) resources.Moment {
	least, most := limits(l.recipe, i, h.step)
	return max(h.gridBefore(done.Add(most)), h.gridAfter(max(h.from, done.Add(least))))
}

// gridAfter and gridBefore are the nearest moments of the grid.
func (h *hearing) gridAfter(m resources.Moment) resources.Moment {
	return h.gridBefore(m + resources.Moment(h.step) - 1)
}

func (h *hearing) gridBefore(m resources.Moment) resources.Moment {
	return m - m%resources.Moment(h.step)
}

// checkLateHold: where a stage follows by itself the hold before it ends in time, or just
// when it first can. Of holds that follow one another so only the last, which somebody's
// work ends, runs past its most, and only when those before it have lasted as long as they
// may: those that are over are as they were.
func (h *hearing) checkLateHold(l *lot, i int) {
	t := &l.batch.Stages[i]
	_, most := limits(l.recipe, i, h.step)
	if h.follows(l, i+1) && t.Ends != h.longest(l, i, l.hold(i).From) {
		h.failStage("hold-long", l, i, "", "got a hold of %d min, want at most %d: what follows comes by itself", t.Hold, most)
		return
	}
	for k := i; k >= l.begun && h.follows(l, k); k-- {
		if before := l.hold(k - 1); before.Until < h.longest(l, k-1, before.From) {
			h.failStage("hold-late", l, i, "", "got a hold of %d min over its most of %d while that of %s ends at %s, want it to last until %s first",
				t.Hold, most, l.batch.Stages[k-1].Stage, h.when(before.Until), h.when(h.longest(l, k-1, before.From)))
			return
		}
	}
}

// checkOverrun: the maker is told of each batch with a hold past its most.
func checkOverrun(h *hearing) {
	for _, l := range h.lots {
		if !l.sound || l.past == nil || h.plan.Warned("hold-overrun", l.batch.ID) {
			continue
		}
		for i := max(0, l.begun-1); i < len(l.batch.Stages); i++ {
			t := &l.batch.Stages[i]
			if _, most := limits(l.recipe, i, h.step); t.Hold > most && !l.last(i) && !l.endless(i) {
				h.failStage("warning-missing", l, i, "hold-overrun", "got a hold of %d min over its most of %d without a warning, want one that names the batch",
					t.Hold, most)
				break
			}
		}
	}
}
