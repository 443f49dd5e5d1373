package follows_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// market is a target of the 13th for which two batches and an entry of stock were to give 4, 6 and 3
// pieces; the stock was packed first, then D-270308-1, then D-270309-1.
func market(from resources.Moment) *schedule.Problem {
	p := dairy(from)
	share := func(n int) []schedule.Share {
		return []schedule.Share{{Target: "Stall 2027-03-13", By: day(13, 7, 0), Pieces: n}}
	}
	first := p.Earlier.Batches[0]
	second := first
	second.ID, first.For, second.For = "D-270309-1", share(6), share(4)
	second.Stages = nil
	for _, t := range first.Stages {
		t.Start = t.Start.Add(d)
		second.Stages = append(second.Stages, t)
	}
	entry := schedule.Stock{Cheese: "Dew", Pieces: 5, Packed: day(8, 6, 0), At: "fridge", Lot: "D-270301-1"}
	p.Stock = []schedule.Stock{entry}
	p.Earlier.Batches = []schedule.Batch{first, second}
	p.Earlier.Stock = []schedule.StockUse{{Cheese: "Dew", Pieces: 5, Packed: entry.Packed, At: "fridge", Lot: entry.Lot, For: share(3)}}
	p.Earlier.BegunAsOf = []schedule.BegunAsOf{{ID: schedule.StockEntry, AsOf: day(8, 6, 0), Entry: entry.InShort()}}
	p.Targets = []schedule.Target{{Name: "Stall 2027-03-13", By: day(13, 7, 0), Wants: []schedule.Want{{Cheese: "Dew", Pieces: 13}}}}
	return p
}

// stall is an entry about what the stall of the 13th took or gave back.
func stall(at resources.Moment, facts record.TargetFacts) record.Entry {
	return record.Entry{At: at, Subject: record.Subject{Kind: record.OfTarget, Name: "Stall", Day: resources.Date{Year: 2027, Month: 3, Day: 13}, Cheese: "Dew"}, Target: facts}
}

// left tells what there is of the stock and the two batches: "2, 10-6, 10-4".
func left(p *schedule.Problem) string {
	stock := 0
	for _, s := range p.Stock {
		stock += s.Pieces
	}
	a, b := p.Lived.Batch("D-270308-1"), p.Lived.Batch("D-270309-1")
	return fmt.Sprintf("%d, %d-%d, %d-%d", stock, a.Pieces, a.Gone, b.Pieces, b.Gone)
}

// afterPlan is the plan that a plan would be that carries all on as it is.
func afterPlan(p *schedule.Problem) *schedule.Plan {
	out := *p.Lived
	out.From, out.BegunAsOf, out.Stock, out.PastStock = p.From, p.BegunAsOf, nil, p.PastStock
	for i := range out.Batches {
		out.Batches[i].Begun = true
	}
	for _, s := range p.Stock {
		out.Stock = append(out.Stock, schedule.StockUse{Cheese: s.Cheese, Pieces: s.Pieces, Packed: s.Packed, At: s.At, Lot: s.Lot, Left: s.Left})
	}
	return &out
}

