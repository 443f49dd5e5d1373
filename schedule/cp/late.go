package cp

// What has begun and cannot be ended in time is ended as soon as it can be.

// carryLate lets the running lag go beyond its most: its end comes as soon as it
// can, whatever is served, and the rest follows from there.
func (s *schedule) carryLate(b int, shares []Share) (*Job, bool) {
	bg := &s.m.Begun[b]
	if k := len(bg.Starts); k == 0 || k == len(bg.Mode.Acts) || bg.Mode.Acts[k-1].Lag.Late == nil {
		return nil, false
	}
	if len(shares) > 0 {
		if _, ok := s.place(s.begunQuery(b, nil)); ok {
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
	at := j.Starts[q.k]
	late := at - (q.starts[q.k-1] + q.mode.Acts[q.k-1].Work + q.mode.Acts[q.k-1].Lag.Most)
	q = s.begunQuery(b, shares)
	q.late, q.soonest, q.pin, q.pinned, q.notBefore = s.m.Horizon-q.starts[q.k-1], true, true, at, at
	j, ok = s.place(q)
	if ok {
		j.Late = max(late, 0)
	}
	return j, ok
}

// lateQuery asks for the end of the running lag of a job under way as soon as it
// can be, however late.
func (s *schedule) lateQuery(b int) *query {
	q := s.begunQuery(b, nil)
	q.late, q.soonest, q.flat, q.notBefore = s.m.Horizon-q.starts[q.k-1], true, true, s.m.From
	return q
}

// placeLate answers a late query: as soon as can be, else when something has been
// released that may have been in the way.
func (s *schedule) placeLate(q *query) (*Job, bool) {
	j, ok := s.place(q)
	for tries := 0; !ok && tries < releasesTried; tries++ {
		next := s.nextRelease(q)
		if next >= Infinite {
			break
		}
		q.notBefore = next
		j, ok = s.place(q)
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
func (s *schedule) nextRelease(q *query) int {
	next := Infinite
	for r := range q.mode.Runs {
		if own := &q.mode.Runs[r]; own.First < q.k {
			if i := own.Last + 1; i < q.k {
				until := q.starts[i] + q.mode.Acts[i].Work + own.Choices[q.choices[r]].Clean
				if until > max(q.notBefore, s.m.From) {
					next = min(next, until)
				}
			}
			continue
		}
		for _, c := range q.mode.Runs[r].Choices {
			for _, o := range s.pools[c.Pool] {
				if o.until > max(q.notBefore, s.m.From) {
					next = min(next, o.until)
				}
			}
		}
	}
	return next
}

// endless reports whether a job under way could not go on even with the kitchen
// to itself. It is asked once: there is much to try before that is known.
func (s *schedule) endless(b int) bool {
	if is, known := s.prep.endless[b]; known {
		return is
	}
	alone := s.prep.empty(s.m)
	alone.homes = s.homes
	before := alone.spent
	_, ok := alone.placeLate(alone.lateQuery(b))
	s.spent += alone.spent - before
	s.prep.endless[b] = !ok
	return !ok
}
