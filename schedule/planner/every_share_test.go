package planner_test

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// giver is a batch or an entry of stock as those who share out pieces see it.
type giver struct {
	sell   int  // pieces it can give
	serves int  // pieces it must give, unless one is promised
	reach  uint // the wants that it may give to
	ends   uint // of these, those that leave when it does: one at least gets a piece
}

// shared is one state while pieces are shared out want by want.
type shared struct {
	given    [mostGivers]uint8 // by giver
	promised uint              // the givers that gave a promised piece
	ended    uint              // the givers that gave to a target with which they leave
}

// mostGivers is how many batches and entries of stock one plan is tried with.
const mostGivers = 10

// short is the value of pieces short, promised ones first.
type short struct{ promised, other resources.Money }

func (s short) less(o short) bool {
	return s.promised < o.promised || s.promised == o.promised && s.other < o.other
}

// reached is the best way to a state, and how it came about.
type reached struct {
	state  shared
	lost   short
	before *reached
}

// shareOut gives the least that is left short when all givers give something as they
// must; nil when they cannot. The last of the chain of states is returned.
func shareOut(wants []everyWant, givers []giver) *reached {
	layer := []*reached{{}}
	for w := range wants {
		var next []*reached
		known := map[shared]*reached{}
		for _, from := range layer {
			give(wants, givers, w, 0, wants[w].Pieces, from.state, func(s shared, left int) {
				lost := from.lost
				value := wants[w].Price * resources.Money(left)
				if wants[w].Promised {
					lost.promised += value
				} else {
					lost.other += value
				}
				old := known[s]
				switch {
				case old == nil:
					old = &reached{s, lost, from}
					known[s] = old
					next = append(next, old)
				case lost.less(old.lost):
					old.lost, old.before = lost, from
				}
			})
		}
		layer = next
	}
	var best *reached
	for _, r := range layer {
		if r.state.done(givers) && (best == nil || r.lost.less(best.lost)) {
			best = r
		}
	}
	return best
}

// give tries every way of giving pieces to want w from giver g on.
func give(wants []everyWant, givers []giver, w, g, left int, s shared, then func(shared, int)) {
	if g == len(givers) {
		then(s, left)
		return
	}
	most := 0
	if givers[g].reach>>w&1 == 1 {
		most = min(left, givers[g].sell-int(s.given[g]))
	}
	for n := 0; n <= most; n++ {
		t := s
		if n > 0 {
			t.given[g] += uint8(n)
			if wants[w].Promised {
				t.promised |= 1 << g
			}
			if givers[g].ends>>w&1 == 1 {
				t.ended |= 1 << g
			}
		}
		give(wants, givers, w, g+1, left-n, t, then)
	}
}

// done reports whether every giver has given what it must.
func (s *shared) done(givers []giver) bool {
	for i, g := range givers {
		if g.ends != 0 && s.ended>>i&1 == 0 {
			return false
		}
		if int(s.given[i]) < g.serves && s.promised>>i&1 == 0 {
			return false
		}
	}
	return true
}

// sharesOf writes out who gives what, from the last of a chain of states.
func (r *reached) sharesOf(givers int, wants []everyWant, targets []schedule.Target) [][]schedule.Share {
	out := make([][]schedule.Share, givers)
	for w := len(wants) - 1; w >= 0; w-- {
		for g := range out {
			n := int(r.state.given[g]) - int(r.before.state.given[g])
			if n == 0 {
				continue
			}
			s := schedule.Share{Target: targets[wants[w].target].Name, By: wants[w].by, Want: wants[w].place, Pieces: n}
			if wants[w].Promised {
				s.Promised = n
			}
			out[g] = append([]schedule.Share{s}, out[g]...)
		}
		r = r.before
	}
	return out
}
