package judge

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// score works the plan's score out again from its batches, stages and shares,
// whether or not the plan holds. Begun batches alone are late; they count in no
// batches, litres or make starts, and in bother only with holds that end at or after
// the planning start and with work to come; the running hold of a stuck one has no
// end, and costs nothing. A batch of an unknown cheese has no bother.
func (h *hearing) score() schedule.Score {
	var s schedule.Score
	for i := range h.problem.Targets {
		t := &h.problem.Targets[i]
		for k, w := range t.Wants {
			short := resources.Money(max(0, w.Pieces-h.met[wantKey{t.Name, t.By, k}]))
			if w.Promised {
				s.PromisedShort += short * w.Price
			} else {
				s.Short += short * w.Price
			}
		}
	}
	for _, l := range h.lots {
		s.Late += h.late(l)
		s.Bother += h.holdBother(l) + h.ratherNot(l)
		if l.past != nil {
			continue
		}
		s.Batches++
		s.Litres += l.batch.Litres
		if len(l.batch.Stages) > 0 {
			s.MakeStarts += int64(l.batch.Stages[0].Start - h.from)
		}
	}
	moved, points := h.unrest()
	s.Moved, s.Bother = moved, s.Bother+points
	return s
}

// holdBother adds up how far the batch's holds are from best.
func (h *hearing) holdBother(l *lot) int64 {
	var sum int64
	if !l.sound {
		return 0
	}
	for i := range l.batch.Stages {
		t, w := &l.batch.Stages[i], l.recipe.Stages[i].Hold
		if w == nil || !w.HasBest || l.last(i) || l.endless(i) || l.past != nil && t.Ends < h.from {
			continue
		}
		least, most := limits(l.recipe, i, h.step)
		sum += percent(t.Hold, least, w.Best, most)
	}
	return sum
}

// percent is how far a hold is from best, of how far it may be on that side, in
// whole per cent, halves up. Past the limit it goes on growing; where there is no
// room on that side it is 100.
func percent(hold, least, best, most resources.Minutes) int64 {
	away, width := int64(hold-best), int64(most-best)
	if away < 0 {
		away, width = -away, int64(best-least)
	}
	switch {
	case away == 0:
		return 0
	case width <= 0:
		return 100
	}
	return (200*away + width) / (2 * width)
}

// ratherNot gives a point for each whole five minutes of a piece of work still to
// come in time in which its person would rather not.
func (h *hearing) ratherNot(l *lot) int64 {
	var sum int64
	for i := l.begun; i < len(l.batch.Stages); i++ {
		t := &l.batch.Stages[i]
		if who := h.personNamed(t.Who); who >= 0 && t.Work > 0 {
			sum += int64(shared(h.people[who].rather, l.work(i)) / 5)
		}
	}
	return sum
}

// checkScore: the plan's score is the one worked out again.
func checkScore(h *hearing) {
	if want := h.score(); h.plan.Score != want {
		h.fail("score", "", 0, "got %+v, want %+v", h.plan.Score, want)
	}
}
