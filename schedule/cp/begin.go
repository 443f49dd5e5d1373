package cp

// begin puts what has happened in force: stock and what is under way.

// settleHomes finds where the boxes that stand somewhere now stand: those whose
// place is known first, then the others.
func (s *ledger) settleHomes() {
	m := s.m
	s.homes = make([]StayPlace, len(m.Begun))
	stockHomes := make([]StayPlace, len(m.Stocks))
	hold := func(p StayPlace, boxes int) {
		if p.Space >= 0 && !p.Homeless {
			s.addVisit(p.Space, visit{from: m.From, until: Infinite, boxes: boxes, stacks: p.Stacks, fact: true})
		}
	}
	for _, known := range []bool{true, false} {
		for i := range m.Stocks {
			st := &m.Stocks[i]
			if (len(st.Prefer) > 0) == known {
				stockHomes[i] = s.home(st.Space, st.Kind, st.Boxes, st.Prefer, m.From)
				hold(stockHomes[i], st.Boxes)
			}
		}
		for i := range m.Begun {
			b := &m.Begun[i]
			r := b.runningStay()
			if (len(b.Prefer) > 0) != known {
				continue
			}
			s.homes[i] = StayPlace{Space: -1}
			if r >= 0 {
				s.homes[i] = s.home(b.Homes[r], b.Mode.Stays[r].Kind, b.Mode.Stays[r].Boxes, b.Prefer, b.Starts[b.Mode.Stays[r].First]+b.Mode.Acts[b.Mode.Stays[r].First].Work)
				hold(s.homes[i], b.Mode.Stays[r].Boxes)
			}
		}
	}
	for i := range s.spaces {
		s.spaces[i] = nil
	}
	s.stocks = make([]StockPlan, len(m.Stocks))
	for i := range stockHomes {
		s.stocks[i] = StockPlan{Place: stockHomes[i], End: m.Stocks[i].Keep}
	}
}

// runningStay is the stay that the last begun activity is in, -1 for none.
func (b *Begun) runningStay() int {
	k := len(b.Starts)
	for r := range b.Mode.Stays {
		if st := &b.Mode.Stays[r]; st.First < k && k-1 <= st.Last {
			return r
		}
	}
	return -1
}

// keepStock puts stock in force with what it is to serve.
func (s *ledger) keepStock(i int, shares []Share) {
	st := &s.m.Stocks[i]
	p := &s.stocks[i]
	p.Shares, p.End = shares, st.Keep
	for k, sh := range shares {
		s.unmet[sh.Demand] -= sh.Units
		if due := s.m.Demands[sh.Demand].Due; k == 0 || due > p.End {
			p.End = due
		}
	}
	if st.Pool >= 0 && st.Boxes > 0 && p.End > s.m.From {
		s.addOccupation(st.Pool, occupation{s.m.From, p.End + st.Clean, st.Boxes, nil, true})
	}
	if p.Place.Space >= 0 && !p.Place.Homeless && p.End > s.m.From {
		s.addVisit(p.Place.Space, visit{s.m.From, p.End, st.Boxes, p.Place.Stacks, nil, true})
	}
}

// begunQuery makes the question of carrying on a job under way.
func (s *schedule) begunQuery(b int, shares []Share) *query {
	bg := &s.m.Begun[b]
	q := &query{mode: &bg.Mode, k: len(bg.Starts), facts: len(bg.Starts), starts: bg.Starts, workers: bg.Workers,
		choices: bg.Choices, begun: true, supply: -1,
		readyMin: -Infinite, readyMax: s.m.Horizon, end: nowhere, endLeast: bg.Mode.Acts[len(bg.Mode.Acts)-1].Lag.Least}
	q.homes = make([]StayPlace, len(bg.Mode.Stays))
	for r := range q.homes {
		q.homes[r] = StayPlace{Space: -1}
		if bg.Mode.Stays[r].First < q.k {
			q.homes[r].Space = bg.Homes[r]
		}
	}
	if r := bg.runningStay(); r >= 0 {
		q.homes[r] = s.homes[b]
	}
	if len(shares) > 0 {
		w := s.m.windowOf(bg.Family, shares).limited(&bg.Mode)
		q.readyMin, q.readyMax, q.end = w.readyMin, w.readyMax, w.end
	}
	return q
}

// carryOn places a job under way so that it serves the shares; false when it
// cannot. Without shares it always can, late or stuck if need be.
func (s *schedule) carryOn(b int, shares []Share) (*Job, bool) {
	bg := &s.m.Begun[b]
	q := s.begunQuery(b, shares)
	var j *Job
	ok := false
	if q.k == len(bg.Mode.Acts) {
		j, ok = s.finish(q)
	} else {
		j, ok = s.place(q)
	}
	if !ok {
		j, ok = s.carryLate(b, shares)
	}
	if !ok && len(shares) == 0 {
		j, ok = s.stuck(b, q), true
	}
	if !ok {
		return nil, false
	}
	j.Family, j.Mode, j.Begun, j.Shares, j.Intake = bg.Family, -1, b, shares, -1
	return j, true
}

// finish answers for a job all of whose activities have begun: only the last
// delivery is open.
func (s *schedule) finish(q *query) (*Job, bool) {
	n := len(q.mode.Acts)
	ready := q.starts[n-1] + q.mode.Acts[n-1].Work
	j := &Job{Begun: -1, Intake: -1, Ready: ready, Starts: q.starts, Workers: q.workers, Choices: q.choices, Stays: q.homes}
	j.End = q.end
	if q.end == nowhere {
		j.End = max(ready+q.endLeast, s.m.From)
	} else if ready < q.readyMin || ready > q.readyMax {
		return nil, false
	}
	c := &chain{s: s, q: q, lay: layoutOf(s.m, q)}
	if q.end != nowhere && j.End > c.fixedLimit() {
		return nil, false
	}
	return j, true
}

// stuck leaves a job where it is, for good.
func (s *schedule) stuck(b int, q *query) *Job {
	bg := &s.m.Begun[b]
	choices := make([]int, len(bg.Mode.Runs))
	copy(choices, bg.Choices)
	return &Job{Starts: bg.Starts, Workers: bg.Workers, Choices: choices, Stays: q.homes,
		Ready: Infinite, End: Infinite, Stuck: true}
}
