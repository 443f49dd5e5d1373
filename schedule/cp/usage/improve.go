package usage

import (
	"ripeby/schedule/cp/problem"
)

// Unserved reports whether all of the shares are still to be served.
func (s *Ledger) Unserved(shares []problem.Share) bool {
	for _, sh := range shares {
		if s.Unmet[sh.Demand] < sh.Units {
			return false
		}
	}
	return true
}
