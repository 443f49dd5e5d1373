package judge

import "slices"

// checkHeader: the plan names the kitchen, the zone and the start it was made for, and remembers
// as of when each entry of begun.yaml holds.
func checkHeader(h *hearing) {
	if h.plan.Kitchen != h.kitchen.Name {
		h.fail("header", "kitchen", 0, "got %q, want %q", h.plan.Kitchen, h.kitchen.Name)
	}
	if h.plan.TimeZone != h.kitchen.TimeZone {
		h.fail("header", "timezone", 0, "got %q, want %q", h.plan.TimeZone, h.kitchen.TimeZone)
	}
	if h.plan.From != h.from {
		h.fail("header", "from", h.plan.From, "got a plan from %s, want from %s", h.when(h.plan.From), h.when(h.from))
	}
	if !slices.Equal(h.plan.OffPlan, h.problem.OffPlan) {
		h.fail("header", "off_plan", 0, "got %v, want %v: the batches that were made off the plan", h.plan.OffPlan, h.problem.OffPlan)
	}
	if !slices.Equal(h.plan.BegunAsOf, h.problem.BegunAsOf) {
		h.fail("header", "begun_as_of", 0, "got %v, want %v: as of when each entry of begun.yaml holds", h.plan.BegunAsOf, h.problem.BegunAsOf)
	}
}
