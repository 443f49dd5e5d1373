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

// ToldTo is who the earlier plan's work of a stage of a batch is told to, and whether that is settled
// whenever it is: work that somebody has taken on since.
func (p *Problem) ToldTo(batch string, t *Task) (who string, settled bool) {
	if by := p.takersOf(batch, t.Stage); len(by) > 0 && t.Work > 0 {
		return by[0], true
	}
	return t.Who, false
}

// takersOf is who has taken the work of a stage on: nobody or one.
func (p *Problem) takersOf(batch, stage string) (who []string) {
	for _, x := range p.TakenOn {
		if x.Batch == batch && x.Stage == stage {
			who = append(who, x.Who)
		}
	}
	return who
}

// OtherwisePoints is the bother of a task that the earlier plan had after the settled time and a plan
// has not, or otherwise.
const OtherwisePoints = 3
