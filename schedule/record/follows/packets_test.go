package follows_test

import (
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// What was opened, what went in and what was weighed is handed on by time, what was struck and what is of later left
// out; a strength that is none is told.
func TestPackets(t *testing.T) {
	opened := func(nr int, at resources.Moment, facts record.PacketFacts) record.Entry {
		return record.Entry{Nr: nr, At: at, Subject: record.Subject{Kind: record.OfPacket, Name: "rennet"}, Packet: facts}
	}
	lots := of(day(8, 9, 0), record.BatchFacts{Did: "make", Lots: []record.Packet{{What: "rennet", Lot: "R-1"}}, Weight: record.Say(resources.Milligrams(2_400_000))})
	date := resources.Date{Year: 2027, Month: 9, Day: 30}
	book := record.NewBook([]record.Entry{
		opened(1, day(8, 8, 0), record.PacketFacts{Lot: "R-2", Strength: "400 of them", Holds: "much"}),
		opened(2, day(7, 8, 0), record.PacketFacts{Lot: "R-1", Strength: "200 IMCU/mL", Holds: "50 mL", UseBy: record.Say(date)}),
		opened(3, day(7, 9, 0), record.PacketFacts{Lot: "struck"}), {Nr: 4, At: day(7, 9, 5), Strikes: []int{3}},
		opened(5, day(20, 9, 0), record.PacketFacts{Lot: "later"}), lots,
		{Nr: 6, At: day(8, 12, 0), Subject: record.Subject{Kind: record.OfCheese, Name: "Dew"}, Batch: record.BatchFacts{Did: "make", Litres: record.Say(resources.Millilitres(8000)), Lots: []record.Packet{{What: "culture", Lot: "K-1"}}}},
	})
	p := follows.Of(dairy(day(9, 6, 0)), book).Problem
	strength, err := resources.ParseStrength("200 IMCU/mL")
	if err != nil {
		t.Fatal(err)
	}
	want := []schedule.Packet{
		{What: "rennet", From: day(7, 8, 0), Lot: "R-1", UseBy: date, Strength: strength, Holds: resources.Amount{Num: 50, Den: 1, Unit: "mL"}},
		{What: "rennet", From: day(8, 8, 0), Lot: "R-2"}}
	if !slices.Equal(p.Packets, want) {
		t.Errorf("got packets %v, want %v", p.Packets, want)
	}
	if want := []schedule.LotUsed{{Batch: lots.Subject.Name, What: "rennet", Lot: "R-1"}, {Batch: "D-270308-2", What: "culture", Lot: "K-1"}}; !slices.Equal(p.LotsUsed, want) {
		t.Errorf("got lots %v, want %v", p.LotsUsed, want)
	}
	if want := (schedule.CurdWeight{Batch: lots.Subject.Name, At: day(8, 9, 0), Is: 2_400_000, With: "make"}); !slices.Equal(p.Weighed, []schedule.CurdWeight{want}) {
		t.Errorf("got weights %v, want %v", p.Weighed, want)
	}
	unread := 0
	for _, w := range p.Warnings {
		if w.Code == "packet-unread" && w.At == day(8, 8, 0) {
			unread++
		}
	}
	if unread != 2 {
		t.Errorf("got %d warnings of what cannot be reckoned with, want 2 in %v", unread, p.Warnings)
	}
}
