package bound

import (
	"sort"

	"ripeby/schedule/cp/chain"
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
	if !s.Ranges(q) {
		return s.Model.From, s.Model.Horizon
	}
	return q.Lo[n-1] + bg.Mode.Acts[n-1].Work, q.Hi[n-1] + bg.Mode.Acts[n-1].Work
}

// Alone is what the rest of a job under way comes to at the least with the kitchen to itself:
// how late it is, and what it costs when it is no later. Not OK where it cannot go on. Open where
// there was no work to find out: then it may be in time, at no cost, for all that is known.
type Alone struct {
	OK, Open      bool
	Late, Penalty int64
	Work          int64 // counted, to find it out
}

// AloneUnderWay is what a job under way comes to alone.
func (x *Relaxation) AloneUnderWay(s *chain.Schedule, b int) Alone {
	if known, ok := x.alone[b]; ok {
		return known
	}
	a := Alone{OK: true}
	switch {
	case len(s.Model.Begun[b].Starts) == len(s.Model.Begun[b].Mode.Acts):
	case x.AloneMost != 0 && x.AloneSpent >= x.AloneMost || s.CalledOff():
		a.Open = true
	default:
		before := s.Spent
		j, ok := s.CarryAlone(b)
		if a = (Alone{OK: ok, Work: s.Spent - before}); ok {
			a.Late, a.Penalty = j.Late, s.SurePenalty(b, j)
		}
		x.AloneSpent += a.Work
	}
	x.alone[b] = a
	return a
}

// Knows has it known what a job under way comes to alone, from another model in which that job is the
// same. It counts as if it were found out here.
func (x *Relaxation) Knows(s *chain.Schedule, b int, a Alone) {
	x.alone[b] = a
	s.Spent += a.Work
}
