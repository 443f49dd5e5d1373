package judge

import (
	"fmt"

	"ripeby/resources"
)

// head is the stage at which the stay of stage i began: stages without work that
// follow a hold only go on with the stay before, as nobody is there to move it. It
// is the recipe that says where there is a hold, however long it has become: where
// it says none, the stages need not share kit or place.
func (l *lot) head(i int) int {
	for i > 0 && l.batch.Stages[i].Work == 0 && l.waits(i-1) {
		i--
	}
	return i
}

// waits reports whether the recipe has a hold at stage i.
func (l *lot) waits(i int) bool {
	w := l.recipe.Stages[i].Hold
	return w != nil && w.Most > 0
}

// stood is the nearest stage before i, in the same stay, with a hold; -1 for none.
func (l *lot) stood(i int) int {
	for k := i - 1; k >= l.head(i); k-- {
		if l.batch.Stages[k].Hold > 0 {
			return k
		}
	}
	return -1
}

// stayPlanned reports whether the boxes of stage i are still to be put in place.
func (l *lot) stayPlanned(i int) bool { return l.planned(l.head(i)) }

// stay is when the boxes of stage i stand there: its hold, which for the running
// stage of a stuck batch never ends.
func (l *lot) stay(i int) resources.Span {
	s := l.hold(i)
	if l.endless(i) {
		s.Until = forever
	}
	return s
}

// checkStays: a stage without work that follows a hold stays where that was: same
// place, same positions.
func checkStays(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for i := range l.batch.Stages {
			if !l.planned(i) || l.head(i) == i {
				continue
			}
			t, before := &l.batch.Stages[i], &l.batch.Stages[i-1]
			if t.At != before.At {
				h.failStage("stay-moved", l, i, t.At, "got %q, want %q: nobody is there to move anything", t.At, before.At)
			} else if k := l.stood(i); t.Hold > 0 && k >= 0 && !sameStandings(t.BoxesAt, l.batch.Stages[k].BoxesAt) {
				h.failStage("stay-moved", l, i, t.At, "got other positions than in the stage before, want the same: nobody is there to move anything")
			}
		}
	}
}

// checkCounted: a place that is counted in boxes never holds more than it can.
func checkCounted(h *hearing) {
	for k := range h.kitchen.Cold {
		place := &h.kitchen.Cold[k]
		if place.Measured() {
			continue
		}
		var claims []claim
		for i := range h.plan.Stock {
			for _, s := range h.stockNow(i) {
				claims = append(claims, claim{span: s.span, count: s.in(place.Name)})
			}
		}
		for _, l := range h.lots {
			for i := 0; l.sound && i < len(l.batch.Stages); i++ {
				for _, s := range h.seatsOf(l, i) {
					claims = append(claims, claim{s.span, s.in(place.Name), l.stayPlanned(i), l.batch.ID, l.batch.Stages[i].Stage})
				}
			}
		}
		for _, o := range overloads(claims, place.Boxes) {
			h.found = append(h.found, Violation{Rule: "place-over", Batch: o.batch, Stage: o.stage, Thing: place.Name, At: o.span.From,
				Text: fmt.Sprintf("got %d boxes, want at most %d", o.taken, place.Boxes)})
		}
	}
}
