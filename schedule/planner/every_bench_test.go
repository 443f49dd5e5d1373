package planner_test

import "ripeby/resources"

// everyBench holds the ways chosen so far and says whether one more goes with them.
type everyBench struct {
	*everyWorld
	apart [sides]bool // batches do not take such things from one another
	held  [][]everyClaim
	stays []everyStay
	shelf *everyShelf
	tried int64
}

func newEveryBench(e *everyWorld) *everyBench {
	return &everyBench{everyWorld: e, held: make([][]everyClaim, len(e.things)), shelf: newEveryShelf(&e.p.Kitchen)}
}

// put adds a way; when it does not go with the rest it leaves everything as it was.
func (b *everyBench) put(w *everyWay) bool {
	b.tried++
	for i := range w.claims {
		c := &w.claims[i]
		b.held[c.thing] = append(b.held[c.thing], *c)
		if !b.apart[b.things[c.thing].side] && b.over(c) {
			b.back(w, i+1, 0)
			return false
		}
	}
	b.stays = append(b.stays, w.stays...)
	if !b.apart[sideCold] && len(w.stays) > 0 && !b.shelf.stand(b.stays) {
		b.back(w, len(w.claims), len(w.stays))
		return false
	}
	return true
}

// take takes the way that was put last away again.
func (b *everyBench) take(w *everyWay) { b.back(w, len(w.claims), len(w.stays)) }

func (b *everyBench) back(w *everyWay, claims, stays int) {
	for _, c := range w.claims[:claims] {
		b.held[c.thing] = b.held[c.thing][:len(b.held[c.thing])-1]
	}
	b.stays = b.stays[:len(b.stays)-stays]
}

// emptyRunsNeedKit says that a batch that takes more of a thing than there is cannot be
// made, though it takes it for no time at all. The contract is silent: occupation is
// half-open, so that such a run occupies nothing; but no maker would begin it.
const emptyRunsNeedKit = true

// over reports whether, at a start of some claim while the new one lasts, there is
// too much of a thing and something planned takes part in it.
func (b *everyBench) over(c *everyClaim) bool {
	all := b.held[c.thing]
	if t := b.things[c.thing]; emptyRunsNeedKit && t.side == sideKit && c.planned && c.count > t.limit {
		return true
	}
	for i := range all {
		at := all[i].from
		if at >= c.until || all[i].until <= c.from || at >= all[i].until {
			continue
		}
		at = max(at, c.from)
		if b.overAt(all, at, b.things[c.thing].limit) {
			return true
		}
	}
	return false
}

func (b *everyBench) overAt(all []everyClaim, at resources.Moment, limit int64) bool {
	sum, planned := int64(0), false
	for i := range all {
		if all[i].from <= at && at < all[i].until {
			sum += all[i].count
			planned = planned || all[i].planned
		}
	}
	return planned && sum > limit
}
