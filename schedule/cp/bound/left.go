package bound

import (
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// Grouping anew: what the jobs of one family served that were taken out is shared
// among new jobs by a cheapest walk of its own, one drawn from all there are.

// leftUnits is how many units are walked at the most, the soonest due first: it is asked again
// and again, and no plan makes so many at once.
const leftUnits = 20_000

// CoverLeft walks what is unmet of a family and due in a stretch, leftUnits of it at the most.
func CoverLeft(s *chain.Schedule, family int, within problem.Span) *coverer {
	f := &s.Model.Families[family]
	c := &coverer{s: s, family: family, serves: f.Serves, ahead: uneven(s.Model, family), states: 1, modeFor: modeForUnits(f)}
	for _, d := range s.Prep.ByDue[family] {
		if within.Holds(s.Model.Demands[d].Due) {
			c.owe(d, min(s.Unmet[d], leftUnits-len(c.Units)))
		}
	}
	c.inOrder()
	return c
}
