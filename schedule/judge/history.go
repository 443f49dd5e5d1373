package judge

import "ripeby/resources"

// checkHistory: a stage counts how often its start, end or place changed from plan
// to plan, and when it last did. A new stage has 0 and this plan's start.
func checkHistory(h *hearing) {
	for _, l := range h.lots {
		for i := range l.batch.Stages {
			t := &l.batch.Stages[i]
			number, moment := 0, h.from
			if old := h.earlierTask(l, i); old != nil {
				number, moment = old.Sequence, old.Revised
				if old.Start != t.Start || old.Ends != t.Ends || old.At != t.At {
					number, moment = number+1, h.from
				}
			}
			if t.Sequence != number || t.Revised != moment {
				h.failStage("sequence", l, i, "", "got revision %d of %s, want %d of %s", t.Sequence, h.when(t.Revised), number, h.when(moment))
			}
		}
	}
}

// checkWarnings: what the maker must know is said: care on a day without a round,
// and care that is longer than the round.
func checkWarnings(h *hearing) {
	due := map[day]resources.Minutes{}
	var without, over resources.Moment
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for _, c := range h.careDays(l) {
			d := dayOf(c.Day)
			due[d] += c.Hands
			b := h.blockOn(d)
			if b == nil && without == 0 {
				without = wallClock(h.zone, d, 0)
			}
			if b != nil && due[d] > b.span.Length() && over == 0 {
				over = b.span.From
			}
		}
	}
	if without != 0 && !h.warned("care-without-round") {
		h.fail("warning-missing", "care-without-round", without, "got care on a day without a round and no warning, want one")
	}
	if over != 0 && !h.warned("round-too-short") {
		h.fail("warning-missing", "round-too-short", over, "got more care than the round is long and no warning, want one")
	}
}
