package explain

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
)

// TestNothingIsAskedOfWhatIsHalfStated: where the work is spent before the model is stated with more
// room, what was stated before still stands, and no more is asked.
func TestNothingIsAskedOfWhatIsHalfStated(t *testing.T) {
	stated := 0
	tiny.CheckMany(t, 2, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Demands, k.Length = tiny.DrawInt(t, 2, 4, "demands"), 30
		_, with, _ := drawAsked(t, k, 300_000)
		s := search.Begin(with)
		d := len(with.Demands) - 1
		if !asHinted(s, false) {
			return
		}
		r := newReasons(context.Background(), s, d, false, nil)
		if r == nil {
			return
		}
		stated++
		r.until = s.Spent + 1_000_000
		before := r.k
		r.s.Limit = chain.Limit{Until: 1}
		if r.restate() {
			t.Fatal("stated with all work spent")
		}
		if r.k != before || len(r.lits) != len(r.facts) {
			t.Fatalf("got another statement with %d of %d facts", len(r.lits), len(r.facts))
		}
		r.askFor(d, 1)
		if is, _ := r.possible(r.allBut(d)); is != kernel.Unknown {
			t.Fatalf("got %v, want it open", is)
		}
	})
	if stated == 0 {
		t.Error("nothing was ever stated")
	}
}
