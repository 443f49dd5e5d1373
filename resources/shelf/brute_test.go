package shelf_test

import (
	"math/bits"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources/shelf"
)

// cells is the oracle: a floor of at most 64 unit cells, one bit each. It tries
// every box at every cell, both ways round, as long as there are cells enough.
type cells struct {
	w, d int64
	used uint64
}

// mask is the cells of a rectangle; ok is false if it is not wholly on the floor.
func (c cells) mask(x, y, w, d int64) (m uint64, ok bool) {
	if x < 0 || y < 0 || x+w > c.w || y+d > c.d {
		return 0, false
	}
	for j := y; j < y+d; j++ {
		for i := x; i < x+w; i++ {
			m |= 1 << uint(j*c.w+i)
		}
	}
	return m, true
}

// free is how many cells are free.
func (c cells) free() int64 { return c.w*c.d - int64(bits.OnesCount64(c.used)) }

func (c cells) fits(boxes []shelf.Rect) bool {
	if len(boxes) == 0 {
		return true
	}
	area := int64(0)
	for _, b := range boxes {
		area += b.W * b.D
	}
	if area > c.free() {
		return false
	}
	b := boxes[0]
	for y := int64(0); y < c.d; y++ {
		for x := int64(0); x < c.w; x++ {
			for _, s := range []shelf.Rect{b, {W: b.D, D: b.W}} {
				m, ok := c.mask(x, y, s.W, s.D)
				if !ok || c.used&m != 0 {
					continue
				}
				next := c
				next.used |= m
				if next.fits(boxes[1:]) {
					return true
				}
			}
		}
	}
	return false
}

// faults says what is wrong with places, or "".
func faults(floor shelf.Rect, fixed []shelf.Placed, boxes []shelf.Rect, places []shelf.Placed) string {
	if len(places) != len(boxes) {
		return "not one place for each box"
	}
	for i, p := range places {
		b := boxes[i]
		if (p.W != b.W || p.D != b.D) && (p.W != b.D || p.D != b.W) {
			return "a place does not have its box's sides"
		}
		if p.X < 0 || p.Y < 0 || p.X+p.W > floor.W || p.Y+p.D > floor.D {
			return "a box hangs over the edge"
		}
		for _, q := range fixed {
			if q.W > 0 && q.D > 0 && overlap(p, q) {
				return "a box overlaps a fixed one"
			}
		}
		for _, q := range places[:i] {
			if overlap(p, q) {
				return "two boxes overlap"
			}
		}
	}
	return ""
}

func overlap(a, b shelf.Placed) bool {
	return a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.D && b.Y < a.Y+a.D
}

// question is a random small shelf in whole cells, and the size of a cell.
type question struct {
	floor  shelf.Rect
	fixed  []shelf.Placed
	boxes  []shelf.Rect
	cell   int64
	beyond shelf.Rect // less than a cell
}

func draw(t *rapid.T, mostFixed, mostBoxes int) question {
	side := func(lo, hi int64, name string) int64 { return rapid.Int64Range(lo, hi).Draw(t, name) }
	q := question{floor: shelf.Rect{W: side(1, 7, "floor width"), D: side(1, 6, "floor depth")}, cell: 1}
	for range rapid.IntRange(0, mostFixed).Draw(t, "fixed") {
		q.fixed = append(q.fixed, shelf.Placed{
			X: side(-1, q.floor.W-1, "x"), Y: side(-1, q.floor.D-1, "y"),
			W: side(1, 3, "fixed width"), D: side(1, 3, "fixed depth")})
	}
	kinds := rapid.IntRange(1, 3).Draw(t, "kinds")
	var sizes []shelf.Rect
	for range kinds {
		sizes = append(sizes, shelf.Rect{W: side(1, 5, "width"), D: side(1, 4, "depth")})
	}
	for range rapid.IntRange(1, mostBoxes).Draw(t, "boxes") {
		q.boxes = append(q.boxes, sizes[rapid.IntRange(0, kinds-1).Draw(t, "kind")])
	}
	if rapid.Bool().Draw(t, "scaled") {
		q.cell = 7
		q.beyond = shelf.Rect{W: side(0, 6, "beyond"), D: side(0, 6, "beyond")}
	}
	return q
}

// inside is the question's cells with the fixed boxes on them.
func (q question) inside() cells {
	c := cells{w: q.floor.W, d: q.floor.D}
	for _, p := range q.fixed {
		for y := max(0, p.Y); y < min(q.floor.D, p.Y+p.D); y++ {
			for x := max(0, p.X); x < min(q.floor.W, p.X+p.W); x++ {
				c.used |= 1 << uint(y*c.w+x)
			}
		}
	}
	return c
}

// scaled is the question in the units that Fit is asked in.
func (q question) scaled() (floor shelf.Rect, fixed []shelf.Placed, boxes []shelf.Rect) {
	u := q.cell
	floor = shelf.Rect{W: q.floor.W*u + q.beyond.W, D: q.floor.D*u + q.beyond.D}
	for _, p := range q.fixed {
		fixed = append(fixed, shelf.Placed{X: p.X * u, Y: p.Y * u, W: p.W * u, D: p.D * u})
	}
	for _, b := range q.boxes {
		boxes = append(boxes, shelf.Rect{W: b.W * u, D: b.D * u})
	}
	return floor, fixed, boxes
}

// Both answers are right, and places are good ones, whatever stands already.
func TestFitAgreesWithEveryCell(t *testing.T) {
	for _, c := range []struct {
		name             string
		fixed, mostBoxes int
	}{{"empty floor", 0, 5}, {"fixed boxes", 4, 5}} {
		t.Run(c.name, func(t *testing.T) {
			count := map[shelf.Answer]int{}
			rapid.Check(t, func(t *rapid.T) {
				q := draw(t, c.fixed, c.mostBoxes)
				floor, fixed, boxes := q.scaled()
				places, got, _ := shelf.Fit(floor, fixed, boxes, shelf.DefaultBudget)
				want := shelf.No
				if q.inside().fits(q.boxes) {
					want = shelf.Yes
				}
				if got != want {
					t.Fatalf("Fit(%v, %v, %v) = %v, want %v", floor, fixed, boxes, got, want)
				}
				if got == shelf.Yes {
					if f := faults(floor, fixed, boxes, places); f != "" {
						t.Fatalf("Fit(%v, %v, %v) = %v: %s", floor, fixed, boxes, places, f)
					}
				}
				count[got]++
			})
			t.Logf("answers: %d yes, %d no", count[shelf.Yes], count[shelf.No])
		})
	}
}
