package recordfile_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule/record"
)

// maybe draws a value or leaves it out.
func maybe[T any](t *rapid.T, label string, g *rapid.Generator[T]) (v T, given bool) {
	if rapid.Bool().Draw(t, label+"?") {
		return g.Draw(t, label), true
	}
	return v, false
}

// maybeSaid is maybe as a fact.
func maybeSaid[T any](t *rapid.T, label string, g *rapid.Generator[T]) record.Said[T] {
	if v, given := maybe(t, label, g); given {
		return record.Say(v)
	}
	return record.Said[T]{}
}

// drawnName is a name with what a name may have.
func drawnName() *rapid.Generator[string] {
	return rapid.SampledFrom([]string{"no", "11:20", "0012", "tall pot", "a, b", "d: e", "{x}", "it's", `"q"`, "ä é", "日本", "#1", "- x", "~", "AB-270312-1", "y"})
}

// drawnEntry is any entry that a reader may give: each subject, each of its facts or not.
func drawnEntry(t *rapid.T) record.Entry {
	moment := rapid.Custom(func(t *rapid.T) resources.Moment {
		return resources.Moment(rapid.IntRange(0, 100_000_000).Draw(t, "moment"))
	})
	day := rapid.Custom(func(t *rapid.T) resources.Date {
		return resources.Date{Year: 1970, Month: 1, Day: 2}.AddDays(rapid.IntRange(0, 80_000).Draw(t, "day"))
	})
	text := rapid.Map(drawnText(), func(s string) string { return strings.ToValidUTF8(s, "\ufffd") })
	texts := func(label string) string { s, _ := maybe(t, label, text); return s }
	names := func(label string) string { s, _ := maybe(t, label, drawnName()); return s }
	name := func(label string) string { return drawnName().Draw(t, label) }
	volume := rapid.Map(rapid.IntRange(1, 100_000_000), func(n int) resources.Millilitres { return resources.Millilitres(n) })
	count := rapid.IntRange(1, 100_000)
	measured := rapid.Custom(func(t *rapid.T) record.Measure { return record.Measure{What: name("what"), Is: text.Draw(t, "is")} })
	readings := func() []record.Measure {
		all, _ := maybe(t, "measured", rapid.SliceOfN(measured, 1, 3))
		return all
	}
	e := record.Entry{Nr: rapid.IntRange(0, 1_000_000).Draw(t, "nr"), At: moment.Draw(t, "at"), Written: maybeSaid(t, "written", moment),
		Who: names("who"), Note: text.Draw(t, "note"), Once: texts("once")}
	e.Strikes, _ = maybe(t, "strikes", rapid.SliceOfN(rapid.IntRange(1, 1_000_000), 1, 3))
	stretch := func() record.Stretch {
		s := record.Stretch{From: e.At}
		if until, ends := maybe(t, "until", rapid.IntRange(1, 100_000)); ends {
			s.Until = record.Say(s.From.Add(resources.Minutes(until)))
		}
		return s
	}
	s := &e.Subject
	switch s.Kind = record.Kind(rapid.IntRange(0, 8).Draw(t, "kind")); s.Kind {
	case record.OfRound:
		s.Day = day.Draw(t, "round")
		e.Round.Did = rapid.Bool().Draw(t, "did")
		e.Round.Skipped = !e.Round.Did
	case record.Nothing:
	default:
		s.Name = name("subject")
	}
	switch s.Kind {
	case record.OfBatch, record.OfCheese:
		b := &e.Batch
		b.Began, b.Did = names("began"), names("did")
		if b.NotYet = names("not yet"); b.NotYet == b.Began || b.NotYet == b.Did {
			b.NotYet = ""
		}
		if b.NotYet != "" {
			b.Look = maybeSaid(t, "look", rapid.Map(rapid.IntRange(1, 5000), func(n int) resources.Minutes { return resources.Minutes(n) }))
		}
		b.Litres, b.Pot, b.Why = maybeSaid(t, "litres", volume), names("pot"), texts("why")
		b.Weight = maybeSaid(t, "weight", rapid.Map(rapid.IntRange(1, 1_000_000_000), func(n int) resources.Milligrams { return resources.Milligrams(n) }))
		b.Pieces, b.Gone, b.Lost = maybeSaid(t, "pieces", rapid.IntRange(0, 100_000)), maybeSaid(t, "gone", count), rapid.Bool().Draw(t, "lost")
		b.Drew = maybeSaid(t, "drew", rapid.Custom(func(t *rapid.T) record.Draw {
			return record.Draw{Supply: name("supply"), Day: day.Draw(t, "collected")}
		}))
		b.Stands = maybeSaid(t, "stands", rapid.Custom(func(*rapid.T) record.Stand { return record.Stand{Place: name("place"), Shelf: names("shelf")} }))
		b.Lots, _ = maybe(t, "lots", rapid.SliceOfN(rapid.Custom(func(t *rapid.T) record.Packet {
			return record.Packet{What: name("what"), Lot: text.Draw(t, "lot")}
		}), 1, 3))
		b.Measured = readings()
	case record.OfMilk:
		s.Day = day.Draw(t, "day")
		e.Milk = record.MilkFacts{Ordered: maybeSaid(t, "ordered", volume), Came: maybeSaid(t, "came", volume), Lot: texts("lot"), Measured: readings()}
	case record.OfTarget:
		s.Cheese = name("cheese")
		f := &e.Target
		if f.Of, _ = maybe(t, "of", rapid.Just([]record.FromLot{{Lot: "no", Pieces: 3}, {Lot: "a: b, c", Pieces: 4}})); f.Of != nil {
			f.Took = record.Say(7)
		}
		f.Back = maybeSaid(t, "back", count)
		f.Resell = f.Back.Given && rapid.Bool().Draw(t, "resell")
		f.SoldOut, f.To = maybeSaid(t, "sold out", rapid.Just(resources.Clock(680))), names("to")
	case record.OfPlace:
		s.Shelf = names("shelf")
		e.Place.Measured = readings()
		if e.Place.Open = rapid.Bool().Draw(t, "open"); !e.Place.Open {
			e.Place.Closed = maybeSaid(t, "closed", rapid.Custom(func(*rapid.T) record.Stretch { return stretch() }))
		}
	case record.OfPerson:
		if e.Person.Here = rapid.Bool().Draw(t, "here"); !e.Person.Here {
			e.Person.Away = maybeSaid(t, "away", rapid.Custom(func(t *rapid.T) record.Stretch {
				s := stretch()
				if s.Until.Given && rapid.Bool().Draw(t, "later") {
					s.From, s.Until.Value = s.From.Add(77), s.Until.Value.Add(77)
				}
				return s
			}))
		}
		e.Person.Takes = maybeSaid(t, "takes", rapid.Custom(func(*rapid.T) record.Task { return record.Task{Batch: name("batch"), Stage: name("stage")} }))
	case record.OfPacket:
		e.Packet = record.PacketFacts{Lot: texts("lot"), UseBy: maybeSaid(t, "use by", day)}
		e.Packet.Strength, _ = maybe(t, "strength", rapid.SampledFrom([]string{"200 IMCU/mL", "1.5 %"}))
		e.Packet.Holds, _ = maybe(t, "holds", rapid.Just("50 mL"))
	}
	return e
}

// TestEveryEntryIsReadAsWritten draws entries of every kind.
func TestEveryEntryIsReadAsWritten(t *testing.T) {
	zone := dublin(t)
	kinds := map[record.Kind]int{}
	checks(t, func(r *rapid.T) {
		e := drawnEntry(r)
		kinds[e.Subject.Kind]++
		e.File, e.Line = "record/2027-03.yaml", 1
		mustReadAlike(t, e, zone)
	})
	if len(kinds) != 9 {
		t.Errorf("got %d kinds of entries, want all 9", len(kinds))
	}
}
