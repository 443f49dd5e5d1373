package judge

import "ripeby/resources"

// checkOverdue: work that the earlier plan had before the planning start, and that has not begun, tells since
// when it is overdue, and goes on telling it while its batch is under way, or it stays where it was put anew;
// nothing else does, nor what is looked at again later, nor what follows on that.
func checkOverdue(h *hearing) {
	for _, l := range h.lots {
		for i := l.begun; l.sound && i < len(l.batch.Stages); i++ {
			t, was, want := &l.batch.Stages[i], h.earlierTask(l, i), resources.Moment(0)
			if was != nil && was.Work > 0 && t.Work > 0 {
				if was.Start < h.from {
					want = was.Start
				}
				if was.Overdue > 0 && (l.begun > 0 || was.Start == t.Start) {
					want = was.Overdue
				}
			}
			for _, x := range h.problem.Looks {
				if x.Batch == l.batch.ID && l.recipe.StageNumber(x.Stage) <= i {
					want = 0
				}
			}
			if t.Overdue != want {
				h.failStage("overdue", l, i, "", "got it overdue since %s, want %s", h.when(t.Overdue), h.when(want))
			}
		}
	}
}
