package explain

import (
	"slices"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/statement"
)

// Fit is a plan that gives the demand its units.
type Fit struct {
	Result *problem.Result
	Moved  int // jobs of the plan in force that are otherwise than they were, but for their size
}

// fitShare is the part of the work left that the search for any plan that fits may take.
const fitShare = 4

// Fits is [Inquiry.FitsUnmoved], and [Inquiry.FitsMoved] where there is none.
func (q *Inquiry) Fits(units int) (fit *Fit, known bool) {
	if fit = q.FitsUnmoved(units); fit != nil {
		return fit, true
	}
	return q.FitsMoved(units)
}

// FitsUnmoved looks for a plan that gives the demand so many units with every job as it is;
// nil where there is none.
func (q *Inquiry) FitsUnmoved(units int) *Fit {
	kept := q.all()
	if q.ask(units, kept) != kernel.Solved {
		return nil
	}
	return q.least(units, kept, q.r.found())
}

// FitsMoved looks for a plan that gives the demand so many units, moves as little of what was told for
// the settled time as it can, and then leaves as many jobs as they are as it can; nil when there is none, or none was found: then known tells which.
func (q *Inquiry) FitsMoved(units int) (fit *Fit, known bool) {
	if q.beside() < units {
		callOff := q.within(fitShare)
		is := q.ask(units, q.none())
		callOff()
		if is != kernel.Solved {
			return nil, is == kernel.Impossible && q.surely(units) == kernel.Impossible
		}
		q.keep(q.r.found())
	}
	if q.best == nil { // nothing more was asked for, and the work ended before that was told
		return nil, false
	}
	q.calmly(units)
	defer func() { q.calm = nil }()
	best, kept := q.best, q.none()
	q.resized = q.none()
	defer func() { q.resized = nil }()
	for i, j := range q.jobs {
		at := slices.IndexFunc(best.Jobs, j.StandsAs)
		kept[i] = at >= 0
		q.resized[i] = at >= 0 && best.Jobs[at].Mode != j.Mode
	}
	for i := range kept {
		if kept[i] {
			continue
		}
		kept[i] = true
		if q.ask(units, kept) == kernel.Solved {
			best = q.r.found()
		} else {
			kept[i] = false
		}
	}
	return q.least(units, kept, best), true
}

// calmly looks for plans that move less of what was told than the best that was found, none of it at
// first, and has what is asked from here on move no more.
func (q *Inquiry) calmly(units int) {
	if !q.r.plan.Model.Calm() {
		return
	}
	defer q.within(fitShare)()
	cost := q.best.Cost()
	q.calm = &cost
	for try := int64(0); cost.Moved > 0 && try < cost.Moved; try = cost.Moved - 1 {
		less := cost
		less.Moved = try
		if q.calm = &less; q.ask(units, q.none()) == kernel.Solved {
			q.best = q.r.found()
			cost = q.best.Cost()
		} else if try > 0 || cost.Moved == 1 {
			break
		}
	}
	q.calm = &cost
}

// least is the plan that was found, or one with as much kept that takes less.
func (q *Inquiry) least(units int, kept []bool, best *search.Plan) *Fit {
	best = q.fewest(units, kept, best)
	n := 0
	for i := range kept {
		if !kept[i] {
			n++
		}
	}
	return &Fit{Result: q.settled(best, kept), Moved: n}
}

// fewest asks for the same with fewer jobs, then with less moved, and then for less of an amount.
func (q *Inquiry) fewest(units int, kept []bool, best *search.Plan) *search.Plan {
	parts := []int{problem.PartJobs, problem.PartMoved, problem.PartAmount}
	for i, part := range parts {
		for {
			cost := best.Cost()
			no := func(part int, more int32) func(*statement.Statement) kernel.Lit {
				return func(k *statement.Statement) kernel.Lit { return k.Cost[part].Le(k.Value(cost, part) - more) }
			}
			than := []func(*statement.Statement) kernel.Lit{no(part, 1)}
			for _, before := range parts[:i] {
				than = append(than, no(before, 0))
			}
			if cost.Parts()[part] == 0 || q.ask(units, kept, than...) != kernel.Solved {
				break
			}
			best = q.r.found()
		}
	}
	return best
}

// settled places every job that is new or may move once more, at its best beside all others.
func (q *Inquiry) settled(s *search.Plan, kept []bool) *problem.Result {
	for _, j := range slices.Clone(s.Jobs) {
		if j.Begun >= 0 || q.isKept(j, kept) {
			continue
		}
		s.Remove(j)
		again, ok := s.PlaceOrder(j.Family, j.Shares)
		if !ok || again.Mode != j.Mode || !better(s.JobCost(again), s.JobCost(j)) {
			again = j
		}
		s.Add(again)
	}
	q.r.plan.Spent += s.Spent
	return s.Result(problem.Cost{Early: -problem.Infinite})
}

// better reports whether what a job moves of what was told, and then its penalty, is no more than before.
func better(c, before problem.Cost) bool {
	return c.Moved < before.Moved || c.Moved == before.Moved && c.Penalty <= before.Penalty
}

// isKept reports whether a job is one that stays as it is.
func (q *Inquiry) isKept(j *problem.Job, kept []bool) bool {
	if b := q.r.s.Frozen; b != nil && slices.Contains(b.Jobs, j) {
		return true
	}
	for i, o := range q.jobs {
		if kept[i] && o.StandsAs(j) {
			return true
		}
	}
	return false
}