// What was taken replaces what was planned, in exact numbers, whether it is said before the next plan or
// after it, and however many plans there are after that; and what is struck counts no more.
func TestWhatATargetTook(t *testing.T) {
	of := func(list ...record.FromLot) []record.FromLot { return list }
	back := func(n int, resell bool) record.Entry {
		return stall(day(13, 14, 0), record.TargetFacts{Back: record.Say(n), Resell: resell})
	}
	took := func(n int, of ...record.FromLot) record.Entry {
		return stall(day(13, 7, 0), record.TargetFacts{Took: record.Say(n), Of: of})
	}
	lots := of(record.FromLot{Lot: "D-270309-1", Pieces: 7}, record.FromLot{Lot: "D-270301-1", Pieces: 1})
	for _, c := range []struct {
		name    string
		entries []record.Entry
		want    string
	}{
		{"nobody said", nil, "2, 10-6, 10-4"},
		{"as planned", []record.Entry{took(13)}, "2, 10-6, 10-4"},
		{"the one packed last keeps what was not taken", []record.Entry{took(11)}, "2, 10-6, 10-2"},
		{"and then the one before it", []record.Entry{took(5)}, "2, 10-2, 10-0"},
		{"and then the stock", []record.Entry{took(1)}, "4, 10-0, 10-0"},
		{"none", []record.Entry{took(0)}, "5, 10-0, 10-0"},
		{"more than planned comes from the one packed last", []record.Entry{took(16)}, "2, 10-6, 10-7"},
		{"of the lots that were said", []record.Entry{took(8, lots...)}, "4, 10-0, 10-7"},
		{"of a lot that is not known", []record.Entry{took(3, record.FromLot{Lot: "X-1", Pieces: 3})}, "5, 10-0, 10-0"},
		{"the last word holds", []record.Entry{took(5), stall(day(13, 15, 0), record.TargetFacts{Took: record.Say(11)})}, "2, 10-6, 10-2"},
		{"back, and not to be sold again", []record.Entry{took(13), back(3, false)}, "2, 10-6, 10-4"},
		{"back, to be sold again", []record.Entry{took(13), back(3, true)}, "2, 10-6, 10-1"},
		{"more back than the one packed last gave", []record.Entry{took(13), back(6, true)}, "2, 10-4, 10-0"},
		{"back of what was taken as planned", []record.Entry{back(5, true)}, "2, 10-5, 10-0"},
		{"back of a lot", []record.Entry{took(13), stall(day(13, 14, 0), record.TargetFacts{Back: record.Say(2), Of: of(record.FromLot{Lot: "D-270308-1", Pieces: 2}), Resell: true})}, "2, 10-4, 10-4"},
		{"counted before they came back", []record.Entry{took(13), {At: day(13, 12, 0), Subject: record.Subject{Kind: record.OfBatch, Name: "D-270309-1"}, Batch: record.BatchFacts{Pieces: record.Say(5)}}, back(3, true)}, "2, 10-6, 8-0"},
		{"the stock was counted", []record.Entry{{At: day(13, 12, 0), Subject: record.Subject{Kind: record.OfBatch, Name: "D-270301-1"}, Batch: record.BatchFacts{Pieces: record.Say(1)}}}, "1, 10-6, 10-4"},
		{"sold out is no count", []record.Entry{stall(day(13, 11, 0), record.TargetFacts{SoldOut: record.Say(resources.Clock(680))})}, "2, 10-6, 10-4"},
	} {
		t.Run(c.name, func(t *testing.T) {
			says := append([]record.Entry{{At: day(8, 9, 0), Note: "x"}}, c.entries...)
			at := follows.Of(market(day(14, 6, 0)), record.NewBook(says)).Problem
			if got := left(at); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
			silent := follows.Of(market(day(14, 6, 0)), record.NewBook(says[:1])).Problem // said after the next plan
			for plan, before := range map[string]*schedule.Problem{"again": at, "late": silent} {
				for n := range 3 {
					p := market(day(14, 7+n, 0))
					p.Earlier = afterPlan(before)
					before = follows.Of(p, record.NewBook(says)).Problem
					if got := left(before); got != c.want {
						t.Errorf("%s, plan %d: got %s, want %s", plan, n, got, c.want)
					}
				}
				p := market(day(14, 12, 0))
				p.Earlier = afterPlan(before)
				if got := left(follows.Of(p, record.NewBook(says[:1])).Problem); got != "2, 10-6, 10-4" {
					t.Errorf("%s, and struck: got %s, want what was planned", plan, got)
				}
			}
		})
	}
}

// What was taken before its moment ends the target, and what was not taken is there for others.
func TestATargetThatWasTakenIsOver(t *testing.T) {
	p := follows.Of(market(day(12, 6, 0)), record.NewBook([]record.Entry{stall(day(11, 18, 0), record.TargetFacts{Took: record.Say(9)})})).Problem
	if got := left(p); got != "2, 10-6, 10-0" {
		t.Errorf("got %s, want what was taken off", got)
	}
	if n := p.Targets[0].Wants[0].Pieces; n != 0 || len(p.Lived.Batch("D-270308-1").For) > 0 {
		t.Errorf("%d pieces are wanted still, and %v given", n, p.Lived.Batch("D-270308-1").For)
	}
}

