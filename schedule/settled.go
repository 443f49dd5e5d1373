package schedule

import "ripeby/resources"

// Settled is the time in which nothing is moved without need of what the earlier plan told: so long
// from the planning start as the kitchen says. It is empty without an earlier plan.
func (p *Problem) Settled() resources.Span {
	if p.Earlier == nil {
		return resources.Span{From: p.From, Until: p.From}
	}
	return resources.Span{From: p.From, Until: p.From.Add(p.Kitchen.Settled)}
}

// ToldTo is who the earlier plan's work of a stage of a batch is told to, and whether somebody has taken it
// on since: then it counts as moved, whenever it is, where anybody else does it.
func (p *Problem) ToldTo(batch string, t *Task) (who string, taken bool) {
	for _, x := range p.TakenOn {
		if x.Batch == batch && x.Stage == t.Stage && t.Work > 0 {
			return x.Who, true
		}
	}
	return t.Who, false
}

// OtherwisePoints is the bother of a task that the earlier plan had after the settled time and a plan
// has not, or otherwise.
const OtherwisePoints = 3
