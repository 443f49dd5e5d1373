package search

import (
	"slices"

	"ripeby/schedule/cp/bound"
	"ripeby/schedule/cp/problem"
)

// The plan in force is where the search begins. What of it still holds is put back as it was:
// who does what, with which kit, in which place and on which spot. It is the first plan, and
// only a better one takes its place; so nothing worse than it is ever given, however little
// the work, and of equal plans the earlier one stays.

// likeness is how much of an earlier job is asked for again.
type likeness int

const (
	wholly   likeness = iota // all of it
	unplaced                 // all but the spots on the shelves
	timed                    // its starts, and the spots where they are free
)

// putBack puts back the new jobs of an earlier plan and gives the orders that are left: all
// that can be as they were come first, so that none of them gives way to one that cannot.
func (s *Plan) putBack(orders []bound.Order) (left []bound.Order) {
	left = orders
	for like := wholly; like <= timed; like++ {
		left = slices.DeleteFunc(slices.Clone(left), func(or bound.Order) bool {
			if or.Hint == nil || or.Hint.Starts == nil {
				return false
			}
			j, ok := s.placeAgain(or.Hint, or.Shares, like)
			if ok {
				s.Add(j)
			}
			return ok
		})
	}
	return left
}

// placeAgain places a new job of an earlier plan for what it is to serve now.
func (s *Plan) placeAgain(h *problem.Hint, shares []problem.Share, like likeness) (*problem.Job, bool) {
	mode, modes := s.modeFor(h.Family, shares), s.Model.Families[h.Family].Modes
	if like != timed {
		if h.Exact == nil {
			return nil, false
		}
		mode = h.Exact.Mode
	}
	switch {
	case mode < 0 || mode >= len(modes) || problem.UnitsOf(shares) > modes[mode].Units || !s.enough(h.Family, shares):
		return nil, false
	case len(h.Starts) != len(modes[mode].Acts) || like != timed && !h.Exact.Fits(&modes[mode], 0):
		return nil, false
	}
	s.Spent += 50
	q := s.Query(h.Family, mode, s.Model.WindowOf(h.Family, shares))
	q.Exact, q.Stood = h.Starts, h.Stood
	if like != timed {
		q.As, q.Firm = h.Exact, like == wholly
	}
	j, ok := s.Place(q)
	if !ok {
		return nil, false
	}
	j.Family, j.Mode, j.Shares = h.Family, mode, shares
	if h.Kept != nil && s.Model.Calm() && s.IsFree(h.Kept) {
		j.Kept = h.Kept
	}
	return j, true
}
