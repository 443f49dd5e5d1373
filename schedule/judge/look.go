package judge

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// lookBlocks are the times that looks keep free.
func (h *hearing) lookBlocks() []block {
	var out []block
	for _, l := range h.problem.Looks {
		if i := h.personNamed(l.Who); i >= 0 {
			out = append(out, block{day: dayIn(l.Start, h.zone), person: i, span: resources.Span{From: l.Start, Until: l.Start.Add(l.Minutes)}})
		}
	}
	return out
}

// checkLooksFree: nobody's planned work lies in a look of theirs.
func checkLooksFree(h *hearing) {
	looks, all := h.lookBlocks(), h.pieces()
	for _, b := range looks {
		for _, x := range all {
			if x.planned && x.person == b.person && x.span.From < b.span.Until && b.span.From < x.span.Until {
				h.failStage("look-taken", x.lot, x.stage, h.people[x.person].Name, "got work from %s to %s, want the look at %s kept free",
					h.when(x.span.From), h.when(x.span.Until), h.when(b.span.From))
			}
		}
	}
}

// checkLooks: the plan lists the looks that were asked for, but for those at whose moment the stage
// itself begins.
func checkLooks(h *hearing) {
	var want []schedule.Look
	for _, l := range h.problem.Looks {
		if t := h.plan.Batch(l.Batch).Stage(l.Stage); t == nil || t.Start != l.Start {
			want = append(want, l)
		}
	}
	if !slices.Equal(h.plan.Looks, want) {
		h.fail("look", "", 0, "got looks %v, want %v", h.plan.Looks, want)
	}
}
