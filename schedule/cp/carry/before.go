package carry

import "ripeby/schedule/cp/problem"

// asBefore carries on a job under way as the earlier plan did, late where that was late.
func (s *Carrier) asBefore(b int, serve []problem.Share) (*problem.Job, bool) {
	bg := &s.Model.Begun[b]
	h := s.hintOf(b)
	k := len(bg.Starts)
	if h == nil || h.Exact == nil || k == 0 || k == len(bg.Mode.Acts) || len(h.Starts) != len(bg.Mode.Acts) || !h.Exact.Fits(&bg.Mode, k) {
		return nil, false
	}
	q := s.BegunQuery(b, serve)
	q.Exact, q.Stood, q.As, q.Firm = h.Starts, h.Stood, h.Exact, true
	j, ok := s.Place(q)
	if !ok {
		return nil, false
	}
	j.Family, j.Mode, j.Begun, j.Shares = bg.Family, -1, b, serve
	return j, true
}

// hintOf is the earlier plan's job under way, nil for none.
func (s *Carrier) hintOf(b int) *problem.Hint {
	for i := range s.Model.Hints {
		if h := &s.Model.Hints[i]; h.Begun == b {
			return h
		}
	}
	return nil
}
