package schedule

import "slices"

// MarkOverdue marks the work of a plan that is overdue: it has not begun, and the earlier plan had it before
// the planning start, or told that it was overdue by then. It tells since when. What somebody found not to be
// ready is not, nor what follows on it; and a batch that has not begun is planned anew, so that of its work
// only this plan says so.
func (p *Problem) MarkOverdue(plan *Plan) {
	if p.Earlier == nil {
		return
	}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		old, r := p.Earlier.Batch(b.ID), p.Recipe(b.Cheese)
		for k := range b.Stages {
			t := &b.Stages[k]
			was := old.Stage(t.Stage)
			if t.Begun || t.Work == 0 || was == nil || was.Work == 0 || r == nil {
				continue
			}
			notReady := slices.ContainsFunc(p.Held, func(h Held) bool { return h.Batch == b.ID && h.Stage < r.StageNumber(t.Stage) })
			switch {
			case notReady:
			case b.Begun && was.Overdue != 0:
				t.Overdue = was.Overdue
			case was.Start < p.From:
				t.Overdue = was.Start
			}
		}
	}
}
