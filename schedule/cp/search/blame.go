package search

import (
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
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

// lift is a thing and how to make it free for a try; back undoes that.
type lift struct {
	what lack
	free func() (back func())
}

// missing is a set of things that must all be lifted for a job to be placed, no
// smaller part of which is enough: with all lifted, they are put back one after
// another, and stay back where the job still fits.
func (s *Plan) missing(family int, w problem.Window, lifts []lift) []lack {
	stays := make([]bool, len(lifts)) // as it is
	try := func() bool {
		var backs []func()
		for i := range lifts {
			if !stays[i] {
				backs = append(backs, lifts[i].free())
			}
		}
		ok := s.can(family, w)
		for i := len(backs) - 1; i >= 0; i-- {
			backs[i]()
		}
		return ok
	}
	if !try() {
		return nil
	}
	var out []lack
	for i := range lifts {
		stays[i] = true
		if !try() {
			stays[i] = false
			out = append(out, lifts[i].what)
		}
	}
	return out
}

// taken are the things that other jobs can hold.
func (s *Plan) taken(family int) []lift {
	mode := &s.Model.Families[family].Modes[0]
	out := []lift{
		{lack{lackWorker, -1}, s.withIdleWorkers},
		{lack{lackIntake, s.Model.Families[family].Supply}, func() func() { return s.withoutSupply(family) }},
		{lack{lackSpace, -1}, func() func() { return s.withoutStays(family) }},
	}
	for r := range mode.Runs {
		choices := mode.Runs[r].Choices
		what := lack{lackPool, choices[0].Pool}
		if len(choices) > 1 {
			what.index = -1
		}
		out = append(out, lift{what, func() func() { return s.withEndless(choices) }})
	}
	return out
}

// withIdleWorkers has no work placed for anybody.
func (s *Plan) withIdleWorkers() func() {
	busy, load := s.Busy, s.Load
	s.Busy = make([][]usage.Shift, len(busy))
	s.Load = make([][]int, len(load))
	for w := range load {
		s.Load[w] = make([]int, len(load[w]))
	}
	return func() { s.Busy, s.Load = busy, load }
}

// withoutStays frees the family's smallest mode of spaces.
func (s *Plan) withoutStays(family int) func() {
	mode := &s.Model.Families[family].Modes[0]
	kept := mode.Stays
	mode.Stays = nil
	return func() { mode.Stays = kept }
}

// withoutSupply frees the family of its supply.
func (s *Plan) withoutSupply(family int) func() {
	f := &s.Model.Families[family]
	kept := f.Supply
	f.Supply = -1
	return func() { f.Supply = kept }
}

// withEndless gives the pools of a run no end of units.
func (s *Plan) withEndless(choices []problem.PoolChoice) func() {
	kept := make([]int, len(choices))
	for i, c := range choices {
		kept[i] = s.Model.Pools[c.Pool].Capacity
		s.Model.Pools[c.Pool].Capacity = problem.Infinite
	}
	return func() {
		for i := len(choices) - 1; i >= 0; i-- {
			s.Model.Pools[choices[i].Pool].Capacity = kept[i]
		}
	}
}
