package kernel

// Hasten makes restarts and the dropping of learned clauses come so early that
// small models meet them, and branching by activity from the start.
func (s *Solver) Hasten(keep int, unit int64) {
	s.limits.keep, s.limits.unit, s.limits.turns = keep, unit, 1
}
