package record_test

import (
	"fmt"
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/schedule/record"
)

// TestStrikes draws books as numbers: each case is written top to bottom.
func TestStrikes(t *testing.T) {
	cases := []struct {
		name    string
		entries []record.Entry
		struck  []int // places in the book
	}{
		{"nothing", nil, nil},
		{"one of two", []record.Entry{{Nr: 1}, {Nr: 2}, {Nr: 3, Strikes: []int{1}}}, []int{0}},
		{"a struck strike no longer strikes", []record.Entry{{Nr: 1}, {Nr: 2, Strikes: []int{1}}, {Nr: 3, Strikes: []int{2}}}, []int{1}},
		{"three strikes deep", []record.Entry{{Nr: 1}, {Nr: 2, Strikes: []int{1}}, {Nr: 3, Strikes: []int{2}}, {Nr: 4, Strikes: []int{3}}}, []int{0, 2}},
		{"several at once", []record.Entry{{Nr: 1}, {Nr: 2}, {Nr: 3, Strikes: []int{1, 2}}}, []int{0, 1}},
		{"a copied line is one entry, struck once", []record.Entry{{Nr: 1, Note: "a"}, {Nr: 1, Note: "a"}, {Nr: 2, Strikes: []int{1}}}, []int{0}},
		{"of two contents the later", []record.Entry{{Nr: 1, Note: "a"}, {Nr: 1, Note: "b"}, {Nr: 2, Strikes: []int{1}}}, []int{1}},
		{"nobody strikes what comes later, or itself", []record.Entry{{Nr: 1, Strikes: []int{1, 2}}, {Nr: 2}}, nil},
		{"by hand, without a number", []record.Entry{{Nr: 1}, {Strikes: []int{1}}, {Nr: 2}}, []int{0}},
		{"by hand, and numbers go on striking", []record.Entry{{Nr: 1}, {Nr: 2, Strikes: []int{1}}, {Strikes: []int{2}}}, []int{1}},
		{"what is not there", []record.Entry{{Nr: 7, Strikes: []int{3}}}, nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := record.NewBook(c.entries)
			var struck []int
			for i, e := range b.All() {
				if b.StruckBy(e) != nil {
					struck = append(struck, i)
				}
			}
			if !slices.Equal(struck, c.struck) {
				t.Errorf("got struck %v, want %v", struck, c.struck)
			}
			if got, want := len(b.Standing()), len(b.All())-len(c.struck); got != want {
				t.Errorf("got %d standing, want %d", got, want)
			}
		})
	}
}

// TestUntilForgetsLaterStrikes: what is struck tomorrow stands today.
func TestUntilForgetsLaterStrikes(t *testing.T) {
	b := record.NewBook([]record.Entry{{Nr: 1, At: 10}, {Nr: 2, At: 30, Strikes: []int{1}}, {Nr: 3, At: 20}, {Nr: 4, At: 21}})
	for m, want := range map[resources.Moment]string{9: "0 of 0, 4 left out", 20: "2 of 2, 2 left out", 30: "3 of 4, 0 left out"} {
		known, left := b.Until(m)
		if got := fmt.Sprintf("%d of %d, %d left out", len(known.Standing()), len(known.All()), left); got != want {
			t.Errorf("until %d: got %s, want %s", m, got, want)
		}
	}
	if got := b.LastNr(); got != 4 {
		t.Errorf("last number: got %d, want 4", got)
	}
}

func pieces(at resources.Moment, n int) record.Entry {
	return record.Entry{At: at, Subject: record.Subject{Kind: record.OfBatch, Name: "AB-270312-1"}, Batch: record.BatchFacts{Pieces: record.Say(n)}}
}

func gone(at resources.Moment, n int) record.Entry {
	return record.Entry{At: at, Subject: record.Subject{Kind: record.OfBatch, Name: "AB-270312-1"}, Batch: record.BatchFacts{Gone: record.Say(n)}}
}

func TestWhichCountHolds(t *testing.T) {
	cases := []struct {
		name    string
		entries []record.Entry
		want    string
	}{
		{"nobody counted", []record.Entry{gone(1, 2), gone(2, 1)}, "gone 3"},
		{"the later moment, not the later line", []record.Entry{pieces(20, 14), pieces(10, 15)}, "14 less 0"},
		{"ties by writing", []record.Entry{pieces(20, 14), pieces(20, 13)}, "13 less 0"},
		{"all that is gone since", []record.Entry{gone(5, 1), pieces(10, 14), gone(12, 2), gone(11, 1)}, "14 less 3"},
		{"gone at the moment of counting, said after", []record.Entry{pieces(10, 14), gone(10, 1)}, "14 less 1"},
		{"a count of none", []record.Entry{pieces(10, 14), pieces(11, 0)}, "0 less 0"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			counted, less := record.NewBook(c.entries).Standing().Of(record.OfBatch, "AB-270312-1").Pieces()
			got := fmt.Sprintf("gone %d", less)
			if counted != nil {
				got = fmt.Sprintf("%d less %d", counted.Batch.Pieces.Value, less)
			}
			if got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
		})
	}
}

func TestFirstWrittenHoldsOfAStage(t *testing.T) {
	subject := record.Subject{Kind: record.OfBatch, Name: "AB-270312-1"}
	b := record.NewBook([]record.Entry{
		{Nr: 1, At: 20, Subject: subject, Batch: record.BatchFacts{Did: "drain"}},
		{Nr: 2, At: 10, Subject: record.Subject{Kind: record.OfBatch, Name: "AB-270311-2"}, Batch: record.BatchFacts{Did: "drain"}}, // its lot
		{Nr: 3, At: 5, Subject: subject, Batch: record.BatchFacts{Did: "make"}},
		{Nr: 4, At: 30, Subject: record.Subject{Kind: record.OfBatch, Name: "CD-270312-1"}, Batch: record.BatchFacts{Did: "drain"}},
	})
	first, again := b.Standing().Of(record.OfBatch, "AB-270312-1", "AB-270311-2").Did("drain").First()
	if first == nil || first.Nr != 1 || len(again) != 1 || again[0].Nr != 2 {
		t.Errorf("got %v and again %v, want number 1 and again number 2", first, again)
	}
	if first, again := b.Standing().Did("pack").First(); first != nil || again != nil {
		t.Errorf("a stage nobody spoke of: got %v and %v", first, again)
	}
}

func TestLatest(t *testing.T) {
	b := record.NewBook([]record.Entry{{Nr: 1, At: 20}, {Nr: 2, At: 30}, {Nr: 3, At: 30}, {Nr: 4, At: 10}})
	if got := b.Standing().Latest(); got == nil || got.Nr != 3 {
		t.Errorf("got %v, want number 3", got)
	}
	if got := (record.Entries{}).Latest(); got != nil {
		t.Errorf("of none: got %v", got)
	}
}
