package trace

import (
	"cmp"
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule/record"
)

// Packet is a packet or bottle of what goes into cheese: rennet, a culture, salt.
type Packet struct {
	What string
	Lot  string // "" where somebody opened it and did not say
	// Known is how it is known that a batch had of it: Said with the batch; or Assumed, for it was the one
	// that was open.
	Known Known
	By    *record.Entry // that says so; nil where its recipe has it go in and no packet was open
	// Stage is the one at which the batch's recipe had it go in; "" where it did not say what goes in.
	Stage string
}

// PacketOpened is a packet, since when it was open, and what it went into.
type PacketOpened struct {
	What, Lot string
	Opened    *record.Entry // nil where nobody said that it was opened, only what it went into
	UseBy     resources.Date
	Batches   []PacketUse // in the order in which they were made
	// Beside are batches that were made while it was open, and whose recipe says what goes in, but not this:
	// for a recall to ask, since a recipe may have forgotten it.
	Beside []Neighbour
	// Unsaid says that this is no packet: it is what recipes had go in while none was open.
	Unsaid bool
}

// PacketUse is a batch that a packet went into, or may have.
type PacketUse struct {
	Batch Neighbour
	Known Known
	Stage string // as of [Packet]
}

// packet is a lot of something, by the thing's name as it is compared; unsaid where none was open.
type packet struct {
	what, lot string
	unsaid    bool
}

// same is a thing's name as it is compared: Rennet is rennet.
func same(what string) string { return strings.ToLower(strings.TrimSpace(what)) }

// stillOpen is until when a packet is in use after which none was opened.
const stillOpen resources.Moment = 1 << 40

// opened is a packet that was opened, and until when it was the one in use.
type opened struct {
	by    *record.Entry
	until resources.Moment
}

// openings files what was opened by what it is, in the order of opening: each is in use until the next.
func (a *Archive) openings() {
	a.opened = map[string][]opened{}
	for _, e := range a.standing(a.book.All()).ByTime() {
		if e.Subject.Kind != record.OfPacket {
			continue
		}
		what := same(e.Subject.Name)
		if n := len(a.opened[what]); n > 0 {
			a.opened[what][n-1].until = e.At
		}
		a.opened[what] = append(a.opened[what], opened{by: e, until: stillOpen})
	}
	a.things = map[string]bool{}
	for _, s := range a.sources {
		s.packets = a.packetsOf(s)
		for _, p := range s.packets {
			a.things[same(p.What)] = true
		}
	}
}

// packetsOf are the packets that went into a batch: those that were said with it; of what was not said, by
// what was kept of its recipe those that were open during the work at which it goes in. Of a batch whose
// recipe did not say what goes in, all that were open between the beginning of its make and the end of its
// last work. Which of several it really had of is not known: a recall would rather have one too many.
func (a *Archive) packetsOf(s *source) (out []Packet) {
	said, needs := map[string]bool{}, a.needed(s)
	for _, e := range a.standing(s.entries) {
		for _, l := range e.Batch.Lots {
			said[same(l.What)] = true
			p := Packet{What: l.What, Lot: l.Lot, Known: Said, By: e}
			if n := find(needs, func(n *need) bool { return same(n.what) == same(l.What) }); n != nil {
				p.Stage = n.stage
			}
			out = append(out, p)
		}
	}
	var assumed []Packet
	add := func(what string, during resources.Span, stage string) (any bool) {
		for _, o := range a.opened[what] {
			if !said[what] && o.by.At <= during.Until && o.until > during.From {
				any = true
				assumed = append(assumed, Packet{What: o.by.Subject.Name, Lot: o.by.Packet.Lot, Known: Assumed, By: o.by, Stage: stage})
			}
		}
		return any
	}
	for _, n := range needs {
		if !add(same(n.what), n.during, n.stage) && !said[same(n.what)] {
			assumed = append(assumed, Packet{What: n.what, Known: Assumed, Stage: n.stage})
		}
	}
	if life := a.worked(s); life.From != 0 && len(needs) == 0 {
		for what := range a.opened {
			add(what, life, "")
		}
	}
	slices.SortStableFunc(assumed, func(x, y Packet) int {
		return cmp.Or(cmp.Compare(same(x.What), same(y.What)), compareEntries(x.By, y.By))
	})
	return append(out, slices.CompactFunc(assumed, func(x, y Packet) bool { return same(x.What) == same(y.What) && x.By == y.By })...)
}

// compareEntries goes by the moment, then by the number; what no entry says comes last.
func compareEntries(x, y *record.Entry) int {
	switch {
	case x == y:
		return 0
	case x == nil:
		return 1
	case y == nil:
		return -1
	}
	return cmp.Or(cmp.Compare(x.At, y.At), cmp.Compare(x.Nr, y.Nr))
}