// What was packed before the plan had it so was packed when somebody says it was: pieces that nothing was
// planned for come from it, today as with the next plan.
func TestWhatWasPackedSoonerGives(t *testing.T) {
	at := day(12, 7, 0)
	for _, last := range []record.BatchFacts{{Did: "pack"}, {Began: "pack"}} {
		p := market(day(12, 12, 0))
		b := &p.Earlier.Batches[1]
		b.Stages = slices.Clone(b.Stages)
		b.Stages[len(b.Stages)-1].Start = day(12, 19, 0)
		took := stall(at, record.TargetFacts{Took: record.Say(3)})
		took.Subject.Name, took.Subject.Day = "Order", resources.Date{}
		packed := record.Entry{At: at.Add(-60), Subject: record.Subject{Kind: record.OfBatch, Name: b.ID}, Batch: last}
		got := follows.Of(p, record.NewBook([]record.Entry{packed, took})).Problem.Lived.Batch(b.ID)
		if got.Gone != 3 {
			t.Errorf("%+v: got %d pieces gone, want 3", last, got.Gone)
		}
	}
}

// What was taken of a batch that no plan knows any more is not taken of another one as well, plan after plan.
func TestWhatIsForgottenIsTakenOnce(t *testing.T) {
	took := stall(day(12, 7, 0), record.TargetFacts{Took: record.Say(6)})
	took.Subject.Name, took.Subject.Day = "Order", resources.Date{}
	numbered := took
	numbered.Nr = 4
	for name, c := range map[string]struct {
		entry record.Entry
		made  *schedule.MadeOf
		want  int
	}{
		"the plan before had it":          {numbered, &schedule.MadeOf{Entry: 4}, 0},
		"it did not":                      {numbered, &schedule.MadeOf{Entry: 3}, 6},
		"the plan before had it, by hand": {took, &schedule.MadeOf{Lines: []string{follows.InShort(&took)}}, 0},
		"it did not, by hand":             {took, &schedule.MadeOf{}, 6},
		"what the plan had is not known":  {numbered, nil, 6},
	} {
		p := market(day(12, 12, 0))
		p.Earlier.From, p.Earlier.MadeOf = day(12, 8, 0), c.made
		got := follows.Of(p, record.NewBook([]record.Entry{c.entry})).Problem.Lived.Batch("D-270309-1")
		if got.Gone != c.want {
			t.Errorf("%s: got %d pieces gone, want %d", name, got.Gone, c.want)
		}
	}
}

// Two batches gave to the stall. When one keeps no longer, and no plan knows it, the other has given no more
// than it did, however many plans there are after that, and with what came back.
func TestWhatIsForgottenIsNotMadeUpFor(t *testing.T) {
	took := stall(day(13, 7, 0), record.TargetFacts{Took: record.Say(11)})
	back := stall(day(13, 9, 0), record.TargetFacts{Back: record.Say(2), Resell: true})
	took.Nr, back.Nr = 1, 2
	for want, entries := range map[int][]record.Entry{2: {took}, 0: {took, back}} { // 3 of stock, 6 and the rest
		before := follows.Of(market(day(14, 6, 0)), record.NewBook(entries)).Problem
		if got := before.Lived.Batch("D-270309-1").Gone; got != want {
			t.Fatalf("at first: got %d pieces gone, want %d", got, want)
		}
		for n := range 3 {
			p := market(day(14, 7+n, 0))
			p.Stock, p.Earlier = nil, afterPlan(before)
			p.Earlier.From, p.Earlier.MadeOf = day(14, 6, 0), &schedule.MadeOf{Entry: 2}
			p.Earlier.Stock = nil
			p.Earlier.Batches = slices.DeleteFunc(p.Earlier.Batches, func(b schedule.Batch) bool { return b.ID != "D-270309-1" })
			before = follows.Of(p, record.NewBook(entries)).Problem
			if got := before.Lived.Batch("D-270309-1").Gone; got != want {
				t.Errorf("plan %d: got %d pieces gone, want %d", n, got, want)
			}
		}
	}
}

// Of a batch that was made only after that nothing was taken, whatever was said.
func TestNothingIsTakenBeforeItIsMade(t *testing.T) {
	of := []record.FromLot{{Lot: "D-270309-1", Pieces: 4}}
	for at, want := range map[resources.Moment]string{day(8, 12, 0): "5, 10-0, 10-0", day(11, 12, 0): "5, 10-0, 10-4"} {
		p := follows.Of(market(day(14, 6, 0)), record.NewBook([]record.Entry{stall(at, record.TargetFacts{Took: record.Say(4), Of: of})})).Problem
		if got := left(p); got != want {
			t.Errorf("said at %d: got %s, want %s", at, got, want)
		}
	}
}

