package cp

// BlameKind tells what stands in the way of a demand that is short.
type BlameKind int

// What can stand in the way.
const (
	BlameTime    BlameKind = iota // the chain is longer than the time that is left
	BlameNoMode                   // no mode can be made with what there is
	BlameIntake                   // no intake in time, Index the supply
	BlameHours                    // workers' windows, with the kitchen to itself
	BlameSpace                    // spaces, with the kitchen to itself
	BlameServes                   // too few units for a job
	BlameKeeps                    // units may not keep from the last possible end of work to the delivery
	BlamePool                     // pool Index is held by others
	BlameBusy                     // workers are busy with other jobs
	BlameDrawn                    // intakes are drawn by other jobs, Index the supply
	BlameFull                     // spaces are filled by other jobs
	BlameSeveral                  // more than one of these at once
	BlameUnknown                  // nothing: more work might find a plan
)

// Blame is why a demand is short. It names a thing whose lifting alone would let
// one more job serve the demand.
type Blame struct {
	Demand int
	Kind   BlameKind
	Index  int // pool or supply, -1 for none
	Least  int // BlameTime: ticks that the chain takes at the least
	Left   int // and the ticks that there are
}

// blame finds why nothing more serves a demand.
func (s *state) blame(d int) Blame {
	b := Blame{Demand: d, Kind: BlameUnknown, Index: -1}
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
		s.blameIdle(&b, dm.Family, w)
		return b
	}
	if !dm.Promised && s.wantedNear(d) < f.Serves {
		b.Kind = BlameServes
		return b
	}
	s.blameOthers(&b, dm.Family, w)
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
func (s *state) can(family int, w window, supply bool) bool {
	q := s.query(family, 0, w)
	if !supply {
		q.supply = -1
	}
	_, ok := s.place(q)
	return ok
}

// blameIdle names what forbids a job that has the kitchen to itself.
func (s *state) blameIdle(b *Blame, family int, w window) {
	empty := s.prep.empty(s.m)
	before := empty.spent
	defer func() { s.spent += empty.spent - before }()
	if s.m.Families[family].Supply >= 0 && empty.can(family, w, false) {
		b.Kind, b.Index = BlameIntake, s.m.Families[family].Supply
		return
	}
	if empty.withOpenHours(func() bool { return empty.can(family, w, true) }) {
		b.Kind = BlameHours
		return
	}
	if empty.withoutStays(family, func() bool { return empty.can(family, w, true) }) {
		b.Kind = BlameSpace
		return
	}
	b.Kind = BlameSeveral
}

// withOpenHours runs try with every worker there at all times.
func (s *state) withOpenHours(try func() bool) bool {
	kept := make([]Worker, len(s.m.Workers))
	copy(kept, s.m.Workers)
	for w := range s.m.Workers {
		s.m.Workers[w].Windows = []Span{{s.m.From, s.m.Horizon}}
		s.m.Workers[w].Days = nil
	}
	ok := try()
	copy(s.m.Workers, kept)
	return ok
}

// withoutStays runs try with the family's smallest mode free of spaces.
func (s *state) withoutStays(family int, try func() bool) bool {
	mode := &s.m.Families[family].Modes[0]
	kept := mode.Stays
	mode.Stays = nil
	ok := try()
	mode.Stays = kept
	return ok
}

// blameOthers names what other jobs hold that this one needs.
func (s *state) blameOthers(b *Blame, family int, w window) {
	if s.can(family, w, true) {
		return
	}
	mode := &s.m.Families[family].Modes[0]
	seen := map[int]bool{}
	for r := range mode.Runs {
		for _, c := range mode.Runs[r].Choices {
			if seen[c.Pool] {
				continue
			}
			seen[c.Pool] = true
			kept := s.m.Pools[c.Pool].Capacity
			s.m.Pools[c.Pool].Capacity = Infinite
			ok := s.can(family, w, true)
			s.m.Pools[c.Pool].Capacity = kept
			if ok {
				b.Kind, b.Index = BlamePool, c.Pool
				return
			}
		}
	}
	if s.m.Families[family].Supply >= 0 && s.can(family, w, false) {
		b.Kind, b.Index = BlameDrawn, s.m.Families[family].Supply
		return
	}
	if s.withoutStays(family, func() bool { return s.can(family, w, true) }) {
		b.Kind = BlameFull
		return
	}
	if s.withIdleWorkers(func() bool { return s.can(family, w, true) }) {
		b.Kind = BlameBusy
		return
	}
	b.Kind = BlameSeveral
}

// withIdleWorkers runs try with no work placed for anybody.
func (s *state) withIdleWorkers(try func() bool) bool {
	busy, load := s.busy, s.load
	s.busy = make([][]shift, len(busy))
	s.load = make([][]int, len(load))
	for w := range load {
		s.load[w] = make([]int, len(load[w]))
	}
	ok := try()
	s.busy, s.load = busy, load
	return ok
}
