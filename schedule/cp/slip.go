package cp

// fillSlips finds how late each activity of a job may start with every other job
// as it is. What has begun does not slip.
func (s *state) fillSlips(j *Job) {
	j.Slips = append([]int(nil), j.Starts...)
	if j.Stuck {
		return
	}
	begun := 0
	if j.Begun >= 0 {
		begun = len(s.m.Begun[j.Begun].Starts)
	}
	s.remove(j)
	for i := begun; i < len(j.Starts); i++ {
		q := s.slipQuery(j, i, begun)
		if late, ok := s.place(q); ok && late.Starts[i] > j.Starts[i] {
			j.Slips[i] = late.Starts[i]
		}
	}
	s.add(j)
}

// slipQuery asks for the job again with its activities before i fixed.
func (s *state) slipQuery(j *Job, i, begun int) *query {
	var q *query
	if j.Begun >= 0 {
		q = s.begunQuery(j.Begun, j.Shares)
	} else {
		q = s.query(j.Family, j.Mode, s.m.windowOf(j.Family, j.Shares))
	}
	homes := append([]StayPlace(nil), j.Stays...)
	copy(homes, q.homes)
	for r := range homes {
		if st := &s.modeOf(j).Stays[r]; st.First >= begun {
			homes[r] = j.Stays[r]
		}
	}
	q.k, q.facts, q.homes = i, begun, homes
	q.starts, q.workers, q.choices = j.Starts[:i], j.Workers[:i], j.Choices
	q.latest, q.flat = true, true
	if i == 0 && j.Intake >= 0 {
		// The intake is the one that was arranged for: no later one.
		q.capped, q.firstMost = true, s.m.Intakes[j.Intake].Until
	}
	if i > 0 {
		if act := &q.mode.Acts[i-1]; act.Lag.Slip != nil {
			done := j.Starts[i-1] + act.Work
			q.capped, q.firstMost = true, done+act.Lag.Slip(j.Starts[i]-done)
		}
	}
	if j.Late > 0 && i == begun {
		q.late, q.pin, q.pinned, q.notBefore = s.m.Horizon-q.starts[i-1], true, j.Starts[i], j.Starts[i] // late already: no later
	}
	return q
}
