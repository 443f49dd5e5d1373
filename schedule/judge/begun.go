package judge

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// checkBegunPresent: every begun batch is in the plan, and none is invented.
func checkBegunPresent(h *hearing) {
	present := map[string]bool{}
	for _, l := range h.lots {
		present[l.batch.ID] = true
		if l.batch.Begun != (l.past != nil) {
			h.failLot("begun-flag", l, "got begun %v, want %v", l.batch.Begun, l.past != nil)
		}
	}
	for _, x := range h.pasts {
		if !present[x.id] && !x.optional {
			h.found = append(h.found, Violation{Rule: "begun-forgotten", Batch: x.id,
				Text: "got no such batch, want it: it has begun"})
		}
	}
}

// checkBegunBatch: a begun batch keeps its cheese and litres, has the pieces that
// are left of it, and its milk came from where it came from.
func checkBegunBatch(h *hearing) {
	for _, l := range h.lots {
		x := l.past
		if x == nil {
			continue
		}
		if l.batch.Cheese != x.cheese {
			h.failLot("begun-changed", l, "got cheese %s, want %s", l.batch.Cheese, x.cheese)
		}
		if l.batch.Litres != x.litres {
			h.failLot("begun-changed", l, "got %d mL, want %d mL", l.batch.Litres, x.litres)
		}
		if old := h.went(x.id); old != nil && x.carried && l.batch.Lot != old.Lot {
			h.failLot("lot", l, "got lot %q, want %q", l.batch.Lot, old.Lot)
		}
		if l.batch.Pieces != x.pieces {
			h.failLot("begun-changed", l, "got %d pieces, want the %d that are left", l.batch.Pieces, x.pieces)
		}
	}
}

// checkBegunStages: begun stages are flagged, and exactly as they were: start,
// work, person; the hold between two begun stages is what lay between them.
func checkBegunStages(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for i := range l.batch.Stages {
			t := &l.batch.Stages[i]
			if t.Begun != (i < l.begun) {
				h.failStage("begun-flag", l, i, "", "got begun %v, want %v", t.Begun, i < l.begun)
			}
			if i < l.begun {
				h.checkBegunStage(l, i)
			}
		}
	}
}

func (h *hearing) checkBegunStage(l *lot, i int) {
	t, was := &l.batch.Stages[i], l.past.stages[i]
	if t.Start != was.start {
		h.failStage("begun-changed", l, i, "", "got a start at %s, want %s as it was", h.when(t.Start), h.when(was.start))
		return
	}
	work, other := was.work, was.other
	if i+1 < l.begun {
		// Whoever began the next stage sooner than the recipe's work lasts was done sooner.
		gap := l.past.stages[i+1].start.Sub(was.start)
		work, other = min(work, gap), min(other, gap)
	}
	if t.Work != work && t.Work != other {
		h.failStage("begun-changed", l, i, "", "got %d min of work, want %d as it was", t.Work, work)
	}
	if t.Work == 0 {
		if t.Who != "" {
			h.failStage("begun-changed", l, i, t.Who, "got a person, want none where there is no work")
		}
		return
	}
	if want := h.begunWho(l, i); t.Who != want {
		h.failStage("begun-changed", l, i, t.Who, "got work by %q, want %q as it was", t.Who, want)
	}
}

// begunWho is who did begun work: as in the earlier plan, else the first listed
// person who may.
func (h *hearing) begunWho(l *lot, i int) string {
	if t := h.wentTask(l, i); t != nil && t.Who != "" {
		return t.Who
	}
	who := l.recipe.Stages[i].Who
	for _, p := range h.kitchen.People {
		if len(who) == 0 || slices.Contains(who, p.Name) {
			return p.Name
		}
	}
	return ""
}

// earlierTask is stage i of the batch in the earlier plan; nil when it is new.
func (h *hearing) earlierTask(l *lot, i int) *schedule.Task {
	return h.earlier[l.batch.ID].Stage(l.batch.Stages[i].Stage)
}

// wentTask is the same as it went.
func (h *hearing) wentTask(l *lot, i int) *schedule.Task {
	return h.went(l.batch.ID).Stage(l.batch.Stages[i].Stage)
}

