package cp

// Placing one job exactly.
//
// A job is a chain: activity i starts at t(i), works w(i) ticks, waits a lag, and
// activity i+1 starts. Given everything else that is placed, the cheapest chain
// is found backward in time:
//
//	rest(i, t) = work(i, t) + min over lags l of  cost(i, l) + rest(i+1, t + w(i) + l)
//
//	t(0)            t(1)        t(2)
//	[work]~~~~~~~~~~[work]~~~~~~[work]~~~~~ delivery
//	 └ run of a pool ──────────────────┘
//
// work(i, t) is infinite when nobody can do the work at t. Runs need no memory of
// where they began: the stretch of time in which a pool has room and which holds
// t(i) is the one that held t(i-1), so it is enough that t(i+1) does not leave
// it. Where a run may use one of several pools, or a stay one of several spaces,
// rest has one row for every choice in force (the rows of [layout]).
//
// A worker's day limit couples pieces of work of one chain. It is met by
// branching (see place.go), which is seldom needed.
//
// Good chains are cheap, so the tables are first filled for cheap chains only
// and again, dearer ones too, where there is none (ceilings).
//
// Cost: activities x starts x lag costs at worst. Lags of one cost are tried
// together, as the least of a stretch of starts, the cheapest first, and the trial
// stops when no start of the next activity could mend the cost.
//
// This is the label-free special case of shortest paths with time windows; see
// Desrosiers, Dumas, Solomon, Soumis, "Time constrained routing and scheduling"
// (1995), section 3.

// unreachable is the cost of what cannot be.
const unreachable int32 = 1 << 29

// ceilings are the costs up to which chains are looked for, in turn.
func ceilings() [3]int32 { return [3]int32{25, 150, unreachable} }

// query asks for the best chain of one mode.
type query struct {
	mode      *Mode
	k         int         // activities before k are fixed
	facts     int         // activities before facts began before the planning start
	starts    []int       // starts of the activities before k
	workers   []int       // and their workers
	choices   []int       // choices of the runs that began before k
	homes     []StayPlace // places of the stays that began before k
	begun     bool
	readyMin  int // the last work ends in [readyMin, readyMax]
	readyMax  int
	end       int  // last delivery, nowhere for none given
	endLeast  int  // with none given: the delivery is this long after the last work
	supply    int  // -1 for none
	late      int  // with late > 0 the lag of activity k-1 may go beyond its most
	soonest   bool // activity k as soon as can be, whatever it costs
	pin       bool // activity k starts at pinned
	pinned    int
	notBefore int // with late > 0 activity k starts no sooner
	forbid    []forbidden
	exact     []int        // starts of all activities, nil for free
	stood     [][]Standing // places to take for each stay where they are free; nil for none
	flat      bool         // what it costs does not matter
	relaxed   bool         // a bound is wanted: what cannot be ruled out counts as placed
	ceiling   int32        // chains that cost so much or more are not looked for

	lo, hi []int // range of starts of each activity from k on
}

// forbidden keeps an activity from a worker on a day.
type forbidden struct{ act, worker, day int }

func (q *query) isForbidden(act, worker, day int) bool {
	for _, f := range q.forbid {
		if f.act == act && f.worker == worker && f.day == day {
			return true
		}
	}
	return false
}

// lagWithin is the least and the most that the lag after activity i can be below the
// ceiling, on the grid; the least is the larger when it cannot be at all.
func (s *schedule) lagWithin(q *query, i int) (least, most int) {
	lag, step := &q.mode.Acts[i].Lag, s.m.Step
	order := s.prep.lags[&q.mode.Acts[i]]
	if q.flat || q.ceiling <= 0 || order == nil {
		return ceilTo(lag.Least, step), floorTo(lag.Most, step)
	}
	a, b, ok := order.within(q.ceiling)
	if !ok {
		return 1, 0
	}
	return a * step, b * step
}

// ranges narrows the starts by windows and by lags below the ceiling alone; false
// when none is left.
func (s *schedule) ranges(q *query) bool {
	acts := q.mode.Acts
	n := len(acts)
	step := s.m.Step
	q.lo, q.hi = make([]int, n), make([]int, n)
	last := n - 1
	q.hi[last] = floorTo(q.readyMax-acts[last].Work, step)
	q.lo[last] = max(ceilTo(q.readyMin-acts[last].Work, step), s.first)
	for i := last - 1; i >= q.k; i-- {
		least, most := s.lagWithin(q, i)
		if least > most {
			return false
		}
		q.hi[i] = floorTo(q.hi[i+1]-acts[i].Work-least, step)
		q.lo[i] = max(ceilTo(q.lo[i+1]-acts[i].Work-most, step), s.first)
	}
	if q.k > 0 && q.k < n {
		lag := &acts[q.k-1].Lag
		from := q.starts[q.k-1] + acts[q.k-1].Work
		q.lo[q.k] = max(q.lo[q.k], ceilTo(from+lag.Least, step))
		q.hi[q.k] = min(q.hi[q.k], floorTo(from+lag.Most+q.late, step))
	}
	if q.late > 0 {
		q.lo[q.k] = max(q.lo[q.k], ceilTo(q.notBefore, step))
	}
	if q.pin {
		q.lo[q.k], q.hi[q.k] = max(q.lo[q.k], q.pinned), min(q.hi[q.k], q.pinned)
	}
	for i := q.k; i < last; i++ {
		least, most := s.lagWithin(q, i)
		q.lo[i+1] = max(q.lo[i+1], q.lo[i]+acts[i].Work+least)
		q.hi[i+1] = min(q.hi[i+1], q.hi[i]+acts[i].Work+most)
	}
	for i := q.k; i < n; i++ {
		if q.exact != nil {
			q.lo[i], q.hi[i] = max(q.lo[i], q.exact[i]), min(q.hi[i], q.exact[i])
		}
		if q.lo[i] > q.hi[i] {
			return false
		}
	}
	return true
}

