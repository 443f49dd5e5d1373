package kernel

// Root is the lower bound of a view with no decision: what needs no reason.
func (s *Solver) Root(b View) int32 { return s.root[b] }

// Rouse has a propagator that was added before woken by more views, and run with
// the next search. It ends decisions in force. The propagator is none that listens.
func (s *Solver) Rouse(p Propagator, wake ...View) {
	s.backTo(0)
	for k := range s.props {
		if s.props[k].p != p {
			continue
		}
		for _, b := range wake {
			s.wakes[b] = append(s.wakes[b], waking{int32(k), 0})
		}
		s.enqueueProp(int32(k))
	}
}
