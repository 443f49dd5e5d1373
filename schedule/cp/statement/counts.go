package statement

import (
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// Room is how many jobs of a last delivery a question may use: the slots that are open,
// while closed[open] is assumed. The last of closed is the overflow's own.
type Room struct {
	Key    problem.Delivery
	Closed []kernel.Lit
	Open   int
}

// shut is the literal that there is none beyond the open slots.
func (r *Room) shut() kernel.Lit { return r.Closed[r.Open] }

// Counts is how many slots of each last delivery a statement has: those that a question
// may use, and spare ones, which stay shut until they are needed. To open one of them keeps
// what the kernel has learned; to state the model again forgets it.
type Counts struct {
	Open, Spare map[problem.Delivery]int
}

// NewCounts counts no slots yet.
func NewCounts() Counts { return Counts{map[problem.Delivery]int{}, map[problem.Delivery]int{}} }

// Widen opens one slot more in rooms; false where one of them has no spare one left. Then
// the statement is to be made again, and that room gets twice as many and one.
func (c Counts) Widen(rooms []*Room) (stands bool) {
	stands = true
	for _, r := range rooms {
		c.Open[r.Key]++
		r.Open++
		if r.Open == len(r.Closed) {
			stands = false
			c.Spare[r.Key] = 2*c.Spare[r.Key] + 1
		}
	}
	return stands
}

// SpareEach gives every last delivery so many spare slots at the least.
func (c Counts) SpareEach(n int) {
	for key := range c.Open {
		c.Spare[key] = max(c.Spare[key], n)
	}
}

// MakeRoom counts a slot for every new job of a plan, and a little more, where there are
// not as many yet.
func (c Counts) MakeRoom(s *usage.Ledger) {
	used := map[problem.Delivery]int{}
	for _, j := range s.Jobs {
		if j.Begun < 0 {
			used[problem.Delivery{Family: j.Family, Due: j.End}]++
		}
	}
	for f := range s.Model.Families {
		for _, due := range problem.DuesOf(s.Model, f) {
			key := problem.Delivery{Family: f, Due: due}
			c.Open[key] = max(c.Open[key], used[key]+roomForMore)
		}
	}
}

// roomForMore is how many slots a last delivery has beyond those in use.
const roomForMore = 1
