package trace_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// day is a moment of a day of March 2027, in UTC.
func day(n, hour, min int) resources.Moment {
	return resources.MomentOf(time.Date(2027, time.March, n, hour, min, 0, 0, time.UTC))
}

func date(n int) resources.Date { return resources.Date{Year: 2027, Month: 3, Day: n} }

// dew is what was kept of a batch: made on a day at 8:00, as was said, and packed on the next at
// 19:00, which nobody said; 10 pieces of 5 L.
func dew(id string, made int, shares ...schedule.KeptShare) schedule.KeptBatch {
	return schedule.KeptBatch{ID: id, Lot: id, Cheese: "Dew", Litres: 5000, Pieces: 10, Spare: 1,
		Milk:   &schedule.KeptMilk{Draw: schedule.Draw{Supply: "cow", Collect: day(made, 7, 0)}, Day: date(made)},
		Recipe: &schedule.KeptRecipe{Name: "Dew", Yield: schedule.Yield{Pieces: 2, From: 1000}},
		Stages: []schedule.KeptStage{
			{Stage: "make", Begun: true, Start: day(made, 8, 0), Work: 60, Who: "Nell", Planned: day(made, 7, 30), Said: schedule.SaidByRecord},
			{Stage: "pack", Begun: true, Start: day(made+1, 19, 0), Work: 20, Who: "Finn", Planned: day(made+1, 19, 0)}},
		For: shares}
}

func left(target string, by, pieces int) schedule.KeptShare {
	return schedule.KeptShare{Share: schedule.Share{Target: target, By: day(by, 7, 0), Pieces: pieces}, Gone: true, Left: pieces, Assumed: true}
}

func toCome(target string, by, pieces int) schedule.KeptShare {
	return schedule.KeptShare{Share: schedule.Share{Target: target, By: day(by, 7, 0), Pieces: pieces}}
}

func of(batch string, at resources.Moment, facts record.BatchFacts) record.Entry {
	return record.Entry{At: at, Subject: record.Subject{Kind: record.OfBatch, Name: batch}, Batch: facts}
}

func stall(n int, at resources.Moment, facts record.TargetFacts) record.Entry {
	return record.Entry{At: at, Subject: record.Subject{Kind: record.OfTarget, Name: "Stall", Day: date(n), Cheese: "Dew"}, Target: facts}
}

// ask gives the only answer to a word.
func ask(t *testing.T, kept []schedule.KeptBatch, entries []record.Entry, words ...string) *trace.Answer {
	t.Helper()
	for i := range entries {
		if entries[i].Nr == 0 {
			entries[i].Nr = i + 1
		}
	}
	answers, err := trace.New(kept, record.NewBook(entries), time.UTC).Ask(words)
	if err != nil || len(answers) != 1 {
		t.Fatalf("got %d answers, %v, want one", len(answers), err)
	}
	return answers[0]
}

