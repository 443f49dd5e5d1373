package search

import (
	"slices"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// lackKind is a kind of thing that a job needs.
type lackKind int

// The things that a job needs.
const (
	lackPool   lackKind = iota // Index the pool; -1 for every pool of a run that may choose
	lackIntake                 // Index the supply
	lackSpace                  // every space
	lackWorker                 // every worker
)

// lack is something that a job needs and does not get.
type lack struct {
	kind  lackKind
	index int
	run   int // of a pool: the run that wants it
}

// blame finds things that other jobs hold, or that there are too few of, without which
// one more job could serve a demand now; nil for none. It goes by what is placed and
// proves nothing: it says where the search should make room.
func (s *Plan) blame(d int) []lack {
	dm := &s.Model.Demands[d]
	f := &s.Model.Families[dm.Family]
	if len(f.Modes) == 0 || problem.LeastLength(&f.Modes[0]) > dm.Due-dm.Ahead-s.First || s.hopeless(d) {
		return nil
	}
	w := s.Model.WindowOf(dm.Family, []problem.Share{{Demand: d, Units: 1}})
	if s.can(dm.Family, w) {
		return nil
	}
	return s.missing(dm.Family, w, s.taken(dm.Family))
}

// can reports whether the smallest job could be placed for the window now.
func (s *Plan) can(family int, w problem.Window) bool {
	_, ok := s.Place(s.Query(family, 0, w))
	return ok
}

// missing is a set of things that must all be lifted for a job to be placed, no smaller part
// of which is enough; nil where all together are not.
func (s *Plan) missing(family int, w problem.Window, things []lack) []lack {
	if !s.lifted(family, things, w) {
		return nil
	}
	out, _ := kernel.Shrink(things, things, func(rest []lack) (kernel.Status, []lack) {
		if s.lifted(family, rest, w) {
			return kernel.Impossible, rest // to be placed is what the set is for
		}
		return kernel.Solved, nil
	})
	return out
}

// taken are the things that other jobs can hold.
func (s *Plan) taken(family int) []lack {
	mode := &s.Model.Families[family].Modes[0]
	out := []lack{{lackWorker, -1, -1}, {lackIntake, s.Model.Families[family].Supply, -1}, {lackSpace, -1, -1}}
	for r := range mode.Runs {
		what := lack{lackPool, mode.Runs[r].Choices[0].Pool, r}
		if len(mode.Runs[r].Choices) > 1 {
			what.index = -1
		}
		out = append(out, what)
	}
	return out
}

// lifted reports whether the family's smallest job could be placed for the window in a kitchen
// without some things that stand in its way: with no work placed for anybody, no supply to
// draw on, no boxes to put, or no end of units of a pool.
func (s *Plan) lifted(family int, things []lack, w problem.Window) bool {
	m := *s.Model
	m.Families, m.Pools = slices.Clone(m.Families), slices.Clone(m.Pools)
	f := &m.Families[family]
	f.Modes = slices.Clone(f.Modes)
	mode := &f.Modes[0]
	n := *s
	n.Model = &m
	for _, th := range things {
		switch th.kind {
		case lackWorker:
			n.IdleWorkers()
		case lackIntake:
			f.Supply = -1
		case lackSpace:
			mode.Stays = nil
		case lackPool:
			for _, c := range mode.Runs[th.run].Choices {
				m.Pools[c.Pool].Capacity = problem.Infinite
			}
		}
	}
	ok := n.can(family, w)
	s.Spent = n.Spent
	return ok
}
