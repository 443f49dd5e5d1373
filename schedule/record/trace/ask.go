package trace

import (
	"cmp"
	"regexp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule/record"
)

// Unknown is a word that means nothing here.
type Unknown struct {
	Word  string
	Among []string // all that would mean something, those made last first
}

// Error says so.
func (u *Unknown) Error() string { return "nothing is known of " + u.Word }

// Ask answers words: ids or lots, days (2027-03-12), milk supplies and the supplier's lots, packets by
// what is in them or by their lot, targets and businesses. What means several of these has an answer for
// each. A day after one is its; after a batch it is a day. The error is an [*Unknown].
func (a *Archive) Ask(words []string) ([]*Answer, error) {
	var out []*Answer
	for i := 0; i < len(words); i++ {
		word := words[i]
		if s := a.named[word]; s != nil {
			out = append(out, &Answer{Asked: word, Kind: OfBatch, Batches: []*Batch{a.batch(s)}})
			continue
		}
		if day, err := resources.ParseDate(word); err == nil {
			out = append(out, a.day(word, day))
			continue
		}
		var day resources.Date
		if i+1 < len(words) {
			if d, err := resources.ParseDate(words[i+1]); err == nil {
				day = d
			}
		}
		answers := a.others(word, day)
		if len(answers) == 0 {
			return nil, &Unknown{Word: word, Among: append(a.Names(), a.Others()...)}
		}
		if !anyDay(day) {
			for _, answer := range answers {
				answer.Asked += " " + words[i+1]
			}
			i++
		}
		out = append(out, answers...)
	}
	return out, nil
}

// anyDay reports whether none was asked for.
func anyDay(d resources.Date) bool { return d == resources.Date{} }

// others answers a word that is neither a batch nor a day; none where it means nothing.
func (a *Archive) others(word string, day resources.Date) (out []*Answer) {
	onDay := func(m resources.Moment) bool { return anyDay(day) || m.DateIn(a.zone) == day }
	if slices.Contains(a.supplies(), word) || slices.Contains(a.milkLots(), word) {
		out = append(out, a.milkAsked(word, day))
	}
	if slices.Contains(a.packetNames(), word) || a.opened[same(word)] != nil || a.things[same(word)] {
		answer := &Answer{Asked: word, Kind: OfPacket}
		var batches []*source
		answer.Packets, batches = a.packetsAsked(word, day)
		a.wentOn(answer, batches)
		out = append(out, answer)
	}
	if slices.Contains(a.targetNames(), word) {
		answer := &Answer{Asked: word, Kind: OfTarget}
		a.pass(answer, func(k passing, l *Leaving) bool { return isOf(k.target, word) && onDay(l.By) })
		answer.Entries = a.entries(func(e *record.Entry) bool {
			return e.Subject.Kind == record.OfTarget && (isOf(e.Subject.Full(), word) || e.Subject.Name == word) && a.on(e, day)
		})
		out = append(out, answer)
	}
	if slices.Contains(a.businesses(), word) {
		answer := &Answer{Asked: word, Kind: OfBusiness}
		a.pass(answer, func(_ passing, l *Leaving) bool { return l.To == word && onDay(l.By) })
		answer.Entries = a.entries(func(e *record.Entry) bool { return e.Target.To == word && a.on(e, day) })
		out = append(out, answer)
	}
	return out
}

// milkAsked answers a supply, or a supplier's lot: its collections, and where all that was made of them
// went.
func (a *Archive) milkAsked(word string, day resources.Date) *Answer {
	of := func(c collection) bool {
		lot := func(e *record.Entry) bool { return e.Milk.Lot == word }
		return (c.supply == word || len(a.standing(a.milk[c]).With(lot)) > 0) && (anyDay(day) || c.day == day)
	}
	out := &Answer{Asked: word, Kind: OfMilk, Collections: a.collections(of)}
	var batches []*source
	for _, c := range out.Collections {
		batches = append(batches, a.drew[collection{c.Supply, c.Day}]...)
	}
	a.wentOn(out, batches)
	return out
}

// wentOn adds what became of batches, which may name one twice: what left of them, and what did not.
func (a *Archive) wentOn(out *Answer, batches []*source) {
	slices.SortFunc(batches, func(x, y *source) int { return cmp.Compare(x.place, y.place) })
	for _, s := range slices.Compact(batches) {
		leavings := a.leavings(s)
		for _, l := range leavings {
			out.Passed = append(out.Passed, Passed{a.neighbour(s), l})
		}
		out.Balances = append(out.Balances, Balanced{a.neighbour(s), a.balance(s, leavings)})
	}
	out.sortPassed()
}

