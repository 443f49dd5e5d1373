package judge

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// checkCourse: a batch is of a known cheese and runs through all stages of its
// recipe in order. Only a begun batch that is stuck ends with its begun stages.
func checkCourse(h *hearing) {
	for _, l := range h.lots {
		if l.recipe == nil {
			h.failLot("recipe", l, "got cheese %q, want one that has a recipe", l.batch.Cheese)
			continue
		}
		if l.sound || l.changed() {
			continue
		}
		var got, want []string
		for _, t := range l.batch.Stages {
			got = append(got, t.Stage)
		}
		for _, s := range l.recipe.Stages {
			want = append(want, s.Name)
		}
		h.failLot("stages", l, "got stages %q, want %q", got, want)
	}
}

// checkChain: each stage ends when its work and its hold are over, and the next
// begins at that moment.
func checkChain(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for i := range l.batch.Stages {
			t := &l.batch.Stages[i]
			if t.Ends != t.Start.Add(t.Work).Add(t.Hold) {
				h.failStage("chain", l, i, "", "got an end at %s, want %s: the start, %d min of work and %d min of hold",
					h.when(t.Ends), h.when(t.Start.Add(t.Work).Add(t.Hold)), t.Work, t.Hold)
			}
			if i > 0 && t.Start != l.batch.Stages[i-1].Ends {
				h.failStage("chain", l, i, "", "got a start at %s, want %s: the end of the stage before",
					h.when(t.Start), h.when(l.batch.Stages[i-1].Ends))
			}
		}
	}
}

// checkStart: planned stages start on the grid, and not before the planning start.
func checkStart(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for i := range l.batch.Stages {
			t := &l.batch.Stages[i]
			if !l.planned(i) {
				continue
			}
			if int64(t.Start)%int64(h.step) != 0 {
				h.failStage("off-grid", l, i, "", "got a start at %s, want a multiple of %d min", h.when(t.Start), h.step)
			}
			if t.Start < h.from {
				h.failStage("before-start", l, i, "", "got a start at %s, want none before %s", h.when(t.Start), h.when(h.from))
			}
		}
	}
}

// checkWork: planned work is as long as the recipe says for the batch's litres and
// pieces, rounded up to the grid.
func checkWork(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for i := l.begun; i < len(l.batch.Stages); i++ {
			want := h.workOf(l, i)
			if got := l.batch.Stages[i].Work; got != want {
				h.failStage("work-length", l, i, "", "got %d min of work, want %d", got, want)
			}
		}
	}
}

// checkHold: every hold but the last lies between its least and most, rounded
// inward. Holds that were over before anything could be planned are as they were;
// those of a begun batch that run or are still to come may be late.
func checkHold(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for i := max(0, l.begun-1); i < len(l.batch.Stages); i++ {
			t := &l.batch.Stages[i]
			if l.last(i) || l.stuck {
				continue
			}
			least, most := limits(l.recipe, i, h.step)
			switch {
			case t.Hold < least:
				h.failStage("hold-short", l, i, "", "got a hold of %d min, want at least %d", t.Hold, least)
			case t.Hold > most && l.past == nil:
				h.failStage("hold-long", l, i, "", "got a hold of %d min, want at most %d", t.Hold, most)
			case t.Hold > most:
				h.checkLateHold(l, i)
			}
		}
	}
}

// checkLastHold: a batch ends when its last target leaves, within the limits of a
// last hold that is written. A begun batch without a target ends after the least
// hold allowed; if its packing has begun, not before the planning start.
func checkLastHold(h *hearing) {
	for _, l := range h.lots {
		if !l.sound || l.stuck {
			continue
		}
		i := len(l.batch.Stages) - 1
		t := &l.batch.Stages[i]
		least, most := limits(l.recipe, i, h.step)
		if len(l.batch.For) == 0 {
			want := l.packed().Add(least)
			if !l.planned(i) {
				want = max(want, h.from)
			}
			if l.past != nil && t.Ends != want {
				h.failStage("last-hold", l, i, "", "got an end at %s, want %s for a batch without a target", h.when(t.Ends), h.when(want))
			}
			continue
		}
		want := lastBy(l.batch.For)
		if t.Ends != want {
			h.failStage("last-hold", l, i, "", "got an end at %s, want %s when the last target leaves", h.when(t.Ends), h.when(want))
		}
		if l.recipe.Stages[i].Hold == nil {
			most = l.recipe.Keeps
		}
		if t.Hold < least || t.Hold > most {
			h.failStage("last-hold", l, i, "", "got a last hold of %d min, want %d to %d", t.Hold, least, most)
		}
	}
}

// lastBy is when the last of the shares leaves; 0 for none.
func lastBy(shares []schedule.Share) (last resources.Moment) {
	for i, s := range shares {
		if i == 0 || s.By > last {
			last = s.By
		}
	}
	return last
}
