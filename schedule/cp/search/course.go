package search

import (
	"slices"

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
}

// lateLadder is how late a job may run, tried in turn; the last is as late as it can be at all.
var lateLadder = [...]int64{0, 16, 128, 1024, 8192, problem.Infinite}

// newCourse is a model in which each job under way may run as late as it must by itself, and as late
// as the earlier plan has it, with the empty plan of it. One that cannot go on even so is left where it is.
func newCourse(m *problem.Model, whole int, limit chain.Limit) (*course, *Plan) {
	c := &course{inTime: m, late: make([]int64, len(m.Begun)), limit: limit}
	c.asHinted()
	for {
		s := c.plan(whole)
		some := c.raise(s, func(b int) bool { return !s.Relax.AloneUnderWay(&s.Schedule, b).OK }, true)
		for b := range c.late {
			// What runs so late in several parts may do better with one that is later.
			if late := s.Relax.AloneUnderWay(&s.Schedule, b).Late; c.late[b] >= 0 && late > c.late[b] {
				c.late[b], some = late, true
			}
		}
		if !some {
			return c, s
		}
	}
}

// plan is the empty plan of the model.
func (c *course) plan(whole int) *Plan {
	s := NewPlan(c.inTime.Within(c.late))
	s.Whole, s.Limit = whole, c.limit
	s.SettleHomes()
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

// raiseAll lets the jobs that a plan leaves where they are run as late as they can at all.
func (c *course) raiseAll(s *Plan) {
	for _, j := range s.Jobs {
		if j.Stuck && c.late[j.Begun] >= 0 {
			c.late[j.Begun] = problem.Infinite
		}
	}
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
	n := NewPlan(c.inTime.Within(c.late))
	n.Homes = s.Homes
	left := false
	for _, j := range s.Jobs {
		if j.Stuck && !n.goesOn(j.Begun) {
			c.late[j.Begun], left = -1, true // with so little room it stays where it is
		}
	}
	if left {
		n = NewPlan(c.inTime.Within(c.late))
		n.Homes = s.Homes
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

// goesOn reports whether a job under way may go on with the kitchen to itself.
func (s *Plan) goesOn(b int) bool {
	bg := &s.Model.Begun[b]
	grid := problem.Grid{Origin: problem.FloorTo(s.Model.From, s.Model.Step), Step: s.Model.Step}
	_, ok := s.ChainsOf(grid, &chain.Prospect{Family: bg.Family, Begun: b, Modes: []*problem.Mode{&bg.Mode}, Fixed: len(bg.Starts)})
	return ok && s.Relax.AloneUnderWay(&s.Schedule, b).OK
}

// overdueSooner has what runs past its time go on as soon as it can at the same cost: within a bit
// of lateness nothing else asks for it.
func (s *Plan) overdueSooner() {
	for _, j := range slices.Clone(s.Jobs) {
		if j.Begun < 0 || j.Stuck || !chain.Overruns(s.ModeOf(j), j) {
			continue
		}
		s.Remove(j)
		k, ok := s.CarryOn(j.Begun, j.Shares)
		if ok && s.JobCost(k) == s.JobCost(j) && slices.Compare(k.Starts, j.Starts) < 0 {
			j = k
		}
		s.Add(j)
	}
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
