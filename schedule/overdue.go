package schedule

import "slices"

// MarkOverdue marks the work of a plan that is overdue: it has not begun, and the earlier plan had it before
// the planning start, or told that it was overdue by then. It tells since when. What somebody looks at
// again later is not, nor what follows on it. A batch that has not begun is planned anew: its work is
// overdue for as long as it stays where it was put then.
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
			looked := slices.ContainsFunc(p.Looks, func(l Look) bool { return l.Batch == b.ID && r.StageNumber(l.Stage) <= r.StageNumber(t.Stage) })
			switch {
			case looked:
			case was.Overdue != 0 && (b.Begun || was.Start == t.Start):
				t.Overdue = was.Overdue
			case was.Start < p.From:
				t.Overdue = was.Start
			}
		}
	}
}