// on reports whether an entry about a target is of a day; any where none is asked.
func (a *Archive) on(e *record.Entry, day resources.Date) bool {
	return anyDay(day) || e.At.DateIn(a.zone) == day || e.Subject.Day == day
}

// day answers a day: what was collected, made and left on it.
func (a *Archive) day(word string, day resources.Date) *Answer {
	out := &Answer{Asked: word, Kind: OfDay, Collections: a.collections(func(c collection) bool { return c.day == day })}
	for _, s := range a.sources {
		if s.made != 0 && s.made.DateIn(a.zone) == day {
			out.Made = append(out.Made, a.neighbour(s))
		}
	}
	for _, list := range a.opened {
		for _, o := range list {
			if e := o.by; e.At.DateIn(a.zone) == day {
				out.Packets = append(out.Packets, &PacketOpened{What: e.Subject.Name, Lot: e.Packet.Lot, Opened: e, UseBy: e.Packet.UseBy.Or(resources.Date{})})
			}
		}
	}
	slices.SortFunc(out.Packets, func(x, y *PacketOpened) int {
		return cmp.Or(cmp.Compare(x.since(), y.since()), cmp.Compare(x.What, y.What))
	})
	a.pass(out, func(_ passing, l *Leaving) bool { return l.By.DateIn(a.zone) == day })
	return out
}

// pass adds what left, in the order in which it did.
func (a *Archive) pass(out *Answer, fits func(passing, *Leaving) bool) {
	for k, h := range a.targets {
		for i := range h.shares {
			s := &h.shares[i]
			if l := h.leaving(k.target, s); fits(k, &l) {
				out.Passed = append(out.Passed, Passed{a.neighbour(s.source), l})
			}
		}
		if h.loose > 0 {
			l := Leaving{Target: k.target, By: h.took.At, To: h.took.Target.To}
			if fits(k, &l) {
				out.Loose = append(out.Loose, h.took)
			}
		}
	}
	out.sortPassed()
	out.Loose = a.entries(func(e *record.Entry) bool { return slices.Contains(out.Loose, e) }) // in the order of writing
}

// sortPassed puts what left in the order in which it did.
func (out *Answer) sortPassed() {
	slices.SortFunc(out.Passed, func(x, y Passed) int {
		return cmp.Or(cmp.Compare(x.By, y.By), cmp.Compare(x.Target, y.Target), cmp.Compare(x.Batch.Made, y.Batch.Made), cmp.Compare(x.Batch.ID, y.Batch.ID),
			cmp.Compare(x.Planned, y.Planned), cmp.Compare(x.Pieces, y.Pieces))
	})
}

// entries are those of the record that fit, struck ones too, by moment.
func (a *Archive) entries(fits func(*record.Entry) bool) record.Entries {
	return a.book.All().With(fits).ByTime()
}

// dated is the end of the name of a target that repeats.
var dated = regexp.MustCompile(` \d{4}-\d{2}-\d{2}$`)

// isOf reports whether a target has a name, with its date or without.
func isOf(target, name string) bool {
	return target == name || dated.ReplaceAllString(target, "") == name
}

// Others are all words that Ask knows beside the names of batches: supplies, targets, businesses,
// packets and the lots of milk and packets.
func (a *Archive) Others() []string {
	return slices.Concat(a.supplies(), a.targetNames(), a.businesses(), a.packetNames(), a.milkLots())
}

// milkLots are the lots that suppliers have given.
func (a *Archive) milkLots() (names []string) {
	for _, of := range a.milk {
		for _, e := range a.standing(of) {
			if e.Milk.Lot != "" {
				names = append(names, e.Milk.Lot)
			}
		}
	}
	return once(names)
}

func (a *Archive) supplies() (names []string) {
	for c := range a.drew {
		names = append(names, c.supply)
	}
	for c := range a.milk {
		names = append(names, c.supply)
	}
	return once(names)
}

// targetNames are those of all targets, of repeated ones with their dates and without.
func (a *Archive) targetNames() (names []string) {
	for k := range a.targets {
		names = append(names, k.target, dated.ReplaceAllString(k.target, ""))
	}
	for _, e := range a.book.All() {
		if e.Subject.Kind == record.OfTarget { // struck ones too
			names = append(names, e.Subject.Full(), e.Subject.Name)
		}
	}
	return once(names)
}

func (a *Archive) businesses() (names []string) {
	for _, e := range a.book.All() {
		if e.Target.To != "" {
			names = append(names, e.Target.To)
		}
	}
	return once(names)
}

// once sorts a list and leaves out what stands in it twice.
func once(list []string) []string {
	slices.Sort(list)
	return slices.Compact(list)
}
