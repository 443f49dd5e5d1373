package chain

import "ripeby/schedule/cp/problem"

// What an earlier plan told counts before what waiting costs, and after being late: a piece of
// work in the settled time that is otherwise weighs more than the waiting of a chain, and less
// than a bit of lateness as long as that leaves room for it (lateness.go). The tables of chains
// alone know nothing of it.

// unrestWeight is more than a chain's waiting costs, but for one that waits for weeks.
const unrestWeight = 1 << 14

// Calm has a query count what is otherwise than an earlier plan told of each activity, nil for
// nothing.
func (s *Schedule) Calm(q *query, told []problem.Told) {
	if !s.Model.Calm() {
		return
	}
	q.told, q.unrest = told, unrestWeight
	for i := range q.Mode.Acts {
		if w := s.Prep.lags[&q.Mode.Acts[i]].weight; w > 0 {
			q.unrest = min(q.unrest, max(w/int32(2*len(q.Mode.Acts)), 1))
		}
	}
}

// unrestCost is what work of an activity costs at a start by a worker that is otherwise than told.
func (s *Schedule) unrestCost(q *query, i, start, worker int) int32 {
	t := problem.ToldOf(q.told, i)
	if t.As == problem.ToldNothing && start >= s.Model.SettledUntil() {
		return 0
	}
	u := s.Model.UnrestAt(t, start, worker)
	return int32(u.Moved)*q.unrest + int32(u.Points)
}