// checkBegunBoxes: boxes of a begun stay stand where the earlier plan put them, if
// that still holds: inside the shelf and clear of everything else that has begun.
func checkBegunBoxes(h *hearing) {
	begun := h.begunPiles()
	for _, l := range h.lots {
		for i := 0; l.sound && i < l.begun; i++ {
			t, old := &l.batch.Stages[i], h.wentTask(l, i)
			if old == nil || old.At != t.At || h.carryOf(l) != nil && i == l.begun-1 || len(old.BoxesAt) == 0 || t.Ends <= h.from ||
				t.Hold <= 0 || len(old.BoxesAt) != l.boxes(i) || h.standStill(l, i, old.BoxesAt, t.BoxesAt) {
				continue
			}
			if h.stillHolds(l, i, old.BoxesAt, begun) {
				h.failStage("begun-boxes", l, i, t.At, "got the boxes elsewhere than in the earlier plan, want them where they stand")
			}
		}
	}
}

// begunPiles are the piles of what has begun, and of stock.
func (h *hearing) begunPiles() []pile {
	return slices.DeleteFunc(h.piles(), func(x pile) bool { return x.planned })
}

// standStill reports whether boxes of a begun stay are where they were: which is below which is
// told anew of those that are still to come.
func (h *hearing) standStill(l *lot, i int, was, now []schedule.Standing) bool {
	if l.stay(i).From >= h.from {
		was, now = flat(was), flat(now)
	}
	return sameStandings(was, now)
}

// flat is boxes without their layers.
func flat(boxes []schedule.Standing) []schedule.Standing {
	out := slices.Clone(boxes)
	for i := range out {
		out[i].Layer = 0
	}
	return out
}

// stillHolds reports whether boxes of a begun stay can stand where they stood.
func (h *hearing) stillHolds(l *lot, i int, boxes []schedule.Standing, begun []pile) bool {
	kind := h.boxNamed(l.boxing(i).Name)
	place := h.cold(l.batch.Stages[i].At)
	stay := l.stay(i)
	if kind == nil || place == nil || !place.Measured() {
		return false // counted boxes have no position to keep
	}
	if closedDuring(place, boxes, stay) != "" {
		return false
	}
	return h.couldStand(l, i, boxes, begun)
}

// couldStand is the same, whatever is closed.
func (h *hearing) couldStand(l *lot, i int, boxes []schedule.Standing, begun []pile) bool {
	kind, place, stay := h.boxNamed(l.boxing(i).Name), h.cold(boxes[0].Place), l.stay(i)
	if kind == nil || place == nil || !place.Measured() {
		return false
	}
	for _, s := range boxes {
		if misplaced(s, place, kind) != "" {
			return false
		}
	}
	begun = slices.DeleteFunc(slices.Clone(begun), func(o pile) bool { return o.batch == l.batch.ID })
	for _, x := range pilesOf(boxes) {
		x.stay, x.kind = stay, kind.Name
		if h.crowded(x, begun) {
			return false
		}
	}
	return true
}

// crowded reports whether a pile has no room for all its time beside others.
func (h *hearing) crowded(x pile, others []pile) bool {
	var shared []claim
	for _, o := range others {
		switch {
		case !x.clashes(o):
		case !h.shares(x, o):
			return true
		default:
			shared = append(shared, claim{span: o.stay, count: len(o.layers)})
		}
	}
	for _, c := range append(shared, claim{span: x.stay}) {
		at, n := max(c.span.From, x.stay.From), len(x.layers)
		for _, o := range shared {
			if o.span.From <= at && at < o.span.Until {
				n += o.count
			}
		}
		if n > h.mostIn(x) {
			return true
		}
	}
	return false
}

// sameStandings reports whether the same boxes stand in the same places.
func sameStandings(a, b []schedule.Standing) bool {
	return slices.Equal(sortedStandings(a), sortedStandings(b))
}

func sortedStandings(s []schedule.Standing) []schedule.Standing {
	return slices.SortedFunc(slices.Values(s), compareStandings)
}

// forever stands for the end of what is never given back.
const forever = resources.Moment(1) << 60

// went is a batch of the earlier plan as it went; nil when it is new.
func (h *hearing) went(id string) *schedule.Batch {
	for _, plan := range []*schedule.Plan{h.lived, h.stood} {
		if plan != nil {
			if b := plan.Batch(id); b != nil {
				return b
			}
		}
	}
	return nil
}
