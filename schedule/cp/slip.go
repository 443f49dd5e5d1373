package cp

import "slices"

// slipWork is the counted work that may go into the slips of one job. A season's jobs take
// a hundredth of it; a kitchen where starts that the chain's tables allow fail one after
// another, by days' limits or by how boxes stand, could take more.
const slipWork = 20_000_000

// fillSlips finds how early and how late each activity of a job may start with every
// other job as it is, its own activities before it fixed and those after it free. What
// has begun does not slip. Where the work allowed is not enough, SlipsCut is set, and
// what is not known slips no further than is.
func (s *schedule) fillSlips(j *Job, work int64) {
	j.Slips = append([]int(nil), j.Starts...)
	j.Soonest = append([]int(nil), j.Starts...)
	j.Shown, j.SlipsCut = make([][2]*Job, len(j.Starts)), false
	if j.Stuck {
		return
	}
	begun := 0
	if j.Begun >= 0 {
		begun = len(s.m.Begun[j.Begun].Starts)
	}
	until := s.spent + work
	s.remove(j)
	for i := begun; i < len(j.Starts); i++ {
		if j.Late > 0 && i == begun {
			continue // late already: as soon as it can be
		}
		q := s.slipQuery(j, i, begun)
		starts := s.startsOf(q, s.slipRange(j, i, q))
		sooner, _ := slices.BinarySearch(starts, j.Starts[i])
		later, _ := slices.BinarySearch(starts, j.Starts[i]+1)
		if first := s.farthest(q, j, starts[:sooner], until); first != nil {
			j.Soonest[i], j.Shown[i][0] = first.Starts[i], first
		}
		slices.Reverse(starts[later:])
		if last := s.farthest(q, j, starts[later:], until); last != nil {
			j.Slips[i], j.Shown[i][1] = last.Starts[i], last
		}
	}
	s.add(j)
}

// slipQuery asks for the job again with its activities before i fixed.
func (s *schedule) slipQuery(j *Job, i, begun int) *query {
	var q *query
	if j.Begun >= 0 {
		q = s.begunQuery(j.Begun, j.Shares)
	} else {
		q = s.query(j.Family, j.Mode, s.m.windowOf(j.Family, j.Shares))
	}
	homes := append([]StayPlace(nil), j.Stays...)
	for r := range q.homes {
		if s.modeOf(j).Stays[r].First < begun {
			homes[r] = q.homes[r]
		}
	}
	q.k, q.facts, q.homes = i, begun, homes
	q.starts, q.workers, q.choices = j.Starts[:i], j.Workers[:i], j.Choices
	q.flat, q.ceiling = true, unreachable
	return q
}

// slipRange is the range of starts of activity i that neither the lags nor the kitchen
// forbid but what is to stay as it is.
func (s *schedule) slipRange(j *Job, i int, q *query) Span {
	in := Span{From: -Infinite, Until: Infinite}
	switch {
	case i == 0 && j.Intake >= 0:
		// The intake is the one that was arranged for, no other.
		in = Span{From: s.m.Intakes[j.Intake].Ready, Until: s.m.Intakes[j.Intake].Until}
	case i > 0 && q.mode.Acts[i-1].Lag.Slip != nil:
		done := j.Starts[i-1] + q.mode.Acts[i-1].Work
		least, most := q.mode.Acts[i-1].Lag.Slip(j.Starts[i] - done)
		in = Span{From: done + least, Until: done + most}
	}
	return in
}

// startsOf lists the starts of activity k of a query within a range, both ends of it
// included, from which its tables know a way on, in order.
func (s *schedule) startsOf(q *query, in Span) []int {
	c, ok, _ := s.solve(q)
	if !ok {
		return nil
	}
	limit := Infinite
	if q.k > 0 {
		limit = c.fixedLimit()
	}
	var out []int
	for x, cost := range c.rest[q.k][0] {
		t := q.lo[q.k] + x*s.m.Step
		if cost >= unreachable || t > limit || t < in.From || t > in.Until {
			continue
		}
		if q.k > 0 {
			before := &q.mode.Acts[q.k-1]
			if _, allowed := before.Lag.costOf(t-q.starts[q.k-1]-before.Work, false); !allowed {
				continue
			}
		}
		out = append(out, t)
	}
	return out
}

// farthest is the job with its activity k at the first of the starts, the farthest off,
// from which it can be placed; nil when none is found.
func (s *schedule) farthest(q *query, has *Job, starts []int, until int64) *Job {
	for _, t := range starts {
		if s.spent >= until {
			has.SlipsCut = true
			return nil
		}
		pinned := *q
		pinned.pin, pinned.pinned = true, t
		if j, ok := s.place(&pinned); ok {
			j.Family, j.Mode, j.Begun, j.Shares = has.Family, has.Mode, has.Begun, has.Shares
			j.Intake, j.Late = has.Intake, has.Late
			return j
		}
	}
	return nil
}
