package cp

// slotCounts is how many slots of each last delivery a statement has: those that a question
// may use, and spare ones, which stay shut until they are needed. To open one of them keeps
// what the kernel has learned; to state the model again forgets it.
type slotCounts struct {
	open, spare map[slotKey]int
}

func newSlotCounts() slotCounts {
	return slotCounts{map[slotKey]int{}, map[slotKey]int{}}
}

// widen opens one slot more in rooms; false where one of them has no spare one left. Then
// the statement is to be made again, and that room gets twice as many and one.
func (c slotCounts) widen(rooms []*room) (stands bool) {
	stands = true
	for _, r := range rooms {
		c.open[r.key]++
		r.open++
		if r.open == len(r.closed) {
			stands = false
			c.spare[r.key] = 2*c.spare[r.key] + 1
		}
	}
	return stands
}

// spareEach gives every last delivery so many spare slots at the least.
func (c slotCounts) spareEach(n int) {
	for key := range c.open {
		c.spare[key] = max(c.spare[key], n)
	}
}

// makeRoom counts a slot for every new job of a plan, and a little more, where there are
// not as many yet.
func (c slotCounts) makeRoom(s *ledger) {
	used := map[slotKey]int{}
	for _, j := range s.jobs {
		if j.Begun < 0 {
			used[slotKey{j.Family, j.End}]++
		}
	}
	for f := range s.m.Families {
		for _, due := range duesOf(s.m, f) {
			key := slotKey{f, due}
			c.open[key] = max(c.open[key], used[key]+roomForMore)
		}
	}
}

// roomForMore is how many slots a last delivery has beyond those in use.
const roomForMore = 1
