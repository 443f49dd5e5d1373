package cp

// BlameKind tells what stands in the way of a demand that is short.
type BlameKind int

// What can stand in the way.
const (
	BlameTime    BlameKind = iota // the chain is longer than the time that is left
	BlameNoMode                   // no mode can be made with what there is
	BlameServes                   // too few units for a job
	BlameAlone                    // Things, even with the kitchen to itself
	BlameTaken                    // Things, which other jobs hold
	BlameUnknown                  // nothing: more work might find a plan
)

// ThingKind is a kind of thing that a job needs.
type ThingKind int

// The things that a job needs.
const (
	ThingPool   ThingKind = iota // Index the pool; -1 for every pool of a run that may choose
	ThingIntake                  // Index the supply
	ThingSpace                   // every space
	ThingWorker                  // every worker
)

// Thing is something that a job needs and does not get.
type Thing struct {
	Kind  ThingKind
	Index int
}

// Blame is why a demand is short. With Things, one more job could serve the demand
// if all of them were lifted, and not if one of them stayed as it is.
type Blame struct {
	Demand int
	Kind   BlameKind
	Things []Thing
	Least  int // BlameTime: ticks that the chain takes at the least
	Left   int // and the ticks that there are
}

// blame finds why nothing more serves a demand.
func (s *state) blame(d int) Blame {
	b := Blame{Demand: d, Kind: BlameUnknown}
	dm := &s.m.Demands[d]
	f := &s.m.Families[dm.Family]
	if len(f.Modes) == 0 {
		b.Kind = BlameNoMode
		return b
	}
	b.Least, b.Left = leastLength(&f.Modes[0]), dm.Due-dm.Ahead-s.first
	if b.Least > b.Left {
		b.Kind = BlameTime
		return b
	}
	w := s.m.windowOf(dm.Family, []Share{{d, 1}})
	if s.hopeless(d) {
		empty := s.prep.empty(s.m)
		before := empty.spent
		b.Kind, b.Things = BlameAlone, empty.missing(dm.Family, w, empty.alone(dm.Family))
		s.spent += empty.spent - before
		return b
	}
	switch {
	case !s.can(dm.Family, w):
		b.Kind, b.Things = BlameTaken, s.missing(dm.Family, w, s.taken(dm.Family))
	case !dm.Promised && s.wantedNear(d) < f.Serves:
		b.Kind = BlameServes
	}
	return b
}

// leastLength is the least time from the first start to the end of the last work.
func leastLength(m *Mode) int {
	n := 0
	for i := range m.Acts {
		n += m.Acts[i].Work
		if i < len(m.Acts)-1 {
			n += m.Acts[i].Lag.Least
		}
	}
	return n
}

// wantedNear is how many units one job could serve beside demand d.
func (s *state) wantedNear(d int) int {
	dm := &s.m.Demands[d]
	n := 0
	for _, o := range s.prep.byDue[dm.Family] {
		gap := s.m.Demands[o].Due - dm.Due
		if max(gap, -gap) <= s.m.Families[dm.Family].Keeps {
			n += s.unmet[o]
		}
	}
	return n
}

// can reports whether the smallest job could be placed for the window now.
func (s *state) can(family int, w window) bool {
	_, ok := s.place(s.query(family, 0, w))
	return ok
}

// lift is a thing and how to make it free for a try; back undoes that.
type lift struct {
	thing Thing
	free  func() (back func())
}

// missing is a set of things that must all be lifted for a job to be placed, no
// smaller part of which is enough: with all lifted, they are put back one after
// another, and stay back where the job still fits.
func (s *state) missing(family int, w window, lifts []lift) []Thing {
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
	var out []Thing
	for i := range lifts {
		stays[i] = true
		if !try() {
			stays[i] = false
			out = append(out, lifts[i].thing)
		}
	}
	return out
}

// alone are the things that can forbid a job that has the kitchen to itself.
func (s *state) alone(family int) []lift {
	return []lift{
		{Thing{ThingSpace, -1}, func() func() { return s.withoutStays(family) }},
		{Thing{ThingIntake, s.m.Families[family].Supply}, func() func() { return s.withoutSupply(family) }},
		{Thing{ThingWorker, -1}, s.withOpenHours},
	}
}

// taken are the things that other jobs can hold.
func (s *state) taken(family int) []lift {
	mode := &s.m.Families[family].Modes[0]
	out := []lift{
		{Thing{ThingWorker, -1}, s.withIdleWorkers},
		{Thing{ThingIntake, s.m.Families[family].Supply}, func() func() { return s.withoutSupply(family) }},
		{Thing{ThingSpace, -1}, func() func() { return s.withoutStays(family) }},
	}
	for r := range mode.Runs {
		choices := mode.Runs[r].Choices
		thing := Thing{ThingPool, choices[0].Pool}
		if len(choices) > 1 {
			thing.Index = -1
		}
		out = append(out, lift{thing, func() func() { return s.withEndless(choices) }})
	}
	return out
}

// withOpenHours has every worker there at all times.
func (s *state) withOpenHours() func() {
	kept := append([]Worker(nil), s.m.Workers...)
	for w := range s.m.Workers {
		s.m.Workers[w].Windows = []Span{{s.m.From, s.m.Horizon}}
		s.m.Workers[w].Days = nil
	}
	return func() { copy(s.m.Workers, kept) }
}

// withIdleWorkers has no work placed for anybody.
func (s *state) withIdleWorkers() func() {
	busy, load := s.busy, s.load
	s.busy = make([][]shift, len(busy))
	s.load = make([][]int, len(load))
	for w := range load {
		s.load[w] = make([]int, len(load[w]))
	}
	return func() { s.busy, s.load = busy, load }
}

// withoutStays frees the family's smallest mode of spaces.
func (s *state) withoutStays(family int) func() {
	mode := &s.m.Families[family].Modes[0]
	kept := mode.Stays
	mode.Stays = nil
	return func() { mode.Stays = kept }
}

// withoutSupply frees the family of its supply.
func (s *state) withoutSupply(family int) func() {
	f := &s.m.Families[family]
	kept := f.Supply
	f.Supply = -1
	return func() { f.Supply = kept }
}

// withEndless gives the pools of a run no end of units.
func (s *state) withEndless(choices []PoolChoice) func() {
	kept := make([]int, len(choices))
	for i, c := range choices {
		kept[i] = s.m.Pools[c.Pool].Capacity
		s.m.Pools[c.Pool].Capacity = Infinite
	}
	return func() {
		for i := len(choices) - 1; i >= 0; i-- {
			s.m.Pools[choices[i].Pool].Capacity = kept[i]
		}
	}
}
