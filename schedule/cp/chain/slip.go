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
	mode := s.noLater(j)
	if mode != s.ModeOf(j) {
		defer s.forget(mode)
	}
	for i := begun; i < len(j.Starts); i++ {
		if i > 0 && overruns(s.ModeOf(j), j, i-1) {
			continue // past its time already
		}
		if s.Spent >= until {
			j.SlipsCut = true
			break
		}
		q := s.slipQuery(j, i, begun)
		q.Mode = mode
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

// overruns reports whether the lag after an activity of a job runs past its time.
func overruns(mode *problem.Mode, j *problem.Job, i int) bool {
	worked := j.Starts[i] + mode.Acts[i].Work
	return mode.Acts[i].Lag.At(worked).Overruns(j.Starts[i+1] - worked)
}

// Overruns reports whether some lag of a job runs past its time.
func Overruns(mode *problem.Mode, j *problem.Job) bool {
	for i := 0; i < len(j.Starts)-1; i++ {
		if overruns(mode, j, i) {
			return true
		}
	}
	return false
}

// noLater is a job's mode with no lag past its time that is not so now, nor any longer past it
// than now; it is to be forgotten again.
func (s *Schedule) noLater(j *problem.Job) *problem.Mode {
	mode := s.ModeOf(j)
	if !slices.ContainsFunc(mode.Acts, func(a problem.Activity) bool { return a.Lag.Late != nil }) {
		return mode
	}
	out := *mode
	out.Acts = slices.Clone(mode.Acts)
	for i := range out.Acts {
		lag := &out.Acts[i].Lag
		if lag.Late == nil {
			s.Prep.lags[&out.Acts[i]] = s.Prep.lags[&mode.Acts[i]]
			continue
		}
		late := 0
		if overruns(mode, j, i) {
			late = j.Starts[i+1] - j.Starts[i] - mode.Acts[i].Work
		}
		*lag = lag.Each(func(l problem.Lag) problem.Lag { return l.InTimeOr(late) })
		s.Prep.lags[&out.Acts[i]] = tablesOf(lag, s.Model.Step, 0)
	}
	return &out
}

// forget takes away the tables of a mode that is not the model's.
func (s *Schedule) forget(mode *problem.Mode) {
	for i := range mode.Acts {
		delete(s.Prep.lags, &mode.Acts[i])
	}
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
	case i > 0:
		done := j.Starts[i-1] + q.Mode.Acts[i-1].Work
		if slip := q.Mode.Acts[i-1].Lag.At(done).Slip; slip != nil {
			least, most := slip(j.Starts[i] - done)
			in = problem.Span{From: done + least, Until: done + most}
		}
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
			worked := q.starts[q.From-1] + before.Work
			if costOfLag(before.Lag.At(worked), t-worked) >= Unreachable {
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
			j.Intake, j.Kept = has.Intake, has.Kept
			return j
		}
	}
	return nil
}
