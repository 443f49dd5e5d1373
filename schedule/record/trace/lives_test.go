package trace_test

import (
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// life is what really happens to a batch, piece by piece, and what is said of it.
type life struct {
	made, here       int // pieces
	gone, took, back int
	lapsed           int // gone without a word
	counted          bool
	accounted        int // lapses that a count has shown
	entries          []record.Entry
	shares           []schedule.KeptShare
}

// live draws the life of a batch of 10 pieces: every few hours something happens.
func live(t *rapid.T, id string) *life {
	l := &life{made: 10, here: 10}
	at := day(10, 8, 0)
	say := func(e record.Entry) {
		e.At, e.Nr = at, len(l.entries)+1
		l.entries = append(l.entries, e)
	}
	own := func(f record.BatchFacts) {
		say(record.Entry{Subject: record.Subject{Kind: record.OfBatch, Name: id}, Batch: f})
	}
	for step := range rapid.IntRange(0, 12).Draw(t, "steps") {
		at = at.Add(resources.Minutes(rapid.IntRange(1, 300).Draw(t, "later")))
		n := 0
		if l.here > 0 {
			n = rapid.IntRange(0, l.here).Draw(t, "pieces")
		}
		target := fmt.Sprint("Stall ", step)
		subject := record.Subject{Kind: record.OfTarget, Name: target, Cheese: "Dew"}
		switch rapid.IntRange(0, 6).Draw(t, "what") {
		case 0: // eaten, and said
			l.gone, l.here = l.gone+n, l.here-n
			own(record.BatchFacts{Gone: record.Say(n), Why: "eaten"})
		case 1: // eaten, and nobody said
			l.lapsed, l.here = l.lapsed+n, l.here-n
		case 2: // counted
			l.counted, l.accounted = true, l.lapsed
			own(record.BatchFacts{Pieces: record.Say(l.here)})
		case 3: // left as planned, without a word
			l.took, l.here = l.took+n, l.here-n
			l.shares = append(l.shares, schedule.KeptShare{Share: schedule.Share{Target: target, By: at, Pieces: n}, Gone: true, Left: n, Assumed: true})
		case 4: // so many left, and some came back
			l.took, l.here = l.took+n, l.here-n
			by := at
			l.shares = append(l.shares, schedule.KeptShare{Share: schedule.Share{Target: target, By: by, Pieces: rapid.IntRange(0, 5).Draw(t, "planned")}, Gone: rapid.Bool().Draw(t, "kept since"), Assumed: true})
			say(record.Entry{Subject: subject, Target: record.TargetFacts{Took: record.Say(n), Of: []record.FromLot{{Lot: id, Pieces: n}}}})
			at = at.Add(60)
			back := rapid.IntRange(0, n).Draw(t, "back")
			l.back, l.here = l.back+back, l.here+back
			say(record.Entry{Subject: subject, Target: record.TargetFacts{Back: record.Say(back)}})
		case 5: // something wrong is said, and struck
			own(record.BatchFacts{Gone: record.Say(3)})
			say(record.Entry{Strikes: []int{len(l.entries)}})
		case 6: // planned, and nothing of it taken
			l.shares = append(l.shares, schedule.KeptShare{Share: schedule.Share{Target: target, By: at, Pieces: 4}, Gone: true, Left: 4, Assumed: true})
			say(record.Entry{Subject: subject, Target: record.TargetFacts{Took: record.Say(0)}})
		}
	}
	return l
}

// TestBalanceOfAnyLife: whatever happens to a batch, what is told of its pieces adds up and is what
// happened. What nobody said is in the gap where somebody has counted since, and is taken for
// still here where nobody has.
func TestBalanceOfAnyLife(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const id = "D-270308-1"
		l := live(t, id)
		answers, err := trace.New([]schedule.KeptBatch{dew(id, 8, l.shares...)}, record.NewBook(l.entries), time.UTC).Ask([]string{id})
		if err != nil {
			t.Fatal(err)
		}
		b := answers[0].Batches[0].Balance
		if b.Made != b.Gone+b.Took-b.Back+b.Left+b.Gap {
			t.Errorf("it does not add up: %+v", b)
		}
		if b.Made != l.made || b.Gone != l.gone || b.Took != l.took || b.Back != l.back {
			t.Errorf("got %+v, want made %d, gone %d, took %d, back %d", b, l.made, l.gone, l.took, l.back)
		}
		if want := l.here + l.lapsed - l.accounted; b.Left != want || b.Gap != l.accounted {
			t.Errorf("got %d left and %d not accounted for, want %d and %d (counted: %v)", b.Left, b.Gap, want, l.accounted, l.counted)
		}
	})
}
