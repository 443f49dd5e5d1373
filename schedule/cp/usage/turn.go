package usage

import (
	"ripeby/schedule/cp/problem"
)

func (s *Ledger) RemoveAll() {
	for _, j := range append([]*problem.Job(nil), s.Jobs...) {
		s.Remove(j)
	}
}
