package chain

import (
	"ripeby/schedule/cp/lags"
	"ripeby/schedule/cp/problem"
)

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
// What has begun may run late. Being late comes before what waiting costs, so each of
// its lags costs so much more for every bit that it is late that no saving makes up for
// it (lateness.go).
//
// Cost: activities x starts x lag costs at worst, mostly far less ([lags.Sums]).
//
// This is the label-free special case of shortest paths with time windows; see
// Desrosiers, Dumas, Solomon, Soumis, "Time constrained routing and scheduling"
// (1995), section 3.

// Unreachable is the cost of what cannot be.
const Unreachable = lags.Unreachable

// ceilingsOf are the costs up to which chains of a query are looked for, in turn: those of what
// may be late before the later.
func (s *Schedule) ceilingsOf(q *query) []int32 {
	out := []int32{25, 150}
	if q.unrest > 0 {
		out = append(out, q.unrest, 4*q.unrest)
	}
	for i := range q.Mode.Acts {
		if w := s.Prep.lags[&q.Mode.Acts[i]].weight; w > 0 {
			for late := int64(1); late*int64(w) < int64(Unreachable); late *= 4 {
				out = append(out, int32(late*int64(w)))
			}
			break
		}
	}
	return append(out, Unreachable)
}

// query asks for the best chain of one mode.
type query struct {
	Mode     *problem.Mode
	From     int                 // activities before k are fixed
	began    int                 // activities before it began before the planning start
	starts   []int               // starts of the activities before k
	workers  []int               // and their workers
	choices  []int               // choices of the runs that began before k
	homes    []problem.StayPlace // places of the stays that began before k
	begun    bool
	readyMin int // the last work ends in [readyMin, readyMax]
	readyMax int
	end      int  // last delivery, nowhere for none given
	endLeast int  // with none given: the delivery is this long after the last work
	supply   int  // -1 for none
	pin      bool // activity k starts at pinned
	pinned   int
	soonest  int   // activity k starts no sooner; 0 for when it can, as there is nothing before it
	latest   []int // latest start of each activity; nil for no limit
	forbid   []forbidden
	Exact    []int                // starts of all activities, nil for free
	Stood    [][]problem.Standing // places to take for each stay where they are free; nil for none
	As       *problem.Exact       // these workers, choices, spaces and intake and no others; nil for any
	Firm     bool                 // nowhere but in the places of Stood
	flat     bool                 // what it costs does not matter
	relaxed  bool                 // a bound is wanted: what cannot be ruled out counts as placed
	ceiling  int32                // chains that cost so much or more are not looked for
	measure  measure              // what tables of chains are of
	unrest   int32                // what a piece of work in the settled time costs that is not as told; 0: that does not matter
	told     []problem.Told       // what an earlier plan told of each activity, nil for nothing

	Lo, Hi []int // range of starts of each activity from k on
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
func (s *Schedule) lagWithin(q *query, i int) (least, most int) {
	lag, step := &q.Mode.Acts[i].Lag, s.Model.Step
	order := s.Prep.lags[&q.Mode.Acts[i]]
	if q.flat || q.ceiling <= 0 || order.sought == nil {
		return problem.CeilTo(lag.Least, step), problem.FloorTo(lag.Most, step)
	}
	a, b, ok := order.sought.Within(q.ceiling)
	if !ok {
		return 1, 0
	}
	return a * step, b * step
}

// Ranges narrows the starts by windows and by lags below the ceiling alone; false
// when none is left.
func (s *Schedule) Ranges(q *query) bool {
	acts := q.Mode.Acts
	n := len(acts)
	step := s.Model.Step
	q.Lo, q.Hi = make([]int, n), make([]int, n)
	last := n - 1
	q.Hi[last] = problem.FloorTo(q.readyMax-acts[last].Work, step)
	q.Lo[last] = max(problem.CeilTo(q.readyMin-acts[last].Work, step), s.First)
	if q.latest != nil {
		q.Hi[last] = min(q.Hi[last], problem.FloorTo(q.latest[last], step))
	}
	for i := last - 1; i >= q.From; i-- {
		least, most := s.lagWithin(q, i)
		if least > most {
			return false
		}
		q.Hi[i] = problem.FloorTo(q.Hi[i+1]-acts[i].Work-least, step)
		if q.latest != nil {
			q.Hi[i] = min(q.Hi[i], problem.FloorTo(q.latest[i], step))
		}
		q.Lo[i] = max(problem.CeilTo(q.Lo[i+1]-acts[i].Work-most, step), s.First)
	}
	if q.From > 0 && q.From < n {
		lag := &acts[q.From-1].Lag
		from := q.starts[q.From-1] + acts[q.From-1].Work
		q.Lo[q.From] = max(q.Lo[q.From], problem.CeilTo(from+lag.Least, step))
		q.Hi[q.From] = min(q.Hi[q.From], problem.FloorTo(from+lag.Most, step))
	}
	if q.soonest > 0 && q.From < n {
		q.Lo[q.From] = max(q.Lo[q.From], problem.CeilTo(q.soonest, step))
	}
	if q.pin {
		q.Lo[q.From], q.Hi[q.From] = max(q.Lo[q.From], q.pinned), min(q.Hi[q.From], q.pinned)
	}
	for i := q.From; i < last; i++ {
		least, most := s.lagWithin(q, i)
		q.Lo[i+1] = max(q.Lo[i+1], q.Lo[i]+acts[i].Work+least)
		q.Hi[i+1] = min(q.Hi[i+1], q.Hi[i]+acts[i].Work+most)
	}
	for i := q.From; i < n; i++ {
		if q.Exact != nil {
			if q.Exact[i]%step != 0 {
				return false // of a plan on another grid
			}
			q.Lo[i], q.Hi[i] = max(q.Lo[i], q.Exact[i]), min(q.Hi[i], q.Exact[i])
		}
		if q.Lo[i] > q.Hi[i] {
			return false
		}
	}
	return true
}

// chain is a solved query: rest costs by activity and row.
type chain struct {
	s      *Schedule
	q      *query
	lay    *layout
	work   [][]int32 // [act][start]
	who    [][]int16
	rest   [][][]int32 // [act][incoming row][start]
	limits [][][]int32 // [act][outgoing row][start] latest start of the next, in steps from its lo; -1 none
}

// solve fills the tables; not ok when no chain exists below the ceiling, and no
// more when none exists at all.
func (s *Schedule) solve(q *query) (c *chain, ok, more bool) {
	if !s.Ranges(q) {
		return nil, false, !q.flat && q.ceiling < Unreachable
	}
	n := len(q.Mode.Acts)
	c = &chain{s: s, q: q, lay: layoutOf(s.Model, q)}
	c.work, c.who = make([][]int32, n), make([][]int16, n)
	c.rest, c.limits = make([][][]int32, n), make([][][]int32, n)
	for i := q.From; i < n; i++ {
		size := (q.Hi[i]-q.Lo[i])/s.Model.Step + 1
		c.work[i], c.who[i] = make([]int32, size), make([]int16, size)
		s.fillWork(q, i, c.work[i], c.who[i])
		if !anyReachable(c.work[i]) {
			return nil, false, q.ceiling < Unreachable
		}
	}
	if q.From == 0 && q.supply >= 0 {
		s.fillIntake(q, c.work[0])
	}
	for i := n - 1; i >= q.From; i-- {
		if !c.fillRest(i) {
			return nil, false, q.ceiling < Unreachable
		}
	}
	return c, true, q.ceiling < Unreachable
}

func anyReachable(cost []int32) bool {
	for _, v := range cost {
		if v < Unreachable {
			return true
		}
	}
	return false
}

// fillIntake leaves only the first starts at which some intake has enough left.
func (s *Schedule) fillIntake(q *query, work []int32) {
	step := s.Model.Step
	drawable := make([]bool, len(work))
	for i := range s.Model.Intakes {
		in := &s.Model.Intakes[i]
		if q.As != nil && i != q.As.Intake || in.Supply != q.supply || in.Until < q.Lo[0] || in.Ready > q.Hi[0] || in.Amount-s.Drawn[i] < q.Mode.Amount {
			continue
		}
		from, to := max(problem.CeilTo(in.Ready, step), q.Lo[0]), min(in.Until, q.Hi[0])
		for t := from; t <= to; t += step {
			drawable[(t-q.Lo[0])/step] = true
		}
	}
	for k := range work {
		if !drawable[k] {
			work[k] = Unreachable
		}
	}
}

// intakeAt is the latest intake that a job starting at t can draw on, -1 for
// none.
func (s *Schedule) intakeAt(q *query, t int) int {
	for i := len(s.Model.Intakes) - 1; i >= 0; i-- {
		in := &s.Model.Intakes[i]
		if (q.As == nil || i == q.As.Intake) && in.Supply == q.supply && in.Ready <= t && t <= in.Until &&
			in.Amount-s.Drawn[i] >= q.Mode.Amount {
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
		least := Unreachable
		outs := c.lay.next(i, in)
		for k := range row {
			row[k] = Unreachable
			w := c.work[i][k]
			if w >= Unreachable {
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
		some = some || least < Unreachable
	}
	return some
}

// fillOnward gives, for each start of activity i, the least cost of its lag and
// everything after it with the runs of row out in force.
func (c *chain) fillOnward(i, out int) []int32 {
	size := len(c.work[i])
	best := make([]int32, size)
	limit := c.limits[i][out]
	if i == len(c.q.Mode.Acts)-1 {
		for k := range best {
			if limit[k] < 0 {
				best[k] = Unreachable
			}
		}
		return best
	}
	act := &c.q.Mode.Acts[i]
	tables, next := c.s.Prep.lags[act], c.rest[i+1][out]
	shift := (c.q.Lo[i] + act.Work - c.q.Lo[i+1]) / c.s.Model.Step
	f := &c.s.Prep.sums
	for _, turn := range c.s.turnsOf(tables, c.q.Lo[i]+act.Work, size) {
		f.Over(turn.table.sought, 1, next)
		for k := turn.from; k < turn.until; k++ {
			if best[k] = Unreachable; limit[k] >= 0 && c.work[i][k] < Unreachable {
				f.Add(k+shift, int(limit[k]))
			}
		}
		if c.q.flat {
			f.Any()
		} else {
			f.Find(c.q.ceiling)
		}
		for x, at := range f.Starts {
			best[int(at)-shift] = f.Out[x]
		}
		c.s.Spent += f.Looks/LookUnits + 1
	}
	return best
}
