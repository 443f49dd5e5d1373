package tiny

import "ripeby/schedule/cp/problem"

// InForce makes the jobs of a result the hints of its model.
func InForce(m *problem.Model, r *problem.Result) *problem.Model {
	out := *m
	out.Hints = nil
	for i := range r.Jobs {
		j := &r.Jobs[i]
		h := problem.Hint{Family: j.Family, Begun: j.Begun, Stock: -1, Shares: j.Shares, Starts: j.Starts, Kept: j.Kept,
			Exact: &problem.Exact{Mode: j.Mode, Workers: j.Workers, Choices: j.Choices, Intake: j.Intake}}
		for _, p := range j.Stays {
			h.Exact.Spaces = append(h.Exact.Spaces, p.Space)
			h.Stood = append(h.Stood, p.Stacks)
		}
		out.Hints = append(out.Hints, h)
	}
	for i := range r.Stocks {
		out.Hints = append(out.Hints, problem.Hint{Family: m.Stocks[i].Family, Begun: -1, Stock: i, Shares: r.Stocks[i].Shares})
	}
	return &out
}
