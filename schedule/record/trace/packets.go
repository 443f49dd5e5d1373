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
	By    *record.Entry // that says so
}

// PacketOpened is a packet, since when it was open, and what it went into.
type PacketOpened struct {
	What, Lot string
	Opened    *record.Entry // nil where nobody said that it was opened, only what it went into
	UseBy     resources.Date
	Batches   []PacketUse // in the order in which they were made
}

// PacketUse is a batch that a packet went into, or may have.
type PacketUse struct {
	Batch Neighbour
	Known Known
}

// packet is a lot of something, by the thing's name as it is compared.
type packet struct{ what, lot string }

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
	for _, s := range a.sources {
		s.packets = a.packetsOf(s)
	}
}

// packetsOf are the packets that went into a batch: those that were said with it; of what was not, all
// that were open between the beginning of its make and the end of its last work. Which of these a batch
// really had of is not known: a recall would rather have one too many.
func (a *Archive) packetsOf(s *source) (out []Packet) {
	said := map[string]bool{}
	for _, e := range a.standing(s.entries) {
		for _, l := range e.Batch.Lots {
			said[same(l.What)] = true
			out = append(out, Packet{What: l.What, Lot: l.Lot, Known: Said, By: e})
		}
	}
	life := a.worked(s)
	if life.From == 0 {
		return out
	}
	var assumed []Packet
	for what, list := range a.opened {
		for _, o := range list {
			if !said[what] && o.by.At <= life.Until && o.until > life.From {
				assumed = append(assumed, Packet{What: o.by.Subject.Name, Lot: o.by.Packet.Lot, Known: Assumed, By: o.by})
			}
		}
	}
	slices.SortFunc(assumed, func(x, y Packet) int {
		return cmp.Or(cmp.Compare(same(x.What), same(y.What)), cmp.Compare(x.By.At, y.By.At), cmp.Compare(x.By.Nr, y.By.Nr))
	})
	return append(out, assumed...)
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
	add := func(what, lot string) *PacketOpened {
		key := packet{same(what), lot}
		if seen[key] == nil {
			seen[key] = &PacketOpened{What: what, Lot: lot}
			out = append(out, seen[key])
		}
		return seen[key]
	}
	asked := func(what, lot string) bool { return same(what) == same(word) || lot == word && lot != "" }
	for what, list := range a.opened {
		for _, o := range list {
			open := resources.Span{From: o.by.At, Until: o.until}
			if asked(what, o.by.Packet.Lot) && (anyDay(day) || open.Overlaps(day.Span(a.zone))) {
				p := add(o.by.Subject.Name, o.by.Packet.Lot)
				p.Opened, p.UseBy = o.by, o.by.Packet.UseBy.Or(resources.Date{})
			}
		}
	}
	for _, s := range a.sources {
		for _, p := range s.packets {
			if !asked(p.What, p.Lot) {
				continue
			}
			if !anyDay(day) && seen[packet{same(p.What), p.Lot}] == nil && s.made.DateIn(a.zone) != day {
				continue
			}
			of := add(p.What, p.Lot)
			if n := len(of.Batches); n == 0 || of.Batches[n-1].Batch != a.neighbour(s) {
				of.Batches = append(of.Batches, PacketUse{a.neighbour(s), p.Known})
			}
			batches = append(batches, s)
		}
	}
	slices.SortFunc(out, func(x, y *PacketOpened) int {
		return cmp.Or(cmp.Compare(same(x.What), same(y.What)), cmp.Compare(x.since(), y.since()), cmp.Compare(x.Lot, y.Lot))
	})
	return out, batches
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