// TestBalance: made = gone + took - back + left + gap, of 10 pieces of which 6 were for a stall.
func TestBalance(t *testing.T) {
	const id = "D-270308-1"
	n := record.Say[int]
	for _, c := range []struct {
		name    string
		share   schedule.KeptShare
		entries []record.Entry
		want    string // made gone took back left gap
	}{
		{"nobody said anything", left("Stall 2027-03-13", 13, 6), nil, "10 = 0 + 6 - 0 + 4 + 0"},
		{"still to come", toCome("Stall 2027-03-13", 13, 6), nil, "10 = 0 + 0 - 0 + 10 + 0"},
		{"some are gone", left("Stall 2027-03-13", 13, 6), []record.Entry{of(id, day(10, 9, 0), record.BatchFacts{Gone: n(2)}), of(id, day(11, 9, 0), record.BatchFacts{Gone: n(1)})}, "10 = 3 + 6 - 0 + 1 + 0"},
		{"one of these is struck", left("Stall 2027-03-13", 13, 6), []record.Entry{of(id, day(10, 9, 0), record.BatchFacts{Gone: n(2)}), of(id, day(11, 9, 0), record.BatchFacts{Gone: n(1)}), {At: day(12, 0, 0), Strikes: []int{1}}}, "10 = 1 + 6 - 0 + 3 + 0"},
		{"fewer were taken", left("Stall 2027-03-13", 13, 6), []record.Entry{stall(13, day(13, 9, 0), record.TargetFacts{Took: n(4)})}, "10 = 0 + 4 - 0 + 6 + 0"},
		{"more were taken", left("Stall 2027-03-13", 13, 6), []record.Entry{stall(13, day(13, 9, 0), record.TargetFacts{Took: n(8)})}, "10 = 0 + 8 - 0 + 2 + 0"},
		{"said twice: the later holds", left("Stall 2027-03-13", 13, 6), []record.Entry{stall(13, day(13, 9, 0), record.TargetFacts{Took: n(4)}), stall(13, day(13, 8, 0), record.TargetFacts{Took: n(5)})}, "10 = 0 + 4 - 0 + 6 + 0"},
		{"some came back", left("Stall 2027-03-13", 13, 6), []record.Entry{stall(13, day(13, 15, 0), record.TargetFacts{Back: n(2)})}, "10 = 0 + 6 - 2 + 6 + 0"},
		{"before its plan came", toCome("Stall 2027-03-13", 13, 6), []record.Entry{stall(13, day(13, 9, 0), record.TargetFacts{Took: n(5)})}, "10 = 0 + 5 - 0 + 5 + 0"},
		{"counted, and fewer than there should be", left("Stall 2027-03-13", 13, 6), []record.Entry{of(id, day(14, 9, 0), record.BatchFacts{Pieces: n(3)})}, "10 = 0 + 6 - 0 + 3 + 1"},
		{"counted before they left", left("Stall 2027-03-13", 13, 6), []record.Entry{of(id, day(10, 9, 0), record.BatchFacts{Pieces: n(9)})}, "10 = 0 + 6 - 0 + 3 + 1"},
		{"counted with what is gone", left("Stall 2027-03-13", 13, 6), []record.Entry{of(id, day(10, 9, 0), record.BatchFacts{Pieces: n(9), Gone: n(1)})}, "10 = 1 + 6 - 0 + 2 + 1"},
		{"more than the yield", left("Stall 2027-03-13", 13, 6), []record.Entry{of(id, day(9, 20, 0), record.BatchFacts{Pieces: n(12)})}, "12 = 0 + 6 - 0 + 6 + 0"},
		{"more milk than planned", left("Stall 2027-03-13", 13, 6), []record.Entry{of(id, day(8, 9, 0), record.BatchFacts{Litres: record.Say(resources.Millilitres(6000))})}, "12 = 0 + 6 - 0 + 6 + 0"},
		{"more left than was made", left("Stall 2027-03-13", 13, 6), []record.Entry{of(id, day(12, 9, 0), record.BatchFacts{Gone: n(7)})}, "10 = 7 + 6 - 0 + 0 + -3"},
		{"lost with what was left", left("Stall 2027-03-13", 13, 6), []record.Entry{of(id, day(14, 9, 0), record.BatchFacts{Lost: true})}, "10 = 4 + 6 - 0 + 0 + 0"},
		{"of lots that were named", left("Stall 2027-03-13", 13, 6), []record.Entry{stall(13, day(13, 9, 0), record.TargetFacts{Took: n(7), Of: []record.FromLot{{Lot: id, Pieces: 3}, {Lot: "D-270307-1", Pieces: 4}}})}, "10 = 0 + 3 - 0 + 7 + 0"},
		{"back to lots that were named", left("Stall 2027-03-13", 13, 6), []record.Entry{stall(13, day(13, 15, 0), record.TargetFacts{Back: n(3), Of: []record.FromLot{{Lot: id, Pieces: 1}, {Lot: "D-270307-1", Pieces: 2}}})}, "10 = 0 + 6 - 1 + 5 + 0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := ask(t, []schedule.KeptBatch{dew(id, 8, c.share)}, c.entries, id).Batches[0].Balance
			if got := fmt.Sprintf("%d = %d + %d - %d + %d + %d", b.Made, b.Gone, b.Took, b.Back, b.Left, b.Gap); got != c.want || !b.Known {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}

// TestCountedByBegunYaml: a count that begun.yaml had holds as one of the record would.
func TestCountedByBegunYaml(t *testing.T) {
	b := dew("D-270308-1", 8, left("Stall 2027-03-13", 13, 6))
	b.Counted = &schedule.Count{Pieces: 9, At: day(10, 0, 0)}
	for _, c := range []struct {
		entries []record.Entry
		left    int
	}{
		{nil, 3},
		{[]record.Entry{of(b.ID, day(9, 22, 0), record.BatchFacts{Gone: record.Say(2)})}, 3},
		{[]record.Entry{of(b.ID, day(11, 9, 0), record.BatchFacts{Gone: record.Say(2)})}, 1},
		{[]record.Entry{of(b.ID, day(9, 22, 0), record.BatchFacts{Pieces: record.Say(10)})}, 3},
		{[]record.Entry{of(b.ID, day(12, 9, 0), record.BatchFacts{Pieces: record.Say(8)})}, 2},
	} {
		if got := ask(t, []schedule.KeptBatch{b}, c.entries, b.ID).Batches[0].Balance.Left; got != c.left {
			t.Errorf("%+v: got %d left, want %d", c.entries, got, c.left)
		}
	}
}

// TestTakenOfSeveral: pieces not taken stay with what was packed last, and more than planned are of
// that.
func TestTakenOfSeveral(t *testing.T) {
	kept := []schedule.KeptBatch{dew("D-270309-1", 9, left("Stall 2027-03-13", 13, 4)), dew("D-270308-1", 8, left("Stall 2027-03-13", 13, 6))}
	for took, want := range map[int]string{3: "3 0", 6: "6 0", 8: "6 2", 10: "6 4", 13: "6 7"} {
		entries := []record.Entry{stall(13, day(13, 9, 0), record.TargetFacts{Took: record.Say(took)})}
		got := fmt.Sprint(ask(t, kept, entries, "D-270308-1").Batches[0].Balance.Took, ask(t, kept, entries, "D-270309-1").Batches[0].Balance.Took)
		if got != want {
			t.Errorf("of %d taken got %s, want %s", took, got, want)
		}
	}
}

// TestStages: what was said since a plan was kept holds, and what was struck is assumed again.
func TestStages(t *testing.T) {
	const id = "D-270308-1"
	made := of(id, day(8, 9, 0), record.BatchFacts{Did: "make"})
	for _, c := range []struct {
		name    string
		entries []record.Entry
		want    string
	}{
		{"as it was kept", []record.Entry{made}, "make said 8 08:00-09:00 Nell, pack assumed 9 19:00-19:20 Finn"},
		{"struck since", []record.Entry{made, {At: day(12, 0, 0), Strikes: []int{1}}}, "make assumed 8 08:00-09:00 Nell, pack assumed 9 19:00-19:20 Finn"},
		{"said since", []record.Entry{made, of(id, day(9, 20, 0), record.BatchFacts{Did: "pack"})}, "make said 8 08:00-09:00 Nell, pack said 9 19:40-20:00 Finn"},
		{"both, by somebody else", []record.Entry{made, of(id, day(9, 20, 0), record.BatchFacts{Began: "pack"}), {At: day(9, 20, 50), Who: "Ann", Subject: record.Subject{Kind: record.OfBatch, Name: id}, Batch: record.BatchFacts{Did: "pack"}}},
			"make said 8 08:00-09:00 Nell, pack said 9 20:00-20:50 Ann"},
		{"said twice: the first holds", []record.Entry{made, of(id, day(9, 20, 0), record.BatchFacts{Began: "pack"}), of(id, day(9, 21, 0), record.BatchFacts{Began: "pack"})},
			"make said 8 08:00-09:00 Nell, pack said 9 20:00-20:20 Finn"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var words []string
			for _, s := range ask(t, []schedule.KeptBatch{dew(id, 8)}, c.entries, id).Batches[0].Stages {
				words = append(words, fmt.Sprintf("%s %s %s-%s %s", s.Name, s.Known, s.Start.In(time.UTC).Format("2 15:04"), s.Done.In(time.UTC).Format("15:04"), s.Who))
			}
			if got := strings.Join(words, ", "); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}

// TestNeighbours: five before and five after, in the order in which they really were made.
func TestNeighbours(t *testing.T) {
	var kept []schedule.KeptBatch
	for n := 20; n > 0; n-- { // not in their order
		kept = append(kept, dew(fmt.Sprintf("D-2703%02d-1", n), n))
	}
	late := of("D-270303-1", day(12, 10, 0), record.BatchFacts{Did: "make"}) // planned for the 3rd
	names := func(list []trace.Neighbour) string {
		var out []string
		for _, n := range list {
			out = append(out, strings.TrimPrefix(n.ID, "D-2703"))
		}
		return strings.Join(out, " ")
	}
	kept[slices.IndexFunc(kept, func(b schedule.KeptBatch) bool { return b.ID == "D-270303-1" })].Stages[0].Said = ""
	b := ask(t, kept, []record.Entry{late}, "D-270311-1").Batches[0]
	if got, want := names(b.Before), "06-1 07-1 08-1 09-1 10-1"; got != want {
		t.Errorf("before: got %s, want %s", got, want)
	}
	if got, want := names(b.After), "12-1 03-1 13-1 14-1 15-1"; got != want {
		t.Errorf("after: got %s, want %s", got, want)
	}
	if b := ask(t, kept, nil, "D-270301-1").Batches[0]; len(b.Before) != 0 || len(b.After) != 5 {
		t.Errorf("the first has %d before and %d after it", len(b.Before), len(b.After))
	}
}

// TestEntriesAlone: before anything was kept, the record alone answers.
func TestEntriesAlone(t *testing.T) {
	entries := []record.Entry{
		{At: day(8, 7, 30), Subject: record.Subject{Kind: record.OfMilk, Name: "cow", Day: date(8)}, Milk: record.MilkFacts{Came: record.Say(resources.Millilitres(8000)), Lot: "H-77"}},
		of("D-270308-1", day(8, 9, 0), record.BatchFacts{Did: "make", Litres: record.Say(resources.Millilitres(5000)), Drew: record.Say(record.Draw{Supply: "cow", Day: date(8)}), Lots: []record.Packet{{What: "rennet", Lot: "R-55"}}}),
		of("D-270308-1", day(9, 20, 0), record.BatchFacts{Did: "pack", Pieces: record.Say(9)}),
		stall(13, day(13, 9, 0), record.TargetFacts{Took: record.Say(5), Of: []record.FromLot{{Lot: "D-270308-1", Pieces: 5}}, To: "Corner shop"}),
		{At: day(10, 9, 0), Subject: record.Subject{Kind: record.OfCheese, Name: "Dew"}, Batch: record.BatchFacts{Did: "make", Litres: record.Say(resources.Millilitres(5000))}},
	}
	b := ask(t, nil, entries, "D-270308-1").Batches[0]
	got := fmt.Sprintf("%s %s %v %d stages, %s, %d left of %d to %s, %d entries, %d after", b.Cheese, b.Milk.Supply, b.Milk.Lots, len(b.Stages), b.Packets[0].Lot, b.Balance.Left, b.Balance.Made, b.Leavings[0].To, len(b.Entries), len(b.After))
	if want := "Dew cow [H-77] 2 stages, R-55, 4 left of 9 to Corner shop, 4 entries, 1 after"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if made := ask(t, nil, entries, "2027-03-10").Made; len(made) != 1 || made[0].ID != "" || made[0].Cheese != "Dew" {
		t.Errorf("got %+v, want the batch off the plan, which has no number yet", made)
	}
}

// TestOffThePlan: the line that says that a batch was made off the plan is of the batch that was
// kept for it.
func TestOffThePlan(t *testing.T) {
	b := dew("D-270308-2", 8)
	b.OffPlan = &schedule.MadeOffPlan{Nr: 1, At: day(8, 9, 30)}
	e := record.Entry{Nr: 1, At: day(8, 9, 30), Subject: record.Subject{Kind: record.OfCheese, Name: "Dew"}, Batch: record.BatchFacts{Did: "make"}}
	got := ask(t, []schedule.KeptBatch{b, dew("D-270308-1", 8)}, []record.Entry{e}, "D-270308-2").Batches[0]
	if len(got.Entries) != 1 || got.Stages[0].Done != day(8, 9, 30) || len(got.Before)+len(got.After) != 1 {
		t.Errorf("got %+v", got)
	}
}

func TestWords(t *testing.T) {
	kept := []schedule.KeptBatch{dew("D-270308-1", 8, left("Stall 2027-03-13", 13, 6)), dew("D-270309-1", 9, left("Stall 2027-03-20", 20, 6), left("Fair", 13, 2))}
	kept[1].Lot = "D-270309-7"
	entries := []record.Entry{stall(13, day(13, 9, 0), record.TargetFacts{Took: record.Say(6), To: "Corner shop"}),
		{At: day(13, 9, 0), Subject: record.Subject{Kind: record.OfTarget, Name: "Stall", Day: date(13), Cheese: "Old"}, Target: record.TargetFacts{Took: record.Say(3)}}}
	for words, want := range map[string]string{
		"D-270308-1":          "batch D-270308-1",
		"D-270309-1":          "batch D-270309-1",
		"D-270309-7":          "batch D-270309-1",
		"2027-03-08":          "day cow/D-270308-1 made:D-270308-1",
		"2027-03-13":          "day left:Fair left:Stall 2027-03-13 loose",
		"2027-03-14":          "day",
		"cow":                 "milk cow/D-270308-1 cow/D-270309-1 left:Fair left:Stall 2027-03-13 left:Stall 2027-03-20",
		"cow 2027-03-09":      "milk cow/D-270309-1 left:Fair left:Stall 2027-03-20",
		"Stall":               "target left:Stall 2027-03-13 left:Stall 2027-03-20 loose 2 entries",
		"Stall 2027-03-13":    "target left:Stall 2027-03-13 loose 2 entries", // one word
		"Stall/2027-03-20":    "target left:Stall 2027-03-20",
		"Fair":                "target left:Fair",
		"Corner shop":         "business left:Stall 2027-03-13 1 entries",
		"D-270308":            "unknown",
		"2027-13-01":          "unknown",
		"D-270308-1/nonsense": "unknown",
	} {
		t.Run(words, func(t *testing.T) {
			asked := strings.Split(words, "/")
			if words == "cow 2027-03-09" {
				asked = strings.Split(words, " ")
			}
			answers, err := trace.New(kept, record.NewBook(entries), time.UTC).Ask(asked)
			var unknown *trace.Unknown
			if errors.As(err, &unknown) {
				if want != "unknown" || !slices.Contains(unknown.Among, "D-270309-7") || !slices.Contains(unknown.Among, "Corner shop") {
					t.Errorf("got %v among %v, want %s", err, unknown.Among, want)
				}
				return
			}
			a := answers[0]
			got := []string{string(a.Kind)}
			for _, b := range a.Batches {
				got = append(got, b.ID)
			}
			for _, c := range a.Collections {
				for _, n := range c.Batches {
					got = append(got, c.Supply+"/"+n.ID)
				}
			}
			for _, n := range a.Made {
				got = append(got, "made:"+n.ID)
			}
			for _, x := range a.Passed {
				got = append(got, "left:"+x.Target)
			}
			if len(a.Loose) > 0 {
				got = append(got, "loose")
			}
			if n := len(a.Entries); n > 0 {
				got = append(got, fmt.Sprint(n, " entries"))
			}
			if text := strings.Join(got, " "); text != want {
				t.Errorf("got  %s\nwant %s", text, want)
			}
		})
	}
}
