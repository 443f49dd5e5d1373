package follows_test

import (
	"fmt"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// BenchmarkLongRecord works out where a kitchen stands that has 20 batches under way of one cheese, with a
// record of 3,000 entries: 300 batches, and as many stalls that are over.
func BenchmarkLongRecord(b *testing.B) {
	p := dairy(day(12, 6, 0))
	was := p.Earlier.Batches[0]
	p.Earlier.Batches = nil
	for i := range 20 {
		x := was
		x.ID = fmt.Sprintf("D-270308-%d", i+1)
		x.For = []schedule.Share{{Target: "Stall 2027-03-13", By: day(13, 7, 0), Pieces: 6}}
		p.Earlier.Batches = append(p.Earlier.Batches, x)
	}
	var all []record.Entry
	for i := range 300 {
		at := p.From.Add(-resources.Minutes(301-i) * d)
		id := fmt.Sprintf("D-%d", i)
		for n := range 8 {
			e := of(at, record.BatchFacts{})
			e.Nr, e.Subject.Name, e.Note = 10*i+n+1, id, "soft"
			all = append(all, e)
		}
		stall := record.Subject{Kind: record.OfTarget, Name: fmt.Sprint("Stall ", i), Cheese: "Dew"}
		all = append(all,
			record.Entry{Nr: 10*i + 9, At: at, Subject: stall, Target: record.TargetFacts{Took: record.Say(6)}},
			record.Entry{Nr: 10*i + 10, At: at, Subject: stall, Target: record.TargetFacts{Back: record.Say(1), Resell: true}})
	}
	book := record.NewBook(all)
	for b.Loop() {
		if where := follows.Of(p, book); len(where.Lives) != 20 {
			b.Fatalf("got %d batches that have begun, want 20", len(where.Lives))
		}
	}
}
