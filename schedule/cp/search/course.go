package search

import (
	"slices"

	"ripeby/schedule/cp/bound"
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// What is under way is planned like anything else, but that it may run late: the model that is
// searched lets each job's lags go on past their time by so much ([problem.Model.Within]). How
// much is found out: as much as the job needs with the kitchen to itself, more while it finds
// no place beside the others; and, before anything is proved, as much as it could have in any
// better plan. Then what is proved of that model holds of the whole one.

// course is a model and how late what is under way may run: each of the jobs under way, -1 for one
// that is left where it is.
type course struct {
	inTime *problem.Model
	late   []int64
	limit  chain.Limit
	alone  map[int]aloneAt // of jobs under way, as far as it is known
	most   int64           // counted work that is left to find that out, 0 for any
}

// aloneAt is what a job under way comes to alone that runs so late at the most.
type aloneAt struct {
	late int64
	bound.Alone
}

// lateLadder is how late a job may run, tried in turn; the last is as late as it can be at all.
var lateLadder = [...]int64{0, 16, 128, 1024, 8192, problem.Infinite}

// newCourse is a model in which each job under way may run as late as it must by itself, and as late
// as the earlier plan has it, with the empty plan of it. One that cannot go on even so is left where it is.
func newCourse(m *problem.Model, whole int, limit chain.Limit) (*course, *Plan) {
	c := &course{inTime: m, late: make([]int64, len(m.Begun)), limit: limit, alone: map[int]aloneAt{}}
	if limit.Until > 0 {
		c.most = relaxMost(limit)
	}
	c.asHinted()
	for {
		s := c.plan(whole)
		c.learn(s)
		some := c.raise(s, func(b int) bool { return !s.Relax.AloneUnderWay(&s.Schedule, b).OK }, true)
		for b := range c.late {
			// What runs so late in several parts may do better with one that is later.
			if late := s.Relax.AloneUnderWay(&s.Schedule, b).Late; c.late[b] >= 0 && late > c.late[b] {
				c.late[b], some = late, true
			}
			// Of what there is no work to ask about any lateness may be needed.
			if c.late[b] >= 0 && c.late[b] < problem.Infinite && s.Relax.AloneUnderWay(&s.Schedule, b).Open && c.inTime.Begun[b].CanRunLate() {
				c.late[b], some = problem.Infinite, true
			}
		}
		if !some {
			return c, s
		}
	}
}

// learn asks of each job under way what it comes to alone, and keeps it for the models to come.
func (c *course) learn(s *Plan) {
	for b, late := range c.late {
		if a := s.Relax.AloneUnderWay(&s.Schedule, b); !a.Open {
			c.alone[b] = aloneAt{late, a}
		}
	}
	if c.most != 0 {
		if c.most -= s.Relax.AloneSpent; c.most <= 0 {
			c.most = -1
		}
	}
}

// know tells a plan of the model what is known of the jobs under way alone.
func (c *course) know(s *Plan) {
	s.Relax.AloneMost = c.most
	for b, late := range c.late {
		if a, known := c.alone[b]; known && a.late == late {
			s.Relax.Knows(&s.Schedule, b, a.Alone)
		}
	}
}

// plan is the empty plan of the model.
func (c *course) plan(whole int) *Plan {
	s := NewPlan(c.inTime.Within(c.late))
	s.Whole, s.Limit = whole, c.limit
	s.SettleHomes()
	c.know(s)
	return s
}

// raise lets the jobs that need it run later than they might; it reports whether any of them
// could. One that could not, and has no way at all, is left where it is.
func (c *course) raise(s *Plan, needs func(b int) bool, noWay bool) bool {
	some := false
	for b := range c.late {
		if c.late[b] < 0 || !needs(b) {
			continue
		}
		at := slices.IndexFunc(lateLadder[:], func(step int64) bool { return step > c.late[b] })
		switch {
		case at >= 0 && c.inTime.Begun[b].CanRunLate():
			c.late[b], some = lateLadder[at], true
		case noWay:
			c.inTime, c.late[b], some = c.inTime.WithNoWay(b), -1, true
		}
	}
	return some
}

// raiseStuck does so for the jobs that a plan leaves where they are though the model has them
// go on.
func (c *course) raiseStuck(s *Plan) bool {
	left := map[int]bool{}
	for _, j := range s.Jobs {
		left[j.Begun] = j.Begun >= 0 && j.Stuck
	}
	return c.raise(s, func(b int) bool { return left[b] }, false)
}

// raiseAll lets all jobs run as late as they can at all, where a plan leaves one where it is that could
// not; it reports whether there is one. The next plan may leave others.
func (c *course) raiseAll(s *Plan) bool {
	some := slices.ContainsFunc(s.Jobs, func(j *problem.Job) bool {
		return j.Stuck && c.late[j.Begun] >= 0 && c.late[j.Begun] < problem.Infinite
	})
	for b := range c.late {
		if some && c.late[b] >= 0 {
			c.late[b] = problem.Infinite
		}
	}
	return some
}

// roomWork is about the counted work that it takes to know of one job under way that may run late at
// all what it comes to alone.
const roomWork = 500_000

// roomFloor is the counted work that this may take however little there is.
const roomFloor = 10_000_000

// affords reports whether there is work left to find out how late what is under way may run in any
// better plan: without, nothing is bounded.
func (c *course) affords(s *Plan) bool {
	if !c.inTime.CanRunLate() || c.limit.Until == 0 {
		return true
	}
	late := int64(0)
	for b := range c.late {
		if c.late[b] >= 0 && c.inTime.Begun[b].CanRunLate() {
			late++
		}
	}
	return !s.CalledOff() && late*roomWork <= max(c.limit.Until-s.Spent, roomFloor)
}

// roomFor lets each job under way run as late as it may in any plan that is no later than this
// one: as late as the plan is less what the others are at the least. It gives the plan as one of
// that model.
func (c *course) roomFor(s *Plan) *Plan {
	if !c.inTime.CanRunLate() {
		return s
	}
	total := s.Cost().Late
	room, left := slices.Clone(c.late), 0
	for _, j := range s.Jobs {
		if j.Stuck {
			left++
		}
	}
	for b := range room {
		if room[b] >= 0 {
			room[b] = max(total-s.Relax.LeastLate(&s.Schedule, left, b), 0)
		}
	}
	return c.to(s, room)
}

// anyRoom lets each job run as late as it can at all, likewise.
func (c *course) anyRoom(s *Plan) *Plan {
	room := slices.Clone(c.late)
	for b := range room {
		if room[b] >= 0 {
			room[b] = problem.Infinite
		}
	}
	return c.to(s, room)
}

// to is a plan as one of the model in which jobs under way run so late at the most.
func (c *course) to(s *Plan, room []int64) *Plan {
	if slices.Equal(c.late, room) {
		return s
	}
	c.late = room
	n := c.empty(s)
	left := false
	for _, j := range s.Jobs {
		if j.Stuck && !n.goesOn(j.Begun) {
			c.late[j.Begun], left = -1, true // with so little room it stays where it is
		}
	}
	if left {
		n = c.empty(s)
	}
	n.Whole, n.Limit, n.stated, n.Spent = s.Whole, s.Limit, s.stated, s.Spent
	jobs := slices.Clone(s.Jobs)
	for x, j := range jobs {
		if j.Stuck && n.Model.Begun[j.Begun].Left != nil {
			jobs[x], _ = n.CarryOn(j.Begun, nil)
		}
	}
	n.Hold(s.Homes, s.Stocks, jobs)
	return n
}

// empty is the empty plan of the model as it is now, with what is under way where a plan has it.
func (c *course) empty(s *Plan) *Plan {
	n := NewPlan(c.inTime.Within(c.late))
	n.Homes = s.Homes
	if c.limit.Until > 0 {
		n.Relax.AloneMost = relaxMost(c.limit)
	}
	return n
}

// goesOn reports whether a job under way may go on with the kitchen to itself.
func (s *Plan) goesOn(b int) bool {
	bg := &s.Model.Begun[b]
	grid := problem.Grid{Origin: problem.FloorTo(s.Model.From, s.Model.Step), Step: s.Model.Step}
	_, ok := s.ChainsOf(grid, &chain.Prospect{Family: bg.Family, Begun: b, Modes: []*problem.Mode{&bg.Mode}, Fixed: len(bg.Starts)})
	return ok && s.Relax.AloneUnderWay(&s.Schedule, b).OK
}

// Begin is the empty plan of a model, in which what is under way may run as late as it must by
// itself, and as late as the plan that the model hints at has it.
func Begin(m *problem.Model) *Plan {
	_, s := newCourse(m, DefaultWhole, chain.Limit{})
	return s
}

// asHinted lets each job run as late as the earlier plan has it: that plan may still hold.
func (c *course) asHinted() {
	for i := range c.inTime.Hints {
		h := &c.inTime.Hints[i]
		if h.Begun < 0 || len(h.Starts) != len(c.inTime.Begun[h.Begun].Mode.Acts) {
			continue
		}
		c.late[h.Begun] = max(c.late[h.Begun], c.inTime.Begun[h.Begun].LateBy(h.Starts))
	}
}
