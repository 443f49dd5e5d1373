package chain

import (
	"slices"

	"ripeby/schedule/cp/problem"
)

// SlipWork is the counted work that may go into the slips of one job. A season's jobs take
// a hundredth of it; a kitchen where starts that the chain's tables allow fail one after
// another, by days' limits or by how boxes stand, could take more.
const SlipWork = 20_000_000

// FillSlips finds how early and how late each activity of a job may start with every
// other job as it is, its own activities before it fixed and those after it free. What
// has begun does not slip. Where the work allowed is not enough, SlipsCut is set, and
// what is not known slips no further than is.
func (s *Schedule) FillSlips(j *problem.Job, work int64) {
	j.Slips = append([]int(nil), j.Starts...)
	j.Soonest = append([]int(nil), j.Starts...)
	j.Shown, j.SlipsCut = make([][2]*problem.Job, len(j.Starts)), false
	if j.Stuck {
		return
	}
	begun := 0
	if j.Begun >= 0 {
		begun = len(s.Model.Begun[j.Begun].Starts)
	}
	until := s.Spent + work
	s.Remove(j)
	for i := begun; i < len(j.Starts); i++ {
		if j.Late > 0 && i == begun {
			continue // late already: as soon as it can be
		}
		if s.Spent >= until {
			j.SlipsCut = true
			break
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
	s.Add(j)
}

// slipQuery asks for the job again with its activities before i fixed.
func (s *Schedule) slipQuery(j *problem.Job, i, begun int) *query {
	var q *query
	if j.Begun >= 0 {
		q = s.BegunQuery(j.Begun, j.Shares)
	} else {
		q = s.Query(j.Family, j.Mode, s.Model.WindowOf(j.Family, j.Shares))
	}
	homes := append([]problem.StayPlace(nil), j.Stays...)
	for r := range q.homes {
		if s.ModeOf(j).Stays[r].First < begun {
			homes[r] = q.homes[r]
		}
	}
	q.From, q.began, q.homes = i, begun, homes
	q.starts, q.workers, q.choices = j.Starts[:i], j.Workers[:i], j.Choices
	q.flat, q.ceiling = true, Unreachable
	return q
}

// slipRange is the range of starts of activity i that neither the lags nor the kitchen
// forbid but what is to stay as it is.
func (s *Schedule) slipRange(j *problem.Job, i int, q *query) problem.Span {
	in := problem.Span{From: -problem.Infinite, Until: problem.Infinite}
	switch {
	case i == 0 && j.Intake >= 0:
		// The intake is the one that was arranged for, no other.
		in = problem.Span{From: s.Model.Intakes[j.Intake].Ready, Until: s.Model.Intakes[j.Intake].Until}
	case i > 0 && q.Mode.Acts[i-1].Lag.Slip != nil:
		done := j.Starts[i-1] + q.Mode.Acts[i-1].Work
		least, most := q.Mode.Acts[i-1].Lag.Slip(j.Starts[i] - done)
		in = problem.Span{From: done + least, Until: done + most}
	}
	return in
}

// startsOf lists the starts of activity k of a query within a range, both ends of it
// included, from which its tables know a way on, in order.
func (s *Schedule) startsOf(q *query, in problem.Span) []int {
	c, ok, _ := s.solve(q)
	if !ok {
		return nil
	}
	limit := problem.Infinite
	if q.From > 0 {
		limit = c.fixedLimit()
	}
	var out []int
	for x, cost := range c.rest[q.From][0] {
		t := q.Lo[q.From] + x*s.Model.Step
		if cost >= Unreachable || t > limit || t < in.From || t > in.Until {
			continue
		}
		if q.From > 0 {
			before := &q.Mode.Acts[q.From-1]
			if _, allowed := before.Lag.CostOf(t-q.starts[q.From-1]-before.Work, false); !allowed {
				continue
			}
		}
		out = append(out, t)
	}
	return out
}

// farthest is the job with its activity k at the first of the starts, the farthest off,
// from which it can be placed; nil when none is found.
func (s *Schedule) farthest(q *query, has *problem.Job, starts []int, until int64) *problem.Job {
	for _, t := range starts {
		if s.Spent >= until {
			has.SlipsCut = true
			return nil
		}
		pinned := *q
		pinned.pin, pinned.pinned = true, t
		if j, ok := s.Place(&pinned); ok {
			j.Family, j.Mode, j.Begun, j.Shares = has.Family, has.Mode, has.Begun, has.Shares
			j.Intake, j.Late = has.Intake, has.Late
			return j
		}
	}
	return nil
}
