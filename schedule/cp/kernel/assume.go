package kernel

// Core is, after Impossible under assumptions, a set of them that together with
// the constraints cannot hold; empty when the constraints alone cannot. It need not
// be a least set. The slice is good until the next search.
func (s *Solver) Core() []Lit { return s.core }

// blame finds the assumptions from which the negation of one follows.
func (s *Solver) blame(l Lit, before []Lit) {
	s.core = append(s.core[:0], l)
	s.want(l.Not(), 0)
	var scratch []Lit
	for at := len(s.trail) - 1; at >= 0; at-- {
		e := &s.trail[at]
		if s.need[e.b] == unset || s.need[e.b] <= e.old {
			continue
		}
		need := Lit{e.b, s.need[e.b]}
		s.drop(e.b)
		if e.why.n == whyDecision {
			for _, a := range before {
				if a.B == e.b && a.V == e.v {
					s.core = append(s.core, a)
					break
				}
			}
			continue
		}
		scratch = s.premises(scratch[:0], need, e.why)
		for _, p := range scratch {
			s.want(p, 0)
		}
	}
	for _, b := range s.touched {
		s.drop(b)
	}
	s.touched = s.touched[:0]
}
