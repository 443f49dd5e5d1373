package judge

// checkHeader: the plan names the kitchen, the zone and the start it was made for.
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
}