// Pieces that broke are taken off once, however many plans there are after that, and not at all once that
// is struck; so is a count.
func TestPiecesAreTakenOffOnce(t *testing.T) {
	batch := record.Subject{Kind: record.OfBatch, Name: "D-270308-1"}
	gone := record.Entry{Nr: 1, At: day(10, 9, 0), Subject: batch, Batch: record.BatchFacts{Gone: record.Say(2)}}
	count := record.Entry{Nr: 2, At: day(10, 10, 0), Subject: batch, Batch: record.BatchFacts{Pieces: record.Say(5)}}
	strike := func(nr int) record.Entry { return record.Entry{Nr: nr + 10, At: day(11, 0, 0), Strikes: []int{nr}} }
	for _, c := range []struct {
		says, then []record.Entry
		want       string
	}{
		{[]record.Entry{gone}, []record.Entry{strike(1)}, "8 10"},
		{[]record.Entry{gone, count}, []record.Entry{strike(2)}, "5 8"},
		{[]record.Entry{count}, []record.Entry{strike(2)}, "5 10"},
	} {
		before := market(day(12, 6, 0)).Earlier
		var got []string
		for n := range 5 {
			says := c.says
			if n > 2 {
				says = append(says, c.then...)
			}
			p := market(day(12, 6+n, 0))
			p.Earlier = before
			at := follows.Of(p, record.NewBook(says)).Problem
			got, before = append(got, fmt.Sprint(at.Lived.Batch("D-270308-1").Pieces)), afterPlan(at)
		}
		w := strings.Fields(c.want)
		if want := []string{w[0], w[0], w[0], w[1], w[1]}; fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("%v: got %v, want %v", c.says, got, want)
		}
	}
}

// Stock that was all to leave is remembered as long as it keeps, and is there again where somebody says
// that not all of it left.
func TestStockThatWasAllToLeaveComesBack(t *testing.T) {
	p := market(day(14, 6, 0))
	p.Recipes[0].Keeps = 7 * d
	p.Earlier.Stock[0].For[0].Pieces = 5
	p.Earlier.Batches = nil
	silent := follows.Of(p, record.NewBook(nil)).Problem
	if len(silent.Stock) != 0 || len(silent.PastStock) != 1 || schedule.LeftPieces(silent.PastStock[0].Left) != 5 {
		t.Fatalf("got %+v and %+v, want 5 pieces remembered as gone", silent.Stock, silent.PastStock)
	}
	next := market(day(14, 8, 0))
	next.Recipes[0].Keeps = 7 * d
	next.Earlier.Stock, next.Earlier.PastStock, next.Earlier.Batches = nil, silent.PastStock, nil
	said := follows.Of(next, record.NewBook([]record.Entry{stall(day(13, 7, 0), record.TargetFacts{Took: record.Say(2)})})).Problem
	if len(said.Stock) != 1 || said.Stock[0].Pieces != 3 || len(said.PastStock) != 0 {
		t.Errorf("got %+v and %+v, want 3 pieces there again", said.Stock, said.PastStock)
	}
	next.From = day(16, 8, 0) // it keeps no more
	if old := follows.Of(next, record.NewBook(nil)).Problem; len(old.Stock)+len(old.PastStock) != 0 {
		t.Errorf("got %+v and %+v, want none", old.Stock, old.PastStock)
	}
}

// Stock with a lot that is lost is there no more, and is again where that is struck, as long as it keeps.
func TestStockThatIsLost(t *testing.T) {
	lost := record.Entry{Nr: 1, At: day(12, 12, 0), Subject: record.Subject{Kind: record.OfBatch, Name: "D-270301-1"}, Batch: record.BatchFacts{Lost: true}}
	at := follows.Of(market(day(12, 13, 0)), record.NewBook([]record.Entry{lost})).Problem
	if got, want := left(at), "0, 10-0, 10-0"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	again := market(day(12, 14, 0))
	again.Earlier = afterPlan(at)
	strike := record.Entry{Nr: 2, At: day(12, 13, 30), Strikes: []int{1}}
	if got, want := left(follows.Of(again, record.NewBook([]record.Entry{lost, strike})).Problem), "5, 10-0, 10-0"; got != want {
		t.Errorf("struck: got %s, want %s", got, want)
	}
}
