package usage

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