// chain is a solved query: rest costs by activity and row.
type chain struct {
	s      *schedule
	q      *query
	lay    *layout
	work   [][]int32 // [act][start]
	who    [][]int16
	rest   [][][]int32 // [act][incoming row][start]
	limits [][][]int32 // [act][outgoing row][start] latest start of the next, in steps from its lo; -1 none
}

// solve fills the tables; not ok when no chain exists below the ceiling, and no
// more when none exists at all.
func (s *schedule) solve(q *query) (c *chain, ok, more bool) {
	if !s.ranges(q) {
		return nil, false, !q.flat && q.ceiling < unreachable
	}
	n := len(q.mode.Acts)
	c = &chain{s: s, q: q, lay: layoutOf(s.m, q)}
	c.work, c.who = make([][]int32, n), make([][]int16, n)
	c.rest, c.limits = make([][][]int32, n), make([][][]int32, n)
	for i := q.k; i < n; i++ {
		size := (q.hi[i]-q.lo[i])/s.m.Step + 1
		c.work[i], c.who[i] = make([]int32, size), make([]int16, size)
		s.fillWork(q, i, c.work[i], c.who[i])
		if !anyReachable(c.work[i]) {
			return nil, false, q.ceiling < unreachable
		}
	}
	if q.k == 0 && q.supply >= 0 {
		s.fillIntake(q, c.work[0])
	}
	for i := n - 1; i >= q.k; i-- {
		if !c.fillRest(i) {
			return nil, false, q.ceiling < unreachable
		}
	}
	return c, true, q.ceiling < unreachable
}

func anyReachable(cost []int32) bool {
	for _, v := range cost {
		if v < unreachable {
			return true
		}
	}
	return false
}

// fillIntake leaves only the first starts at which some intake has enough left.
func (s *schedule) fillIntake(q *query, work []int32) {
	step := s.m.Step
	drawable := make([]bool, len(work))
	for i := range s.m.Intakes {
		in := &s.m.Intakes[i]
		if in.Supply != q.supply || in.Until < q.lo[0] || in.Ready > q.hi[0] || in.Amount-s.drawn[i] < q.mode.Amount {
			continue
		}
		from, to := max(ceilTo(in.Ready, step), q.lo[0]), min(in.Until, q.hi[0])
		for t := from; t <= to; t += step {
			drawable[(t-q.lo[0])/step] = true
		}
	}
	for k := range work {
		if !drawable[k] {
			work[k] = unreachable
		}
	}
}

// intakeAt is the latest intake that a job starting at t can draw on, -1 for
// none.
func (s *schedule) intakeAt(q *query, t int) int {
	for i := len(s.m.Intakes) - 1; i >= 0; i-- {
		in := &s.m.Intakes[i]
		if in.Supply == q.supply && in.Ready <= t && t <= in.Until &&
			in.Amount-s.drawn[i] >= q.mode.Amount {
			return i
		}
	}
	return -1
}

// fillRest fills rest for activity i; false when it is infinite everywhere.
func (c *chain) fillRest(i int) bool {
	size := len(c.work[i])
	c.limits[i] = c.lay.limits(c, i)
	best := make([][]int32, c.lay.outRows(i))
	for out := range best {
		best[out] = c.fillOnward(i, out)
	}
	rows := c.lay.inRows(i)
	c.rest[i] = make([][]int32, rows)
	some := false
	for in := range c.rest[i] {
		row := make([]int32, size)
		least := unreachable
		outs := c.lay.next(i, in)
		for k := range row {
			row[k] = unreachable
			w := c.work[i][k]
			if w >= unreachable {
				continue
			}
			for _, out := range outs {
				if v := w + best[out][k]; v < row[k] {
					row[k] = v
				}
			}
			least = min(least, row[k])
		}
		for _, b := range c.lay.bridges(i) {
			c.bar(i, row, b)
		}
		c.rest[i][in] = row
		some = some || least < unreachable
	}
	return some
}

// fillOnward gives, for each start of activity i, the least cost of its lag and
// everything after it with the runs of row out in force.
func (c *chain) fillOnward(i, out int) []int32 {
	size := len(c.work[i])
	best := make([]int32, size)
	limit := c.limits[i][out]
	if i == len(c.q.mode.Acts)-1 {
		for k := range best {
			if limit[k] < 0 {
				best[k] = unreachable
			}
		}
		return best
	}
	act := &c.q.mode.Acts[i]
	order := c.s.prep.lags[act]
	next := c.rest[i+1][out]
	table := &c.s.prep.table
	table.fill(next)
	step := c.s.m.Step
	shift := (c.q.lo[i] + act.Work - c.q.lo[i+1]) / step
	spent := int64(len(next))
	for k := range best {
		best[k] = unreachable
		if limit[k] < 0 || c.work[i][k] >= unreachable {
			continue
		}
		top := min(int(limit[k]), len(next)-1)
		from, to := max(k+shift+order.least, 0), min(k+shift+order.most, top)
		if from > to {
			continue
		}
		floor := table.of(from, to)
		if floor >= unreachable {
			continue
		}
		if c.q.flat {
			best[k] = 0
			continue
		}
		b := c.q.ceiling
		for x := range order.bands {
			band := &order.bands[x]
			if band.cost+floor >= b {
				break
			}
			spent++
			from, to := max(k+shift+int(band.from), 0), min(k+shift+int(band.to), top)
			if from <= to {
				b = min(b, band.cost+table.of(from, to))
			}
		}
		spent += 4
		if b < c.q.ceiling {
			best[k] = b
		}
	}
	c.s.spent += spent/lookUnits + 1
	return best
}
