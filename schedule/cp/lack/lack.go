package lack

import (
	"slices"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// kind is a kind of thing that a job needs.
type kind int

// The things that a job needs.
const (
	ofPool   kind = iota // Index the pool; -1 for every pool of a run that may choose
	ofIntake             // Index the supply
	ofSpace              // every space
	ofWorker             // every worker
)

// Thing is something that a job needs and does not get.
type Thing struct {
	kind  kind
	index int
	run   int // of a pool: the run that wants it
}

// Of finds things that other jobs hold, or that there are too few of, without which
// one more job could serve a demand now; nil for none. It goes by what is placed and
// proves nothing: it says where the search should make room.
func Of(s *chain.Schedule, d int) []Thing {
	dm := &s.Model.Demands[d]
	f := &s.Model.Families[dm.Family]
	if len(f.Modes) == 0 || problem.LeastLength(&f.Modes[0]) > dm.Due-dm.Ahead-s.First || Hopeless(s, d) {
		return nil
	}
	w := s.Model.WindowOf(dm.Family, []problem.Share{{Demand: d, Units: 1}})
	if can(s, dm.Family, w) {
		return nil
	}
	return missing(s, dm.Family, w, taken(s, dm.Family))
}

// can reports whether the smallest job could be placed for the window now.
func can(s *chain.Schedule, family int, w problem.Window) bool {
	_, ok := s.Place(s.Query(family, 0, w))
	return ok
}

// missing is a set of things that must all be lifted for a job to be placed, no smaller part
// of which is enough; nil where all together are not.
func missing(s *chain.Schedule, family int, w problem.Window, things []Thing) []Thing {
	if !lifted(s, family, things, w) {
		return nil
	}
	out, _ := kernel.Shrink(things, things, func(rest []Thing) (kernel.Status, []Thing) {
		if lifted(s, family, rest, w) {
			return kernel.Impossible, rest // to be placed is what the set is for
		}
		return kernel.Solved, nil
	})
	return out
}

// taken are the things that other jobs can hold.
func taken(s *chain.Schedule, family int) []Thing {
	mode := &s.Model.Families[family].Modes[0]
	out := []Thing{{ofWorker, -1, -1}, {ofIntake, s.Model.Families[family].Supply, -1}, {ofSpace, -1, -1}}
	for r := range mode.Runs {
		what := Thing{ofPool, mode.Runs[r].Choices[0].Pool, r}
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
func lifted(s *chain.Schedule, family int, things []Thing, w problem.Window) bool {
	m := *s.Model
	m.Families, m.Pools = slices.Clone(m.Families), slices.Clone(m.Pools)
	f := &m.Families[family]
	f.Modes = slices.Clone(f.Modes)
	mode := &f.Modes[0]
	n := *s
	n.Model = &m
	for _, th := range things {
		switch th.kind {
		case ofWorker:
			n.IdleWorkers()
		case ofIntake:
			f.Supply = -1
		case ofSpace:
			mode.Stays = nil
		case ofPool:
			for _, c := range mode.Runs[th.run].Choices {
				m.Pools[c.Pool].Capacity = problem.Infinite
			}
		}
	}
	ok := can(&n, family, w)
	s.Spent = n.Spent
	return ok
}

// Hopeless reports whether no new job could serve a demand even with the kitchen
// to itself.
func Hopeless(s *chain.Schedule, d int) bool {
	dm := &s.Model.Demands[d]
	w := s.Model.WindowOf(dm.Family, []problem.Share{{Demand: d, Units: 1}})
	for m := range s.Model.Families[dm.Family].Modes {
		if s.Idle(dm.Family, m, w).OK {
			return false
		}
	}
	return true
}
