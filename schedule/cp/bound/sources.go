package bound

import (
	"sort"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// Sources are the stock and jobs under way of one family, soonest first.
func (x *Relaxation) Sources(s *chain.Schedule, family int) []Source {
	var out []Source
	for i := range s.Model.Stocks {
		st := &s.Model.Stocks[i]
		if st.Family == family && st.Units > 0 {
			out = append(out, Source{i, -1, st.Units, st.Ready, st.Ready})
		}
	}
	for b := range s.Model.Begun {
		bg := &s.Model.Begun[b]
		if bg.Family == family && bg.Mode.Units > 0 {
			lo, hi := x.begunReady(s, b)
			out = append(out, Source{-1, b, bg.Mode.Units, lo, hi})
		}
	}
	sort.SliceStable(out, func(i, k int) bool { return out[i].ReadyMin < out[k].ReadyMin })
	return out
}

// begunReady is when a job under way can be ready, by its lags alone.
func (x *Relaxation) begunReady(s *chain.Schedule, b int) (lo, hi int) {
	bg := &s.Model.Begun[b]
	n := len(bg.Mode.Acts)
	if k := len(bg.Starts); k == n {
		t := bg.Starts[n-1] + bg.Mode.Acts[n-1].Work
		return t, t
	}
	q := s.BegunQuery(b, nil)
	if s.Ranges(q) {
		if _, ok := carryAlone(s, b); ok {
			return q.Lo[n-1] + bg.Mode.Acts[n-1].Work, q.Hi[n-1] + bg.Mode.Acts[n-1].Work
		}
	}
	x.lateAlone[b] = true
	if len(bg.Starts) == 0 {
		return s.Model.From, s.Model.Horizon
	}
	q.Late = s.Model.Horizon - bg.Starts[len(bg.Starts)-1]
	if s.Ranges(q) {
		return q.Lo[n-1] + bg.Mode.Acts[n-1].Work, s.Model.Horizon
	}
	return s.Model.From, s.Model.Horizon
}

// carryAlone places a job under way, in time, with the kitchen to itself.
func carryAlone(s *chain.Schedule, b int) (*problem.Job, bool) {
	alone := s.Prep.Empty(s.Model)
	alone.Homes = s.Homes
	before := alone.Spent
	j, ok := alone.Place(alone.BegunQuery(b, nil))
	s.Spent += alone.Spent - before
	alone.Spent = before
	return j, ok
}

// begunPenalty is the least that the rest of a job under way can cost.
func (x *Relaxation) begunPenalty(s *chain.Schedule, b int) int64 {
	if len(s.Model.Begun[b].Starts) == len(s.Model.Begun[b].Mode.Acts) {
		return 0
	}
	if known, ok := x.alone[b]; ok {
		return known
	}
	penalty := int64(0)
	if j, ok := carryAlone(s, b); ok {
		penalty = j.Penalty
	}
	x.alone[b] = penalty
	return penalty
}
