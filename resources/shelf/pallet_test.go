package shelf_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources/shelf"
)

// pallet is a published or proved number of equal boxes on an empty floor.
type pallet struct {
	W, D, w, d int64
	most       int
	rows       int // best of the two ways to lay straight rows; 0 where not quoted
	source     string
}

// Where the number equals the area bound or the bound by bars, that bound and the
// places found here prove it; the sources are for the rest.
func pallets() []pallet {
	const (
		page = "Lobato et al., packing page with the L-method, lagrange.ime.usp.br/~lobato/packing"
		area = "equals the area bound"
		bars = "equals the bound by bars (Barnes 1979)"
		lit  = "pallet loading literature, from memory; equals the area bound"
		cell = "exhaustive search over cells"
	)
	return []pallet{
		{49, 28, 8, 3, 57, 0, page},
		{43, 26, 7, 3, 53, 0, lit},
		{22, 16, 5, 3, 23, 21, area},
		{30, 22, 7, 4, 23, 21, area},
		{57, 44, 12, 5, 41, 33, area},
		{50, 36, 11, 7, 23, 21, area},
		{60, 40, 11, 7, 30, 25, bars},
		{120, 80, 20, 15, 32, 0, area},
		{120, 80, 30, 20, 16, 0, area},
		{14, 10, 3, 2, 23, 21, cell},
		{13, 11, 5, 2, 14, 12, cell},
		{16, 11, 4, 3, 14, 12, cell},
		{17, 13, 5, 4, 10, 9, cell},
		{8, 8, 5, 2, 5, 0, cell},
		{9, 6, 4, 3, 4, 0, cell},
		{7, 7, 3, 2, 8, 6, cell},
		{10, 10, 4, 3, 8, 6, cell},
		{11, 8, 5, 3, 5, 4, cell},
		{12, 10, 5, 3, 8, 0, cell},
	}
}

func (p pallet) name() string { return fmt.Sprintf("%dx%d of %dx%d", p.W, p.D, p.w, p.d) }

// One step either side of the limit: the boxes find places, one more does not. Where
// straight rows are quoted they are fewer, and a program that only lays rows would
// fail.
func TestFitPublishedPallets(t *testing.T) {
	for _, p := range pallets() {
		rows := max((p.W/p.w)*(p.D/p.d), (p.W/p.d)*(p.D/p.w))
		if p.rows != 0 && int(rows) != p.rows {
			t.Errorf("%s: rows = %d, want %d", p.name(), rows, p.rows)
		}
		for _, turned := range []bool{false, true} {
			floor, box := cm(p.W, p.D), cm(p.w, p.d)
			if turned {
				floor, box = cm(p.D, p.W), cm(p.d, p.w)
			}
			name := fmt.Sprintf("%s, turned %v (%s)", p.name(), turned, p.source)
			check(t, name, floor, nil, many(p.most, box), shelf.Yes)
			check(t, name+", one more", floor, nil, many(p.most+1, box), shelf.No)
		}
	}
}

// Equal boxes find places up to the number that the oracle finds places for.
func TestFitOfEqualBoxesAgreesWithEveryCell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(lo, hi int64, name string) int64 { return rapid.Int64Range(lo, hi).Draw(t, name) }
		floor := shelf.Rect{W: side(1, 7, "width"), D: side(1, 6, "depth")}
		box := shelf.Rect{W: side(1, 5, "box width"), D: side(2, 4, "box depth")}
		if floor.W*floor.D > 6*box.W*box.D {
			t.Skip("too many boxes for the oracle")
		}
		c := cells{w: floor.W, d: floor.D}
		for n := 1; ; n++ {
			want := shelf.No
			if c.fits(many(n, box)) {
				want = shelf.Yes
			}
			if _, got, _ := shelf.Fit(floor, nil, many(n, box), shelf.DefaultBudget); got != want {
				t.Fatalf("Fit(%v, %d x %v) = %v, want %v", floor, n, box, got, want)
			}
			if want == shelf.No {
				return
			}
		}
	})
}
