package judge

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// checkChanges: the plan tells every task of the earlier plan that it moves, drops or gives to somebody
// else, and every new one within the settled time, once each and with a reason; and nothing else.
func checkChanges(h *hearing) {
	want := h.changes()
	for _, c := range h.plan.Changes {
		key, at := stageOf{c.Batch, c.Stage}, resources.Moment(max(c.Was, c.Now))
		w, due := want[key]
		w.Batch, w.Stage, w.Because = c.Batch, c.Stage, c.Because
		switch {
		case !due || c != w:
			h.fail("change", c.Batch, at, "got %+v told as a change, want %+v once, where that is one", c, w)
		case c.Because == "":
			h.fail("change", c.Batch, at, "got no reason for what changes of the stage %s, want one", c.Stage)
		}
		delete(want, key)
	}
	left := make([]stageOf, 0, len(want))
	for key := range want {
		left = append(left, key)
	}
	slices.SortFunc(left, func(a, b stageOf) int { return cmp.Or(cmp.Compare(a.batch, b.batch), cmp.Compare(a.stage, b.stage)) })
	for _, key := range left {
		h.fail("change", key.batch, 0, "got nothing told of the stage %s, want %+v", key.stage, want[key])
	}
}

// changes are what the plan has to tell.
func (h *hearing) changes() map[stageOf]schedule.Change {
	want := map[stageOf]schedule.Change{}
	if h.problem.Earlier == nil {
		return want
	}
	was, is, out := h.tasks()
	until := h.from.Add(h.problem.Kitchen.Settled)
	for key, now := range is {
		if _, had := was[key]; !had && !out[key] && now.start < until {
			want[key] = schedule.Change{Now: now.start, NowWho: now.who}
		}
	}
	for key, before := range was {
		now, has := is[key]
		switch {
		case out[key] || has && now == before:
		case has:
			want[key] = schedule.Change{Was: before.start, WasWho: before.who, Now: now.start, NowWho: now.who}
		default:
			want[key] = schedule.Change{Was: before.start, WasWho: before.who}
		}
	}
	return want
}
