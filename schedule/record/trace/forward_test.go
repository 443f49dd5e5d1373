package trace_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// TestBothWaysAgree: of random kitchens, what is asked of milk or of a packet lists exactly the batches
// whose own trace names it, and the pieces of every batch add up.
func TestBothWaysAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var kept []schedule.KeptBatch
		var entries []record.Entry
		say := func(e record.Entry) {
			e.Nr = len(entries) + 1
			entries = append(entries, e)
		}
		n := rapid.IntRange(1, 8).Draw(t, "batches")
		for i := range n {
			id := fmt.Sprintf("D-2703%02d-1", i+3)
			b := dew(id, i+3, left("Stall 2027-03-20", 20, rapid.IntRange(0, 9).Draw(t, "for the stall")))
			if what := rapid.SampledFrom([]string{"", "rennet", "culture"}).Draw(t, "needs"); what != "" {
				b.Stages[0].Needs = []schedule.Dose{{What: what}}
			}
			kept = append(kept, b)
			if rapid.Bool().Draw(t, "drew") {
				say(of(id, day(i+3, 9, 0), record.BatchFacts{Drew: record.Say(record.Draw{Supply: "goat", Day: date(3 + rapid.IntRange(0, n).Draw(t, "day"))})}))
			}
			if rapid.Bool().Draw(t, "lots") {
				say(of(id, day(i+3, 9, 0), record.BatchFacts{Lots: []record.Packet{{What: "rennet", Lot: fmt.Sprint("R-", rapid.IntRange(1, 3).Draw(t, "lot"))}}}))
			}
		}
		for range rapid.IntRange(0, 5).Draw(t, "packets") {
			say(record.Entry{At: day(rapid.IntRange(1, 12).Draw(t, "opened"), 12, 0), Subject: record.Subject{Kind: record.OfPacket, Name: "rennet"},
				Packet: record.PacketFacts{Lot: fmt.Sprint("R-", rapid.IntRange(1, 6).Draw(t, "lot"))}})
		}
		if rapid.Bool().Draw(t, "took") {
			say(stall(20, day(20, 9, 0), record.TargetFacts{Took: record.Say(rapid.IntRange(0, 30).Draw(t, "took"))}))
			say(stall(20, day(20, 15, 0), record.TargetFacts{Back: record.Say(rapid.IntRange(0, 9).Draw(t, "back"))}))
		}
		if k := len(entries); k > 0 && rapid.Bool().Draw(t, "strike") {
			say(record.Entry{At: day(21, 9, 0), Strikes: []int{rapid.IntRange(1, k).Draw(t, "struck")}})
		}
		known := trace.New(kept, record.NewBook(entries), time.UTC)
		back := map[string][]string{} // by what a batch's own trace names, the batches
		for _, b := range kept {
			answers, err := known.Ask([]string{b.ID})
			if err != nil {
				t.Fatal(err)
			}
			got := answers[0].Batches[0]
			if x := got.Balance; x.Made != x.Gone+x.Took-x.Back+x.Left+x.Gap {
				t.Errorf("%s does not add up: %+v", b.ID, x)
			}
			milk := got.Milk.Supply + " " + got.Milk.Day.String()
			back[milk] = append(back[milk], b.ID)
			for _, p := range got.Packets {
				for _, word := range []string{p.Lot, p.What} {
					if word != "" && !slices.Contains(back[word], b.ID) {
						back[word] = append(back[word], b.ID)
					}
				}
			}
		}
		for word, want := range back {
			asked := []string{word}
			if strings.Contains(word, " ") {
				asked = []string{word[:len(word)-11], word[len(word)-10:]}
			}
			answers, err := known.Ask(asked)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, b := range answers[0].Balances {
				got = append(got, b.Batch.ID)
			}
			if !slices.Equal(got, want) {
				t.Errorf("%s: asked forward %v, by their own traces %v", word, got, want)
			}
		}
	})
}

// TestPackets: a packet is of all that is made from its opening to the next, unless a batch says which it had.
func TestPackets(t *testing.T) {
	opened := func(n, hour int, lot string) record.Entry {
		return record.Entry{At: day(n, hour, 0), Subject: record.Subject{Kind: record.OfPacket, Name: "Rennet"}, Packet: record.PacketFacts{Lot: lot}}
	}
	kept := []schedule.KeptBatch{dew("D-270308-1", 8), dew("D-270310-1", 10), dew("D-270312-1", 12)}
	for _, c := range []struct {
		name    string
		entries []record.Entry
		want    map[string]string // lot: batches
	}{
		{"one for all since", []record.Entry{opened(9, 19, "A")}, map[string]string{"A": "[D-270308-1 D-270310-1 D-270312-1]"}}, // packed on the 9th at 19:00, for 20 minutes
		{"opened after the packing", []record.Entry{opened(9, 21, "A")}, map[string]string{"A": "[D-270310-1 D-270312-1]"}},
		{"the next takes over", []record.Entry{opened(1, 9, "A"), opened(11, 21, "B")}, map[string]string{"A": "[D-270308-1 D-270310-1]", "B": "[D-270312-1]"}},
		{"in the middle of a batch: of both", []record.Entry{opened(1, 9, "A"), opened(10, 12, "B")}, map[string]string{"A": "[D-270308-1 D-270310-1]", "B": "[D-270310-1 D-270312-1]"}},
		{"said with a batch", []record.Entry{opened(1, 9, "A"), of("D-270310-1", day(10, 9, 0), record.BatchFacts{Lots: []record.Packet{{What: "rennet", Lot: "C"}}})},
			map[string]string{"A": "[D-270308-1 D-270312-1]", "C": "[D-270310-1]"}},
		{"struck", []record.Entry{opened(1, 9, "A"), opened(2, 9, "B"), {At: day(3, 9, 0), Strikes: []int{2}}}, map[string]string{"A": "[D-270308-1 D-270310-1 D-270312-1]"}},
	} {
		for lot, want := range c.want {
			var ids []string
			for _, u := range ask(t, kept, c.entries, lot).Packets[0].Batches {
				ids = append(ids, u.Batch.ID)
			}
			if got := fmt.Sprint(ids); got != want {
				t.Errorf("%s: %s went into %s, want %s", c.name, lot, got, want)
			}
		}
	}
}

