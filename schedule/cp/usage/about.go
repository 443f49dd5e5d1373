package usage

import "ripeby/schedule/cp/problem"

// Unserved reports whether all of the shares are still to be served.
func (s *Ledger) Unserved(shares []problem.Share) bool {
	for _, sh := range shares {
		if s.Unmet[sh.Demand] < sh.Units {
			return false
		}
	}
	return true
}

// KnowsBoxes reports whether it is known where every box of a job stands.
func (s *Ledger) KnowsBoxes() bool {
	for _, j := range s.Jobs {
		for r, stay := range s.ModeOf(j).Stays {
			n := 0
			for _, st := range j.Stays[r].Stacks {
				n += st.Boxes
			}
			if space := j.Stays[r].Space; space >= 0 && len(s.Model.Spaces[space].Floors) > 0 && n != stay.Boxes {
				return false
			}
		}
	}
	return true
}