// need is what a recipe had go into a batch, at work that has come.
type need struct {
	what, stage string
	during      resources.Span // from when that work began until it was over
}

// needed are those of a batch, by what was kept of it; none where its recipe did not say what goes in.
func (a *Archive) needed(s *source) (out []need) {
	if s.kept == nil {
		return nil
	}
	for _, t := range a.stages(s) {
		k := s.kept.Stage(t.Name)
		for i := 0; k != nil && t.Known != Planned && i < len(k.Needs); i++ {
			out = append(out, need{k.Needs[i].What, t.Name, resources.Span{From: t.Start, Until: t.Done}})
		}
	}
	return out
}

// worked is from when the make of a batch began until its last work that has come was over; From is 0
// where nothing of it has.
func (a *Archive) worked(s *source) resources.Span {
	span := resources.Span{From: s.made, Until: s.made}
	for _, t := range a.stages(s) {
		if t.Known != Planned {
			span.Until = max(span.Until, t.Done)
		}
	}
	return span
}

// packetsAsked are the packets of a thing, or of a lot; with a day only those open on it.
func (a *Archive) packetsAsked(word string, day resources.Date) (out []*PacketOpened, batches []*source) {
	seen := map[packet]*PacketOpened{}
	add := func(key packet, what string) *PacketOpened {
		if seen[key] == nil {
			seen[key] = &PacketOpened{What: what, Lot: key.lot, Unsaid: key.unsaid}
			out = append(out, seen[key])
		}
		return seen[key]
	}
	asked := func(what, lot string) bool { return same(what) == same(word) || lot == word && lot != "" }
	for what, list := range a.opened {
		for _, o := range list {
			open := resources.Span{From: o.by.At, Until: o.until}
			if asked(what, o.by.Packet.Lot) && (anyDay(day) || open.Overlaps(day.Span(a.zone))) {
				p := add(packet{what: what, lot: o.by.Packet.Lot}, o.by.Subject.Name)
				p.Opened, p.UseBy = o.by, o.by.Packet.UseBy.Or(resources.Date{})
				p.Beside = append(p.Beside, a.beside(what, o)...)
			}
		}
	}
	for _, s := range a.sources {
		for _, p := range s.packets {
			key := packet{same(p.What), p.Lot, p.By == nil}
			if !asked(p.What, p.Lot) || !anyDay(day) && seen[key] == nil && s.made.DateIn(a.zone) != day {
				continue
			}
			of := add(key, p.What)
			if n := len(of.Batches); n == 0 || of.Batches[n-1].Batch != a.neighbour(s) {
				of.Batches = append(of.Batches, PacketUse{a.neighbour(s), p.Known, p.Stage})
			}
			batches = append(batches, s)
		}
	}
	slices.SortFunc(out, func(x, y *PacketOpened) int {
		return cmp.Or(cmp.Compare(same(x.What), same(y.What)), compareUnsaid(x, y), cmp.Compare(x.since(), y.since()), cmp.Compare(x.Lot, y.Lot))
	})
	return out, batches
}

// compareUnsaid puts what is no packet last.
func compareUnsaid(x, y *PacketOpened) int {
	number := map[bool]int{true: 1}
	return number[x.Unsaid] - number[y.Unsaid]
}

// beside are the batches that were made while a packet was open, and whose recipe says what goes in, but not
// this.
func (a *Archive) beside(what string, o opened) (out []Neighbour) {
	for _, s := range a.sources {
		life := a.worked(s)
		if life.From == 0 || o.by.At > life.Until || o.until <= life.From || len(a.needed(s)) == 0 {
			continue
		}
		if !slices.ContainsFunc(s.packets, func(p Packet) bool { return same(p.What) == what }) {
			out = append(out, a.neighbour(s))
		}
	}
	return out
}

// since is when a packet was opened; 0 where nobody said.
func (p *PacketOpened) since() resources.Moment {
	if p.Opened == nil {
		return 0
	}
	return p.Opened.At
}

// packetNames are those of all things that were opened or went into a batch, and of their lots.
func (a *Archive) packetNames() (names []string) {
	for _, list := range a.opened {
		for _, o := range list {
			names = append(names, o.by.Subject.Name, o.by.Packet.Lot)
		}
	}
	for _, s := range a.sources {
		for _, p := range s.packets {
			names = append(names, p.What, p.Lot)
		}
	}
	return slices.DeleteFunc(once(names), func(s string) bool { return s == "" })
}
