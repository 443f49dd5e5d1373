package cp

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// An answer moves no more jobs of the plan in force than it says, and none where it says that
// nothing moves.
func TestAnAnswerMovesWhatItSays(t *testing.T) {
	unmoved, moved := 0, 0
	checkMany(t, 4, func(t *rapid.T) {
		k := small(t)
		k.demands, k.length, k.begun = drawInt(t, 3, 5, "demands"), 30, 0
		m, with, r := drawAsked(t, k, 300_000)
		d := len(m.Demands) - 1
		units := with.Demands[d].Units
		q := Inquire(context.Background(), with, d, -1, 2_000_000, nil)
		if q == nil || !q.Stands() {
			return
		}
		standing := func(f *Fit) int {
			n := 0
			for i := range r.Jobs {
				if slices.ContainsFunc(f.Result.Jobs, func(j Job) bool { return r.Jobs[i].standsAs(&j) }) {
					n++
				}
			}
			return n
		}
		if f := q.FitsUnmoved(units); f != nil {
			if unmoved++; f.Moved != 0 || standing(f) != len(r.Jobs) {
				t.Fatalf("%d of %d jobs stand, and %d are said to move\n%s", standing(f), len(r.Jobs), f.Moved, modelText(with))
			}
			return
		}
		if f, _ := q.FitsMoved(units); f != nil {
			if moved++; standing(f) < len(r.Jobs)-f.Moved {
				t.Fatalf("%d of %d jobs stand, and %d are said to move\n%s", standing(f), len(r.Jobs), f.Moved, modelText(with))
			}
		}
	})
	t.Logf("%d fit, %d if moved", unmoved, moved)
	if unmoved < few(20) || moved < few(5) {
		t.Errorf("got %d, %d: too few to mean much", unmoved, moved)
	}
}
