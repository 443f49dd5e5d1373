package explain

import (
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/statement"
)

// Soonest is the least tick of the grid by which the demand can have so many units ready, no
// sooner than the one before from; ok is false where there is no plan at all for them, or none
// was found. Known is false where the work allowed did not tell whether it could be sooner; it
// gives up after a few questions that were not answered.
func (q *Inquiry) Soonest(units, from int) (ready int, known, ok bool) {
	none := q.none()
	step, due := q.r.plan.Model.Step, q.r.plan.Model.Demands[q.demand].Due
	from = problem.FloorTo(from, step)                  // work that is yet to be done ends on the grid
	lo, hi, known := 0, max((due-from)/step, 0)+1, true // in steps after from, hi ticks are too many
	if q.found() < units {
		if is := q.ask(units, none); is != kernel.Solved {
			return 0, is == kernel.Impossible && q.left == nil, false
		}
		q.keep(q.r.found())
	}
	hi = min(hi, max((readyIn(q.best, q.demand)-from+step-1)/step, 0))
	for open := 0; lo < hi && open < openMost; {
		mid := (lo + hi) / 2
		is := q.ask(units, none, func(k *statement.Statement) kernel.Lit { return k.ReadyBy(q.demand, from+mid*step) })
		switch is {
		case kernel.Solved:
			hi = min(mid, max((readyIn(q.r.found(), q.demand)-from+step-1)/step, 0))
		case kernel.Impossible:
			lo, known = mid+1, known && q.left == nil
		default:
			lo, known = mid+1, false
			open++
		}
	}
	return from + hi*step, known, true
}

// openMost is after how many unanswered questions about the time no more are asked.
const openMost = 2

// readyIn is when the last unit that a demand gets in a plan is ready.
func readyIn(s *search.Plan, demand int) int {
	last := -problem.Infinite
	for _, j := range s.Jobs {
		if problem.UnitsFor(j.Shares, demand) > 0 {
			last = max(last, j.Ready)
		}
	}
	for i := range s.Stocks {
		if problem.UnitsFor(s.Stocks[i].Shares, demand) > 0 {
			last = max(last, s.Model.Stocks[i].Ready)
		}
	}
	return last
}
