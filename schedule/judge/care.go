package judge

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// careDays lists the care of a batch that is still to be done: every so many days
// after the local day on which a hold began, on every day before the one on which
// it ends, from the planning start's day on; today's only if its round is still to
// come.
func (h *hearing) careDays(l *lot) []schedule.CareDay {
	var out []schedule.CareDay
	today := dayIn(h.from, h.zone)
	for i := range l.batch.Stages {
		c := l.recipe.Stages[i].Care
		if c == nil || c.Every < 1 {
			continue
		}
		hold := l.hold(i)
		ends := dayIn(hold.Until, h.zone)
		for d := dayIn(hold.From, h.zone) + day(c.Every); d < ends; d += day(c.Every) {
			b := h.blockOn(d)
			if d < today || d == today && b != nil && b.span.From < h.from {
				continue
			}
			out = append(out, schedule.CareDay{Day: d.date(), Do: c.Do, Hands: c.Hands})
		}
	}
	return out
}

// checkCare: a batch lists the care that falls due, day by day.
func checkCare(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		if want := h.careDays(l); !slices.Equal(l.batch.Care, want) {
			h.failLot("care", l, "got care on %d days %v, want on %d days %v", len(l.batch.Care), l.batch.Care, len(want), want)
		}
	}
}

// expectedRounds lists the rounds that the plan must hold: those at or after the
// planning start on days with care due, or with a hold with care running when the
// block starts.
func (h *hearing) expectedRounds() []schedule.RoundBlock {
	due := map[day][]schedule.RoundCare{}
	var tended []resources.Span
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for i := range l.batch.Stages {
			if l.recipe.Stages[i].Care != nil {
				tended = append(tended, l.hold(i))
			}
		}
		for _, c := range h.careDays(l) {
			d := dayOf(c.Day)
			due[d] = append(due[d], schedule.RoundCare{Batch: l.batch.ID, Do: c.Do, Hands: c.Hands})
		}
	}
	tended = merged(tended)
	var out []schedule.RoundBlock
	for _, b := range h.rounds {
		start := resources.Span{From: b.span.From, Until: b.span.From + 1}
		if b.span.From < h.from || len(due[b.day]) == 0 && !covers(tended, start) {
			continue
		}
		out = append(out, schedule.RoundBlock{Start: b.span.From, Minutes: b.span.Length(), Who: h.people[b.person].Name, Care: due[b.day]})
	}
	return out
}

// checkRounds: the plan lists just those rounds, by time, with the care that is
// done in each.
func checkRounds(h *hearing) {
	want := h.expectedRounds()
	at := 0
	for i, got := range h.plan.Rounds {
		if i > 0 && h.plan.Rounds[i-1].Start >= got.Start {
			h.fail("round", "", got.Start, "got it after the round at %s, want rounds by time and each once", h.when(h.plan.Rounds[i-1].Start))
			continue
		}
		for at < len(want) && want[at].Start < got.Start {
			h.fail("round-missing", "", want[at].Start, "got no round at %s, want one by %s", h.when(want[at].Start), want[at].Who)
			at++
		}
		if at == len(want) || want[at].Start != got.Start {
			h.fail("round", "", got.Start, "got a round at %s, want none: nothing is tended then", h.when(got.Start))
			continue
		}
		w := want[at]
		at++
		if got.Minutes != w.Minutes || got.Who != w.Who {
			h.fail("round", "", got.Start, "got %d min by %q, want %d by %q", got.Minutes, got.Who, w.Minutes, w.Who)
		}
		if !slices.Equal(sortedCare(got.Care), sortedCare(w.Care)) {
			h.fail("round-care", "", got.Start, "got care %v, want %v", got.Care, w.Care)
		}
	}
	for ; at < len(want); at++ {
		h.fail("round-missing", "", want[at].Start, "got no round at %s, want one by %s", h.when(want[at].Start), want[at].Who)
	}
}

func sortedCare(c []schedule.RoundCare) []schedule.RoundCare {
	return slices.SortedFunc(slices.Values(c), func(a, b schedule.RoundCare) int {
		return cmp.Or(cmp.Compare(a.Batch, b.Batch), cmp.Compare(a.Do, b.Do), cmp.Compare(a.Hands, b.Hands))
	})
}
