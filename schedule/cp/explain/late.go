package explain

import (
	"slices"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
)

// asItRuns is the model in which jobs under way that are late or stuck in a plan are in time,
// with that plan's delay for a limit: what they hold is a fact. It gives false for one that is
// stuck before it began.
func asItRuns(s *search.Plan) (*problem.Model, bool) {
	m := *s.Model
	m.Begun = slices.Clone(s.Model.Begun)
	for _, j := range s.Jobs {
		if j.Begun < 0 {
			continue
		}
		b := &m.Begun[j.Begun]
		k := len(b.Starts)
		switch {
		case j.Stuck && k == 0:
			return nil, false
		case j.Stuck:
			*b = b.Held(m.Horizon - b.Starts[k-1])
		case j.Late > 0:
			b.Mode.Acts = slices.Clone(b.Mode.Acts)
			lag := &b.Mode.Acts[k-1].Lag
			most := j.Starts[k] - b.Starts[k-1] - b.Mode.Acts[k-1].Work
			cost := append([]int32(nil), lag.Cost...)
			for len(cost) > 0 && len(cost) <= most-lag.Least {
				cost = append(cost, cost[len(cost)-1])
			}
			lag.Most, lag.Cost = max(lag.Most, most), cost
		}
	}
	return &m, true
}
