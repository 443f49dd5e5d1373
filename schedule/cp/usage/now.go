package usage

import (
	"slices"

	"ripeby/schedule/cp/problem"
)

// Now is what stands in the spaces before anything is planned: of what has begun, and of stock. What
// is carried from one space to another is taken out of it and put into it again.
type Now struct {
	s             Ledger
	Begun, Stocks []problem.StayPlace // where the running stay of each job under way stands, and each stock
}

// StandNow is where all that stands now does; what of it is in the way of what, [Now.Put] says.
func StandNow(m *problem.Model) *Now {
	n := &Now{s: NewLedger(m, NewPackings(m))}
	n.s.SettleHomes()
	n.Begun = n.s.Homes
	for i := range n.s.Stocks {
		n.Stocks = append(n.Stocks, n.s.Stocks[i].Place)
	}
	return n
}

// Boxes are so many boxes of a kind that stand somewhere for a time.
type Boxes struct {
	Kind, Boxes int
	problem.Span
}

// Put has boxes stand where they do.
func (n *Now) Put(b Boxes, at problem.StayPlace) {
	if at.Space >= 0 && !at.Homeless && b.Boxes > 0 {
		n.s.addVisit(at.Space, Visit{From: b.From, Until: b.Until, Kind: b.Kind, Boxes: b.Boxes, Stacks: at.Stacks, Begun: true})
	}
}

// Take takes boxes away that were put.
func (n *Now) Take(b Boxes, at problem.StayPlace) {
	if at.Space < 0 || at.Homeless {
		return
	}
	list := n.s.Spaces[at.Space]
	i := slices.IndexFunc(list, func(v Visit) bool {
		return v.Kind == b.Kind && v.Boxes == b.Boxes && v.From == b.From && v.Until == b.Until && slices.Equal(v.Stacks, at.Stacks)
	})
	if i >= 0 {
		n.s.Spaces[at.Space] = slices.Delete(slices.Clone(list), i, i+1)
	}
}

// Room finds where boxes can stand in a space beside all that was put, on floors that are open all
// through a span: as they are preferred to, if they can.
func (n *Now) Room(b Boxes, space int, prefer []problem.Standing, open problem.Span) (problem.StayPlace, bool) {
	if n.s.StandsFree(space, b.Kind, b.Boxes, prefer, b.From, b.Until) {
		return problem.StayPlace{Space: space, Stacks: prefer}, true
	}
	stacks, ok := n.s.standOpen(space, b.Kind, b.Boxes, open, b.From, b.Until)
	return problem.StayPlace{Space: space, Stacks: stacks}, ok
}
