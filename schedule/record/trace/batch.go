package trace

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/measured"
	"ripeby/schedule/record"
)

// Batch is all that is told of one batch.
type Batch struct {
	Neighbour
	Kept     *schedule.KeptBatch // nil where only the record knows of it
	Litres   resources.Millilitres
	Milk     *Collection // one step back; nil where it is not known, or always to hand
	Packets  []Packet
	Stages   []Stage
	Measured []measured.Row // what was to be written down, and what was
	Leavings []Leaving      // one step forward
	Balance  Balance
	Before   []Neighbour // made just before, the nearest last
	After    []Neighbour // made just after, the nearest first
	Entries  record.Entries
}

// Neighbour is a batch in short.
type Neighbour struct {
	ID, Lot string // both "" of a batch off the plan that no plan has named yet
	Cheese  string
	Made    resources.Moment // when its make began; 0 where that is not known
	Known   Known            // how it is known that it did
}

// neighbours is how many batches are told of that were made before, and after.
const neighbours = 5

// neighbour is a batch in short.
func (a *Archive) neighbour(s *source) Neighbour {
	n := Neighbour{Cheese: s.cheese, Made: s.made}
	switch {
	case s.kept != nil:
		n.ID, n.Lot = s.kept.ID, s.kept.Lot
	case len(s.names) > 0:
		n.ID = s.names[0]
	}
	if stages := a.stages(s); len(stages) > 0 {
		n.Known = stages[0].Known
	}
	return n
}

// batch tells all of one.
func (a *Archive) batch(s *source) *Batch {
	b := &Batch{Neighbour: a.neighbour(s), Kept: s.kept, Litres: a.litresOf(s), Packets: s.packets, Stages: a.stages(s), Leavings: a.leavings(s), Entries: a.entriesOf(s)}
	if c, known, ok := a.milkOf(s); ok {
		b.Milk = a.collected(c)
		b.Milk.Known = known
	}
	b.Balance = a.balance(s, b.Leavings)
	b.Measured = a.measured(s, b.Stages)
	if s.made != 0 {
		for i := max(0, s.place-neighbours); i < s.place; i++ {
			b.Before = append(b.Before, a.neighbour(a.sources[i]))
		}
		for i := s.place + 1; i < len(a.sources) && i <= s.place+neighbours && a.sources[i].made != 0; i++ {
			b.After = append(b.After, a.neighbour(a.sources[i]))
		}
	}
	return b
}

// measured are the measures of a batch as it was kept, with what was said of each.
func (a *Archive) measured(s *source, stages []Stage) []measured.Row {
	if s.kept == nil {
		return nil
	}
	began := func(stage string) resources.Moment {
		if t := find(stages, func(t *Stage) bool { return t.Name == stage }); t != nil && t.Known != Planned {
			return t.Start
		}
		return 0
	}
	return measured.Rows(s.kept.Measures(), began, a.standing(s.entries).Measured())
}

// entriesOf are all that a batch is spoken of in: of itself, of its milk, and of what left of it,
// in the order of what they tell of. What says that a packet was opened is among them.
func (a *Archive) entriesOf(s *source) record.Entries {
	all := slices.Clone(s.entries)
	if c, _, ok := a.milkOf(s); ok {
		all = append(all, a.milk[c]...)
	}
	for _, p := range s.packets {
		if p.By != nil && p.By.Subject.Kind == record.OfPacket {
			all = append(all, p.By)
		}
	}
	for _, e := range a.book.All() {
		if e.Subject.Kind == record.OfTarget && a.concerns(s, e) && !slices.Contains(all, e) {
			all = append(all, e)
		}
	}
	return all.ByTime()
}

// concerns reports whether an entry is about a target that a batch has a share of.
func (a *Archive) concerns(s *source, e *record.Entry) bool {
	for _, name := range []string{e.Subject.Full(), e.Subject.Name} {
		if h := a.targets[passing{name, e.Subject.Cheese}]; h != nil && find(h.shares, func(x *share) bool { return x.source == s }) != nil {
			return true
		}
	}
	return false
}
