package explain

import (
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
)

// asItRuns makes of the jobs under way that are late or stuck in a plan ones that are
// in time, with that plan's delay for a limit: what they hold is a fact. It gives false
// for one that is stuck before it began.
func asItRuns(s *search.Plan, m *problem.Model) bool {
	for _, j := range s.Jobs {
		if j.Begun < 0 {
			continue
		}
		b := &m.Begun[j.Begun]
		k := len(b.Starts)
		switch {
		case j.Stuck && k == 0:
			return false
		case j.Stuck:
			*b = b.Held(m.Horizon - b.Starts[k-1])
		case j.Late > 0:
			lag := &b.Mode.Acts[k-1].Lag
			most := j.Starts[k] - b.Starts[k-1] - b.Mode.Acts[k-1].Work
			cost := append([]int32(nil), lag.Cost...)
			for len(cost) > 0 && len(cost) <= most-lag.Least {
				cost = append(cost, cost[len(cost)-1])
			}
			lag.Most, lag.Cost = max(lag.Most, most), cost
		}
	}
	return true
}
