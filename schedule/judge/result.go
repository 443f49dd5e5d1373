package judge

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// checkResults: one entry per want, in the order written, with what is met and
// what is short of it; a reason where something is short and only there.
func checkResults(h *hearing) {
	var want []schedule.WantResult
	for i := range h.problem.Targets {
		t := &h.problem.Targets[i]
		for k, w := range t.Wants {
			met := h.met[wantKey{t.Name, t.By, k}]
			want = append(want, schedule.WantResult{Target: t.Name, By: t.By, Want: k, Cheese: w.Cheese, Price: w.Price,
				Promised: w.Promised, Wanted: w.Pieces, Met: met, Short: w.Pieces - met})
		}
	}
	if len(h.plan.Targets) != len(want) {
		h.fail("targets", "", 0, "got %d entries, want %d: one per want", len(h.plan.Targets), len(want))
		return
	}
	for i, w := range want {
		got := h.plan.Targets[i]
		if got.Target != w.Target || got.By != w.By || got.Want != w.Want || got.Cheese != w.Cheese ||
			got.Price != w.Price || got.Promised != w.Promised || got.Wanted != w.Wanted {
			h.fail("targets", w.Target, w.By, "got entry %d for want %d of %q at %s: %d %s at %d, promised %v; want want %d of %q at %s: %d %s at %d, promised %v", i,
				got.Want, got.Target, h.when(got.By), got.Wanted, got.Cheese, got.Price, got.Promised,
				w.Want, w.Target, h.when(w.By), w.Wanted, w.Cheese, w.Price, w.Promised)
			continue
		}
		if got.Met != w.Met || got.Short != w.Short {
			h.fail("target-sums", w.Target, w.By, "got %d of %s met and %d short, want %d and %d", got.Met, w.Cheese, got.Short, w.Met, w.Short)
		}
		if (got.Because != "") != (w.Short > 0) {
			h.fail("because", w.Target, w.By, "got reason %q with %d short, want a reason just when something is short", got.Because, w.Short)
		}
	}
}

// checkOutcome: met when nothing is short, else short.
func checkOutcome(h *hearing) {
	want := schedule.Met
	var at resources.Moment
	for i := range h.problem.Targets {
		t := &h.problem.Targets[i]
		for k, w := range t.Wants {
			if want == schedule.Met && h.met[wantKey{t.Name, t.By, k}] < w.Pieces {
				want, at = schedule.Short, t.By
			}
		}
	}
	if h.plan.Outcome != want {
		h.fail("outcome", "", at, "got %q, want %q", h.plan.Outcome, want)
	}
}
