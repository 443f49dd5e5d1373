package chain

import "ripeby/schedule/cp/problem"

// CarryOnSoon places a job under way whose next activity begins in a stretch of time, and what
// follows in its time as far as that goes: the tables have a few days and not all that there are,
// and what it costs does not matter. False where it finds no such way; there may be one.
func (s *Schedule) CarryOnSoon(b int, shares []problem.Share, in problem.Span) (*problem.Job, bool) {
	bg := &s.Model.Begun[b]
	q := s.BegunQuery(b, shares)
	if q.From == len(bg.Mode.Acts) {
		return s.CarryOn(b, shares)
	}
	q.flat, q.soonest, q.latest = true, in.From, latestIn(&bg.Mode, q.From, in.Until, bg.Latest)
	j, ok := s.Place(q)
	if !ok {
		return nil, false
	}
	j.Family, j.Mode, j.Begun, j.Shares, j.Intake = bg.Family, -1, b, shares, -1
	return j, true
}

// latestIn are the latest starts of a mode's activities from k on when that begins before a moment and
// no lag runs past its time, and before their latest.
func latestIn(mode *problem.Mode, k, until int, latest []int) []int {
	out := make([]int, len(mode.Acts))
	at := until - 1
	for i := k; i < len(out); i++ {
		if out[i] = at; latest != nil {
			out[i] = min(at, latest[i])
		}
		lag := &mode.Acts[i].Lag
		at += mode.Acts[i].Work + lag.Most
		if lag.Late != nil {
			at += lag.InTime - lag.Most
		}
	}
	return out
}
