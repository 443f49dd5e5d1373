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

// Where straight rows are quoted they are fewer, and a program that only lays
// rows would fail.
func TestMostPublishedPallets(t *testing.T) {
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
			got, answer := shelf.Most(floor, box, shelf.DefaultBudget)
			if got != p.most || answer != shelf.Yes {
				t.Errorf("%s, turned %v: Most = %d, %v, want %d, yes (%s)", p.name(), turned, got, answer, p.most, p.source)
			}
		}
	}
}

// One step either side of the limit: the boxes find places, one more does not.
func TestFitPublishedPallets(t *testing.T) {
	for _, p := range pallets() {
		check(t, p.name(), cm(p.W, p.D), nil, many(p.most, cm(p.w, p.d)), shelf.Yes)
		check(t, p.name()+", one more", cm(p.W, p.D), nil, many(p.most+1, cm(p.w, p.d)), shelf.No)
	}
}

// Most is where the oracle's answer changes.
func TestMostAgreesWithEveryCell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(lo, hi int64, name string) int64 { return rapid.Int64Range(lo, hi).Draw(t, name) }
		floor := shelf.Rect{W: side(1, 7, "width"), D: side(1, 6, "depth")}
		box := shelf.Rect{W: side(1, 5, "box width"), D: side(2, 4, "box depth")}
		if floor.W*floor.D > 6*box.W*box.D {
			t.Skip("too many boxes for the oracle")
		}
		got, answer := shelf.Most(floor, box, shelf.DefaultBudget)
		if answer != shelf.Yes {
			t.Fatalf("Most(%v, %v) = %d, %v, want a proof", floor, box, got, answer)
		}
		c := cells{w: floor.W, d: floor.D}
		if !c.fits(many(got, box)) || c.fits(many(got+1, box)) {
			t.Fatalf("Most(%v, %v) = %d, the cells say otherwise", floor, box, got)
		}
	})
}
