package chain

import "ripeby/schedule/cp/problem"

// What has begun and cannot be ended in time is ended as soon as it can be.

// carryLate lets the running lag go beyond its most: its end comes as soon as it
// can, whatever is served, and the rest follows from there.
func (s *Schedule) carryLate(b int, shares []problem.Share) (*problem.Job, bool) {
	bg := &s.Model.Begun[b]
	if k := len(bg.Starts); k == 0 || k == len(bg.Mode.Acts) || bg.Mode.Acts[k-1].Lag.Late == nil {
		return nil, false
	}
	if len(shares) > 0 {
		if _, ok := s.Place(s.BegunQuery(b, nil)); ok {
			return nil, false // in time without the shares: then they are not served
		}
	}
	if s.endless(b) {
		return nil, false
	}
	q := s.lateQuery(b)
	j, ok := s.placeLate(q)
	if !ok {
		return nil, false
	}
	at := j.Starts[q.From]
	late := at - (q.starts[q.From-1] + q.Mode.Acts[q.From-1].Work + q.Mode.Acts[q.From-1].Lag.Most)
	q = s.BegunQuery(b, shares)
	q.Late, q.soonest, q.pin, q.pinned, q.notBefore = s.Model.Horizon-q.starts[q.From-1], true, true, at, at
	j, ok = s.Place(q)
	if ok {
		j.Late = max(late, 0)
	}
	return j, ok
}

// lateQuery asks for the end of the running lag of a job under way as soon as it
// can be, however late.
func (s *Schedule) lateQuery(b int) *query {
	q := s.BegunQuery(b, nil)
	q.Late, q.soonest, q.flat, q.notBefore = s.Model.Horizon-q.starts[q.From-1], true, true, s.Model.From
	return q
}

// placeLate answers a late query: as soon as can be, else when something has been
// released that may have been in the way.
func (s *Schedule) placeLate(q *query) (*problem.Job, bool) {
	j, ok := s.Place(q)
	for tries := 0; !ok && tries < releasesTried; tries++ {
		next := s.nextRelease(q)
		if next >= problem.Infinite {
			break
		}
		q.notBefore = next
		j, ok = s.Place(q)
	}
	return j, ok
}

// releasesTried is how many moments at which something is released a job under way
// waits for before it counts as stuck.
const releasesTried = 200

// nextRelease is when, after the query's notBefore, the next unit of a pool that
// the rest of the job could use is released and clean; Infinite for never. What
// cannot be placed as soon as it might be, by way of its own kit still in hand or
// being cleaned, may be when others give theirs back.
func (s *Schedule) nextRelease(q *query) int {
	next := problem.Infinite
	for r := range q.Mode.Runs {
		if own := &q.Mode.Runs[r]; own.First < q.From {
			if i := own.Last + 1; i < q.From {
				until := q.starts[i] + q.Mode.Acts[i].Work + own.Choices[q.choices[r]].Clean
				if until > max(q.notBefore, s.Model.From) {
					next = min(next, until)
				}
			}
			continue
		}
		for _, c := range q.Mode.Runs[r].Choices {
			for _, o := range s.Pools[c.Pool] {
				if o.Until > max(q.notBefore, s.Model.From) {
					next = min(next, o.Until)
				}
			}
		}
	}
	return next
}

// endless reports whether a job under way could not go on even with the kitchen
// to itself. It is asked once: there is much to try before that is known.
func (s *Schedule) endless(b int) bool {
	if is, known := s.Prep.endless[b]; known {
		return is
	}
	alone := s.Prep.Empty(s.Model)
	alone.Homes = s.Homes
	before := alone.Spent
	_, ok := alone.placeLate(alone.lateQuery(b))
	s.Spent += alone.Spent - before
	s.Prep.endless[b] = !ok
	return !ok
}
