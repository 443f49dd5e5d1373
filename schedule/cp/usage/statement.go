package usage

// OutOfCourse reports whether something under way is late or stuck.
func (s *Ledger) OutOfCourse() bool {
	for _, j := range s.Jobs {
		if j.Begun >= 0 && (j.Stuck || j.Late > 0) {
			return true
		}
	}
	return false
}
