package judge

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// room is what a plan calls the make room.
const room = "room"

// checkPlace: a stage is where its recipe says: the room, a cold place by name, or
// one whose temperature lies in the range. Begun stages are where they were.
func checkPlace(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for i := range l.batch.Stages {
			want := h.places(l.recipe.Stages[i].At)
			if !l.planned(i) {
				want = h.begunPlaces(l, i)
			}
			if l.planned(i) && !l.stayPlanned(i) {
				// It goes on with a begun stay: where that is, it is.
				want = append(want, l.batch.Stages[max(l.head(i), l.begun-1)].At)
			}
			if at := l.batch.Stages[i].At; !slices.Contains(want, at) {
				h.failStage("place", l, i, at, "got %q, want one of %q", at, want)
			}
		}
	}
}

// places lists where a stage may be, in the kitchen's order.
func (h *hearing) places(at schedule.At) []string {
	switch at.Kind {
	case schedule.AtRoom:
		return []string{room}
	case schedule.AtPlace:
		return []string{at.Place}
	}
	var out []string
	for _, c := range h.kitchen.Cold {
		if at.Low <= c.Temperature && c.Temperature <= at.High {
			out = append(out, c.Name)
		}
	}
	return out
}

// begunPlaces lists where a begun stage may be said to be: the running stage also where it is
// carried to.
func (h *hearing) begunPlaces(l *lot, i int) []string {
	out := h.begunThere(l, i)
	if x := h.sitterOf(l); x != nil && i == l.begun-1 && x.closing != nil {
		out = append(out, x.places...)
	}
	return out
}

// begunThere lists where a begun stage may be said to be without that. The running stage is
// where the maker wrote, else where the earlier plan had it if it may be there,
// else at the first listed place that fits. Of a stage that is over the maker may
// have meant the same place.
func (h *hearing) begunThere(l *lot, i int) []string {
	at := l.recipe.Stages[i].At
	if at.Kind == schedule.AtRoom {
		return []string{room}
	}
	var out []string
	if l.past.at != "" {
		if i == l.begun-1 {
			return []string{l.past.at}
		}
		out = append(out, l.past.at)
	}
	fit := h.places(at)
	if old := h.wentTask(l, i); old != nil {
		if slices.Contains(fit, old.At) {
			return append(out, old.At)
		}
		if h.cold(old.At) != nil {
			out = append(out, old.At)
		}
	}
	return append(out, fit[:min(1, len(fit))]...)
}

// checkTaken: boxes of a planned stay stand on no shelf and in no place while it
// is closed.
func checkTaken(h *hearing) {
	for _, l := range h.lots {
		for i := 0; l.sound && i < len(l.batch.Stages); i++ {
			t := &l.batch.Stages[i]
			place := h.cold(t.At)
			if place == nil || !l.stayPlanned(i) || len(t.BoxesAt) == 0 {
				continue
			}
			if what := closedDuring(place, t.BoxesAt, l.stay(i)); what != "" {
				h.failStage("place-taken", l, i, t.At, "got boxes there from %s to %s, want none while %s is taken",
					h.when(l.stay(i).From), h.when(l.stay(i).Until), what)
			}
		}
	}
}

// closedDuring names the place or the shelf that is closed at some moment of the
// stay; "" when none is.
func closedDuring(place *resources.ColdPlace, boxes []schedule.Standing, stay resources.Span) string {
	for _, c := range place.Taken {
		if c.Overlaps(stay) && !c.Empty() {
			return place.Name
		}
	}
	for _, b := range boxes {
		for _, s := range place.Shelves {
			for _, c := range s.Taken {
				if s.Name == b.Shelf && c.Overlaps(stay) && !c.Empty() {
					return s.Name
				}
			}
		}
	}
	return ""
}
