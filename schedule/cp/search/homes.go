package search

import (
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// otherHomes are plans whose boxes stand in other ways at the planning start; none
// when every place is known or there is no choice.
func (s *Plan) otherHomes() []*Plan {
	var out []*Plan
	seen := [][]problem.StayPlace{s.AllHomes()}
	for a := usage.Arrangement(1); a < usage.Arrangements; a++ {
		o := s.Emptied(s.Model)
		o.Arranged = a
		o.SettleHomes()
		o.Arranged = 0
		homes := o.AllHomes()
		same := false
		for _, h := range seen {
			same = same || sameHomes(h, homes)
		}
		if !same {
			seen = append(seen, homes)
			out = append(out, o)
		}
	}
	return out
}

func sameHomes(a, b []problem.StayPlace) bool {
	for i := range a {
		if a[i].Space != b[i].Space || a[i].Homeless != b[i].Homeless || len(a[i].Stacks) != len(b[i].Stacks) {
			return false
		}
		for k := range a[i].Stacks {
			if a[i].Stacks[k] != b[i].Stacks[k] {
				return false
			}
		}
	}
	return true
}