// TestWeights: what was weighed once divides by pieces; a second weighing shows what dried off, and what is
// lost is gone with its weight.
func TestWeights(t *testing.T) {
	const id = "D-270308-1"
	n, g := record.Say[int], func(grams int) record.Said[resources.Milligrams] {
		return record.Say(resources.Milligrams(grams * 1000))
	}
	weighed := of(id, day(9, 20, 0), record.BatchFacts{Pieces: n(10), Weight: g(1000)})
	for _, c := range []struct {
		name    string
		entries []record.Entry
		want    string // made = gone + took - back + left + gap, in grams
	}{
		{"once", []record.Entry{weighed}, "1000 = 0 + 600 - 0 + 400 + 0"},
		{"some eaten", []record.Entry{weighed, of(id, day(10, 9, 0), record.BatchFacts{Gone: n(1)})}, "1000 = 100 + 600 - 0 + 300 + 0"},
		{"counted short", []record.Entry{weighed, of(id, day(14, 9, 0), record.BatchFacts{Pieces: n(3)})}, "1000 = 0 + 600 - 0 + 300 + 100"},
		{"dried", []record.Entry{weighed, of(id, day(14, 9, 0), record.BatchFacts{Weight: g(380)})}, "1000 = 0 + 600 - 0 + 380 + 20"},
		{"some came back", []record.Entry{weighed, stall(13, day(13, 15, 0), record.TargetFacts{Back: n(2)})}, "1000 = 0 + 600 - 200 + 600 + 0"},
		{"lost", []record.Entry{weighed, of(id, day(14, 9, 0), record.BatchFacts{Lost: true})}, "1000 = 400 + 600 - 0 + 0 + 0"},
		{"weighed as curd before", []record.Entry{of(id, day(8, 12, 0), record.BatchFacts{Weight: g(1900)}), weighed}, "1000 = 0 + 600 - 0 + 400 + 0"},
		{"weighed after some were eaten", []record.Entry{of(id, day(9, 19, 30), record.BatchFacts{Gone: n(1)}), of(id, day(9, 20, 0), record.BatchFacts{Weight: g(900)})}, "1000 = 100 + 600 - 0 + 300 + 0"},
		{"nobody weighed", nil, "none"},
	} {
		w := ask(t, []schedule.KeptBatch{dew(id, 8, left("Stall 2027-03-13", 13, 6))}, c.entries, id).Batches[0].Balance.Weights
		got := "none"
		if w != nil {
			got = fmt.Sprintf("%d = %d + %d - %d + %d + %d", w.Made/1000, w.Gone/1000, w.Took/1000, w.Back/1000, w.Left/1000, w.Gap/1000)
		}
		if got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
	}
}

// BenchmarkTrace asks for a batch, and for all milk, of a year and of five: 2,000 and 10,000 entries.
func BenchmarkTrace(b *testing.B) {
	for _, years := range []int{1, 5} {
		var kept []schedule.KeptBatch
		var entries []record.Entry
		for i := range years * 300 {
			at := day(1, 8, 0).Add(resources.Minutes(i) * resources.Day)
			k := dew(fmt.Sprintf("D-%d", i), 8, left(fmt.Sprint("Stall ", i/3), 13, 6))
			k.Milk.Day = at.DateIn(time.UTC)
			kept = append(kept, k)
			for s := range 6 {
				entries = append(entries, record.Entry{Nr: len(entries) + 1, At: at.Add(resources.Minutes(s)), Subject: record.Subject{Kind: record.OfBatch, Name: k.ID}, Batch: record.BatchFacts{Pieces: record.Say(10), Lots: []record.Packet{{What: "rennet", Lot: fmt.Sprint("R-", i/50)}}}})
			}
		}
		for len(entries) < years*2000 {
			entries = append(entries, record.Entry{Nr: len(entries) + 1, At: day(9, 8, 0), Subject: record.Subject{Kind: record.OfPlace, Name: "fridge"}})
		}
		book := record.NewBook(entries)
		for _, word := range []string{"D-100", "cow"} {
			b.Run(fmt.Sprintf("%d years, %s", years, word), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, err := trace.New(kept, book, time.UTC).Ask([]string{word}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
