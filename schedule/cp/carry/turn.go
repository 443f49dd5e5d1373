package carry

import (
	"sort"

	"ripeby/schedule/cp/problem"
)

// Jobs under way are put in force in turn: the most urgent first, or, when that
// does not work out, in an order in which nobody counts on what may not come.

// All puts all jobs under way in force, the most urgent first, each with as
// much of what it is to serve as it can. While a job waits for its turn, what it
// holds already is in force, for as long as it must hold it at the least. When a
// job then gets stuck because one before it counted on less, all begin again as in
// beginSafely.
func (s *Carrier) All(serve [][]problem.Share, starts [][]int) {
	m := s.Model
	turn := problem.UpTo(len(m.Begun))
	sort.SliceStable(turn, func(i, k int) bool { return m.Begun[turn[i]].DueBy() < m.Begun[turn[k]].DueBy() })
	waiting := make([]*problem.Job, len(turn))
	for _, b := range turn {
		waiting[b] = s.Waits(b)
		s.Add(waiting[b])
	}
	stuck, h := false, newHaste(s)
	for _, b := range turn {
		s.Remove(waiting[b])
		j := s.begin(b, serve[b], starts[b], h)
		s.Add(j)
		stuck = stuck || j.Stuck
	}
	if !stuck || len(turn) == 1 {
		return
	}
	s.RemoveAll()
	if s.beginSafely(turn, serve, starts) || s.OutOfWork() {
		return
	}
	// A job that stays for what it serves may be what another waits for.
	s.RemoveAll()
	s.beginSafely(turn, make([][]problem.Share, len(serve)), make([][]int, len(starts)))
}

// beginSafely puts jobs under way in force one after another, each beside all
// that the others hold now, as if they held it for ever. So nobody counts on what
// may not come. Those that no order lets go on are stuck, and it reports false.
//
// This is the safe sequence of Dijkstra's banker ("Een algorithme ter voorkoming
// van de dodelijke omarming", EWD 108, 1965).
func (s *Carrier) beginSafely(turn []int, serve [][]problem.Share, starts [][]int) bool {
	turn = append([]int(nil), turn...)
	held := make([]*problem.Job, len(turn))
	for _, b := range turn {
		held[b] = s.Waits(b)
		held[b].Ready, held[b].End = problem.Infinite, problem.Infinite
		s.Add(held[b])
	}
	h := newHaste(s)
	for some := true; h.again(some); {
		some = false
		for x := 0; x < len(turn); x++ {
			b := turn[x]
			s.Remove(held[b])
			j := s.begin(b, serve[b], starts[b], h)
			if j.Stuck {
				s.Add(held[b]) // it may go on when others have
				continue
			}
			s.Add(j)
			turn = append(turn[:x:x], turn[x+1:]...)
			x, some = x-1, true
		}
	}
	return len(turn) == 0
}

// begin places a job under way: as it was planned before if that still holds, else
// with as much of the shares as it can, or in haste where there is no work left for that.
func (s *Carrier) begin(b int, serve []problem.Share, starts []int, h *haste) *problem.Job {
	if starts != nil {
		if j, ok := s.asBefore(b, serve); ok {
			return j
		}
		q := s.BegunQuery(b, serve)
		if q.From < len(starts) && len(starts) == len(q.Mode.Acts) {
			q.Exact = starts
			if j, ok := s.Place(q); ok {
				j.Family, j.Mode, j.Begun, j.Shares = s.Model.Begun[b].Family, -1, b, serve
				return j
			}
		}
	}
	if s.OutOfWork() {
		return h.begin(b, serve)
	}
	var best *problem.Job
	var least problem.Cost
	for _, p := range s.parts(serve) {
		j, ok := s.CarryOn(b, p.shares)
		if !ok {
			continue
		}
		j.Shares = p.shares
		cost := p.value.Plus(s.JobCost(j))
		if best == nil || cost.Less(least) {
			best, least = j, cost
		}
		if !j.Stuck && j.Late == s.Relax.AloneUnderWay(s.Schedule, b).Late {
			break // what is left is worth less, and no less late
		}
	}
	return best // CarryOn without shares, which parts ends with, always can
}

// Waits is a job under way as far as it has come, holding what it holds until its
// next activity can start at the soonest.
func (s *Carrier) Waits(b int) *problem.Job {
	bg := &s.Model.Begun[b]
	j := s.LeftWhereItIs(b)
	k := len(bg.Starts)
	if k == 0 {
		return j
	}
	worked := bg.Starts[k-1] + bg.Mode.Acts[k-1].Work
	j.End = max(s.First, problem.CeilTo(worked+bg.Mode.Acts[k-1].Lag.At(worked).Least, s.Model.Step))
	if k < len(bg.Mode.Acts) {
		j.Ready = j.End
	}
	return j
}
