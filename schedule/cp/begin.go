package cp

import "sort"

// begin puts what has happened in force: stock and what is under way.

// settleHomes finds where the boxes that stand somewhere now stand: those whose
// place is known first, then the others.
func (s *state) settleHomes() {
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
				stockHomes[i] = s.home(st.Space, st.Kind, st.Boxes, st.Prefer)
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
				s.homes[i] = s.home(b.Homes[r], b.Mode.Stays[r].Kind, b.Mode.Stays[r].Boxes, b.Prefer)
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
func (s *state) keepStock(i int, shares []Share) {
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
func (s *state) begunQuery(b int, shares []Share) *query {
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
func (s *state) carryOn(b int, shares []Share) (*Job, bool) {
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

// carryLate lets the running lag go beyond its most: its end comes as soon as it
// can, whatever is served, and the rest follows from there.
func (s *state) carryLate(b int, shares []Share) (*Job, bool) {
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
	j, ok := s.place(q)
	for tries := 0; !ok && tries < releasesTried; tries++ {
		next := s.nextRelease(q)
		if next >= Infinite {
			break
		}
		q.notBefore = next
		j, ok = s.place(q)
	}
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
func (s *state) lateQuery(b int) *query {
	q := s.begunQuery(b, nil)
	q.late, q.soonest, q.flat, q.notBefore = s.m.Horizon-q.starts[q.k-1], true, true, s.m.From
	return q
}

// releasesTried is how many moments at which something is released a job under way
// waits for before it counts as stuck.
const releasesTried = 200

// nextRelease is when, after the query's notBefore, the next unit of a pool that
// the rest of the job could use is released and clean; Infinite for never. What
// cannot be placed as soon as it might be, by way of its own kit still in hand or
// being cleaned, may be when others give theirs back.
func (s *state) nextRelease(q *query) int {
	next := Infinite
	for r := range q.mode.Runs {
		if q.mode.Runs[r].First < q.k {
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
func (s *state) endless(b int) bool {
	if is, known := s.prep.endless[b]; known {
		return is
	}
	alone := s.prep.empty(s.m)
	alone.homes = s.homes
	before := alone.spent
	_, ok := alone.place(alone.lateQuery(b))
	s.spent += alone.spent - before
	s.prep.endless[b] = !ok
	return !ok
}

// finish answers for a job all of whose activities have begun: only the last
// delivery is open.
func (s *state) finish(q *query) (*Job, bool) {
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
func (s *state) stuck(b int, q *query) *Job {
	bg := &s.m.Begun[b]
	choices := make([]int, len(bg.Mode.Runs))
	copy(choices, bg.Choices)
	return &Job{Starts: bg.Starts, Workers: bg.Workers, Choices: choices, Stays: q.homes,
		Ready: Infinite, End: Infinite, Stuck: true}
}

// beginAll puts all jobs under way in force, the most urgent first, each with as
// much of what it is to serve as it can. While a job waits for its turn, what it
// holds already is in force, for as long as it must hold it at the least. When a
// job then gets stuck because one before it counted on less, all begin again as in
// beginSafely.
func (s *state) beginAll(serve [][]Share, starts [][]int) {
	m := s.m
	turn := upTo(len(m.Begun))
	sort.SliceStable(turn, func(i, k int) bool { return m.Begun[turn[i]].dueBy() < m.Begun[turn[k]].dueBy() })
	waiting := make([]*Job, len(turn))
	for _, b := range turn {
		waiting[b] = s.waits(b)
		s.add(waiting[b])
	}
	stuck := false
	for _, b := range turn {
		s.remove(waiting[b])
		j := s.begin(b, serve[b], starts[b])
		s.add(j)
		stuck = stuck || j.Stuck
	}
	if !stuck || len(turn) == 1 {
		return
	}
	s.removeAll()
	if s.beginSafely(turn, serve, starts) {
		return
	}
	// A job that stays for what it serves may be what another waits for.
	s.removeAll()
	s.beginSafely(turn, make([][]Share, len(serve)), make([][]int, len(starts)))
}

func (s *state) removeAll() {
	for _, j := range append([]*Job(nil), s.jobs...) {
		s.remove(j)
	}
}

// beginSafely puts jobs under way in force one after another, each beside all
// that the others hold now, as if they held it for ever. So nobody counts on what
// may not come. Those that no order lets go on are stuck, and it reports false.
//
// This is the safe sequence of Dijkstra's banker ("Een algorithme ter voorkoming
// van de dodelijke omarming", EWD 108, 1965).
func (s *state) beginSafely(turn []int, serve [][]Share, starts [][]int) bool {
	turn = append([]int(nil), turn...)
	held := make([]*Job, len(turn))
	for _, b := range turn {
		held[b] = s.waits(b)
		held[b].Ready, held[b].End = Infinite, Infinite
		s.add(held[b])
	}
	for some := true; some; {
		some = false
		for x := 0; x < len(turn); x++ {
			b := turn[x]
			s.remove(held[b])
			j := s.begin(b, serve[b], starts[b])
			if j.Stuck {
				s.add(held[b]) // it may go on when others have
				continue
			}
			s.add(j)
			turn = append(turn[:x:x], turn[x+1:]...)
			x, some = x-1, true
		}
	}
	return len(turn) == 0
}

// begin places a job under way: as it was planned before if that still holds, else
// with as much of the shares as it can.
func (s *state) begin(b int, serve []Share, starts []int) *Job {
	if starts != nil {
		q := s.begunQuery(b, serve)
		if q.k < len(starts) && len(starts) == len(q.mode.Acts) {
			q.exact = starts
			if j, ok := s.place(q); ok {
				j.Family, j.Mode, j.Begun, j.Shares = s.m.Begun[b].Family, -1, b, serve
				return j
			}
		}
	}
	for _, shares := range s.parts(serve) {
		if j, ok := s.carryOn(b, shares); ok {
			return j
		}
	}
	return nil // carryOn without shares, which parts ends with, always can
}

// waits is a job under way as far as it has come, holding what it holds until its
// next activity can start at the soonest.
func (s *state) waits(b int) *Job {
	bg := &s.m.Begun[b]
	q := s.begunQuery(b, nil)
	j := s.stuck(b, q)
	j.Family, j.Mode, j.Begun, j.Intake = bg.Family, -1, b, -1
	k := len(bg.Starts)
	if k == 0 {
		return j
	}
	lag := &bg.Mode.Acts[k-1].Lag
	j.End = max(s.first, ceilTo(bg.Starts[k-1]+bg.Mode.Acts[k-1].Work+lag.Least, s.m.Step))
	if k < len(bg.Mode.Acts) {
		j.Ready = j.End
	}
	return j
}

// dueBy is when the running lag of a job under way is over at the latest.
func (b *Begun) dueBy() int {
	k := len(b.Starts)
	if k == 0 {
		return 0
	}
	return b.Starts[k-1] + b.Mode.Acts[k-1].Work + b.Mode.Acts[k-1].Lag.Most
}

// parts lists what may be served instead of shares: all of them, then the
// stretches of them in due order, the most valuable first, then nothing.
func (s *state) parts(shares []Share) [][]Share {
	type part struct {
		shares []Share
		value  Cost
	}
	byDue := append([]Share(nil), shares...)
	sort.SliceStable(byDue, func(i, k int) bool {
		return s.m.Demands[byDue[i].Demand].Due < s.m.Demands[byDue[k].Demand].Due
	})
	var all []part
	for a := range byDue {
		var v Cost
		for b := a; b < len(byDue); b++ {
			d := &s.m.Demands[byDue[b].Demand]
			if d.Promised {
				v.PromisedShort -= int64(byDue[b].Units) * d.Value
			} else {
				v.Short -= int64(byDue[b].Units) * d.Value
			}
			all = append(all, part{byDue[a : b+1 : b+1], v})
		}
	}
	sort.SliceStable(all, func(i, k int) bool { return all[i].value.Less(all[k].value) })
	out := make([][]Share, 0, len(all)+1)
	for _, p := range all {
		out = append(out, p.shares)
	}
	return append(out, nil)
}
