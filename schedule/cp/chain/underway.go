package chain

import "ripeby/schedule/cp/problem"

// BegunQuery makes the question of carrying on a job under way.
func (s *Schedule) BegunQuery(b int, shares []problem.Share) *query {
	bg := &s.Model.Begun[b]
	q := &query{Mode: &bg.Mode, From: len(bg.Starts), began: len(bg.Starts), starts: bg.Starts, workers: bg.Workers, latest: bg.Latest,
		choices: bg.Choices, begun: true, supply: -1,
		readyMin: -problem.Infinite, readyMax: s.Model.Horizon, end: problem.Nowhere, endLeast: bg.Mode.Acts[len(bg.Mode.Acts)-1].Lag.Least}
	q.homes = make([]problem.StayPlace, len(bg.Mode.Stays))
	for r := range q.homes {
		q.homes[r] = problem.StayPlace{Space: -1}
		if bg.Mode.Stays[r].First < q.From {
			q.homes[r].Space = bg.Homes[r]
		}
	}
	if r := bg.RunningStay(); r >= 0 {
		q.homes[r] = s.Homes[b]
	}
	if len(shares) > 0 {
		w := s.Model.WindowOf(bg.Family, shares).Limited(&bg.Mode)
		q.readyMin, q.readyMax, q.end = w.ReadyMin, w.ReadyMax, w.End
	}
	return q
}

// CarryOn places a job under way so that it serves the shares; false when it
// cannot. Without shares it always can, left where it is if need be.
func (s *Schedule) CarryOn(b int, shares []problem.Share) (*problem.Job, bool) {
	bg := &s.Model.Begun[b]
	q := s.BegunQuery(b, shares)
	var j *problem.Job
	ok := false
	if q.From == len(bg.Mode.Acts) {
		j, ok = s.finish(q)
	} else {
		s.Calm(q, bg.Told)
		j, ok = s.Place(q)
	}
	if !ok && len(shares) == 0 {
		return s.LeftWhereItIs(b), true
	}
	if !ok {
		return nil, false
	}
	j.Family, j.Mode, j.Begun, j.Shares, j.Intake = bg.Family, -1, b, shares, -1
	return j, true
}

// CarryAlone is how a job under way could go on with the kitchen to itself: no plan has it less
// late, nor, when it is no later, at less cost than [Schedule.SurePenalty] says. False when it surely
// cannot.
func (s *Schedule) CarryAlone(b int) (*problem.Job, bool) {
	alone := s.Prep.Empty(s.Model)
	alone.Homes = s.Homes
	before := alone.Spent
	q := alone.BegunQuery(b, nil)
	q.relaxed = true
	j, ok := alone.Place(q)
	s.Spent += alone.Spent - before
	alone.Spent = before
	return j, ok
}

// SurePenalty is what a job under way that was placed alone costs at the least, when it is no later than
// that: of lags that count for less than they cost while it is sought ([lagTables.weighed]) another
// choice may cost less, so they count here as they did there.
func (s *Schedule) SurePenalty(b int, j *problem.Job) int64 {
	bg := &s.Model.Begun[b]
	most := mostOfLag(weightOf(&bg.Mode))
	sure := j.Penalty
	for i := max(len(bg.Starts)-1, 0); i+1 < len(j.Starts); i++ {
		worked := j.Starts[i] + bg.Mode.Acts[i].Work
		lag := bg.Mode.Acts[i].Lag.At(worked)
		if cost := costOfLag(lag, j.Starts[i+1]-worked); lag.Late != nil && cost < Unreachable {
			sure -= int64(max(cost-most, 0))
		}
	}
	return sure
}

// finish answers for a job all of whose activities have begun: only the last
// delivery is open.
func (s *Schedule) finish(q *query) (*problem.Job, bool) {
	n := len(q.Mode.Acts)
	ready := q.starts[n-1] + q.Mode.Acts[n-1].Work
	j := &problem.Job{Begun: -1, Intake: -1, Ready: ready, Starts: q.starts, Workers: q.workers, Choices: q.choices, Stays: q.homes}
	j.End = q.end
	if q.end == problem.Nowhere {
		j.End = max(ready+q.endLeast, s.Model.From)
	} else if ready < q.readyMin || ready > q.readyMax {
		return nil, false
	}
	c := &chain{s: s, q: q, lay: layoutOf(s.Model, q)}
	if q.end != problem.Nowhere && j.End > c.fixedLimit() {
		return nil, false
	}
	return j, true
}

// LeftWhereItIs is a job under way that is left where it is, for good.
func (s *Schedule) LeftWhereItIs(b int) *problem.Job {
	bg, q := &s.Model.Begun[b], s.BegunQuery(b, nil)
	choices := make([]int, len(bg.Mode.Runs))
	copy(choices, bg.Choices)
	return &problem.Job{Family: bg.Family, Mode: -1, Begun: b, Intake: -1, Starts: bg.Starts, Workers: bg.Workers, Choices: choices, Stays: q.homes,
		Ready: problem.Infinite, End: problem.Infinite, Stuck: true}
}
