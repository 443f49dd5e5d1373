package learn

import (
	"fmt"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// of learns from some batches, made every other day, by what was said of each.
func of(t *testing.T, n int, said func(i int, id string) []record.Entry, change func(i int, b *schedule.KeptBatch)) Cheese {
	t.Helper()
	k, r := dairy()
	var kept []schedule.KeptBatch
	var all []record.Entry
	for i := range n {
		id := fmt.Sprint("D-", i)
		b := batch(id, 2*i+1)
		if change != nil {
			change(i, &b)
		}
		kept = append(kept, b)
		all = append(all, said(i, id)...)
	}
	return Of(k, r, trace.New(kept, record.NewBook(all), time.UTC).Made())
}

// The numbers of TestYieldOfSixBatches from the record: the six batches by litres and pieces that were said; the first count holds, with
// what was gone before it.
func TestYieldFromTheRecord(t *testing.T) {
	six := []struct{ litres, pieces int }{{8, 16}, {6, 11}, {10, 20}, {8, 15}, {12, 25}, {8, 16}}
	c := of(t, 8, func(i int, id string) []record.Entry {
		day := 2*i + 1
		switch i {
		case 6: // counted, and nobody said how much milk
			return []record.Entry{say(0, id, at(day+1, 9, 0), "pieces 99")}
		case 7:
			return []record.Entry{say(0, id, at(day, 9, 0), "did make", "litres 5"), say(0, id, at(day+1, 9, 0), "pieces 1"), say(0, id, at(day+2, 9, 0), "lost")}
		}
		return []record.Entry{say(0, id, at(day, 9, 0), "did make", fmt.Sprint("litres ", six[i].litres)), say(0, id, at(day+1, 9, 0), "gone 1"),
			say(0, id, at(day+1, 10, 0), fmt.Sprint("pieces ", six[i].pieces-1)), say(0, id, at(day+1, 20, 0), "pieces 3")}
	}, nil)
	y := c.Yield
	if y.Batches != 6 || y.Pieces != 103 || y.From != 52_000 || !y.Told() || y.Same() || y.Low(8000) != 14 {
		t.Errorf("got %+v", y)
	}
	if len(y.Passed) != 2 || y.Passed[0].Batch != "D-6" || y.Passed[1].Why != "it was lost" {
		t.Errorf("passed over %v", y.Passed)
	}
	// Said to be made as planned, a batch had its planned litres.
	planned := of(t, 3, func(i int, id string) []record.Entry {
		return []record.Entry{say(0, id, at(2*i+1, 9, 0), "did make"), say(0, id, at(2*i+2, 9, 0), "pieces 9")}
	}, nil)
	if y := planned.Yield; y.Pieces != 27 || y.From != 15_000 || y.Low(5000) != 9 {
		t.Errorf("as planned: got %+v", y)
	}
	// Counted when some had left, it says nothing.
	left := of(t, 3, func(i int, id string) []record.Entry {
		return []record.Entry{say(0, id, at(2*i+1, 9, 0), "did make"), say(0, id, at(2*i+3, 9, 0), "pieces 3")}
	}, func(i int, b *schedule.KeptBatch) {
		b.For = []schedule.KeptShare{{Gone: true, Left: 6, Share: schedule.Share{Target: fmt.Sprint("Stall ", i), By: at(2*i+3, 7, 0), Pieces: 6}}}
	})
	if y := left.Yield; y.Batches != 0 || y.Told() || len(y.Passed) != 3 {
		t.Errorf("counted late: got %+v", y)
	}
}

// Work is told where both was said, by its median; what took half a day somebody forgot to say.
func TestWorkFromTheRecord(t *testing.T) {
	took := []resources.Minutes{40, 25, 35, 13 * hour, 0, 50}
	c := of(t, 7, func(i int, id string) []record.Entry {
		if i == 6 { // only done: nobody knows since when
			return []record.Entry{say(0, id, at(14, 9, 0), "did drain")}
		}
		return []record.Entry{say(0, id, at(2*i+2, 8, 0), "began drain"), say(0, id, at(2*i+2, 8, 0).Add(took[i]), "did drain")}
	}, nil)
	if len(c.Works) != 1 {
		t.Fatalf("got %+v", c.Works)
	}
	if w := c.Works[0]; w.Stage != "drain" || w.Times != 4 || w.Took != (Range{25, 37, 50}) || w.Recipe != 30 || len(w.Passed) != 2 {
		t.Errorf("got %+v", w)
	}
}

// What is lost is told apart for every two stages, all of all batches, by the piece: of 10 pieces 1,000 g and then,
// with one eaten, 720 g is 80 g of 100 g.
func TestLossFromTheRecord(t *testing.T) {
	last := []int{720, 765, 810, 700}
	c := of(t, 5, func(i int, id string) []record.Entry {
		day := 2*i + 2
		out := []record.Entry{say(0, id, at(day, 9, 0), "did drain", "pieces 10", "grams 1000"), say(0, id, at(day+1, 8, 0), "gone 1")}
		switch {
		case i == 4: // weighed twice at one stage
			return append(out, say(0, id, at(day+2, 9, 0), "grams 900"))
		case i == 3: // on one day
			return append(out, say(0, id, at(day, 20, 0), "did pack", "grams 900"))
		}
		return append(out, say(0, id, at(day+2, 9, 0), "did pack", fmt.Sprint("grams ", last[i])))
	}, nil)
	if len(c.Loss) != 1 {
		t.Fatalf("got %+v", c.Loss)
	}
	l := c.Loss[0]
	if l.From != "drain" || l.To != "pack" || l.Batches != 3 || l.Days != 2 {
		t.Errorf("got %+v", l)
	}
	near(t, "share", l.Share, 1-(720+765+810)/2700., 1e-12)
	near(t, "least", l.Least, 0.1, 1e-12)
	near(t, "most", l.Most, 0.2, 1e-12)
}
