package judge

import (
	"slices"
	"sort"

	"ripeby/resources"
)

// piece is one piece of somebody's work, or a round.
type piece struct {
	person  int
	span    resources.Span
	planned bool
	lot     *lot // nil for the round
	stage   int
}

// pieces lists all work by people whom the kitchen knows, sorted by person and
// start.
func (h *hearing) pieces() []piece {
	var out []piece
	for _, l := range h.lots {
		for i := 0; l.sound && i < len(l.batch.Stages); i++ {
			t := &l.batch.Stages[i]
			who := h.personNamed(t.Who)
			if t.Work > 0 && who >= 0 {
				out = append(out, piece{who, l.work(i), l.planned(i), l, i})
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].person != out[j].person {
			return out[i].person < out[j].person
		}
		return out[i].span.From < out[j].span.From
	})
	return out
}

// checkWho: planned work has a person who may do it; a stage without work has none.
func checkWho(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for i := l.begun; i < len(l.batch.Stages); i++ {
			t, may := &l.batch.Stages[i], l.recipe.Stages[i].Who
			switch {
			case t.Work == 0 && t.Who != "":
				h.failStage("who", l, i, t.Who, "got a person, want none where there is no work")
			case t.Work > 0 && h.personNamed(t.Who) < 0:
				h.failStage("who", l, i, t.Who, "got %q, want one of the kitchen's people", t.Who)
			case t.Work > 0 && len(may) > 0 && !slices.Contains(may, t.Who):
				h.failStage("who", l, i, t.Who, "got %q, want one of %q", t.Who, may)
			}
		}
	}
}

// checkHours: planned work lies wholly inside one window of its person.
func checkHours(h *hearing) {
	for _, x := range h.pieces() {
		if x.planned && !covers(h.people[x.person].free, x.span) {
			h.failStage("outside-hours", x.lot, x.stage, h.people[x.person].Name, "got work from %s to %s, want it inside one stretch of hours",
				h.when(x.span.From), h.when(x.span.Until))
		}
	}
}
