package shelf_test

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources/shelf"
)

// tight draws boxes for as long as there is area, so that the search has work:
// half of them like the first.
func tight(t *rapid.T, mostFixed, mostBoxes int) question {
	side := func(lo, hi int64, name string) int64 { return rapid.Int64Range(lo, hi).Draw(t, name) }
	q := question{floor: shelf.Rect{W: side(3, 7, "floor width"), D: side(3, 6, "floor depth")}, cell: 1}
	for range rapid.IntRange(0, mostFixed).Draw(t, "fixed") {
		q.fixed = append(q.fixed, shelf.Placed{X: side(0, q.floor.W-1, "x"), Y: side(0, q.floor.D-1, "y"),
			W: side(1, 2, "fixed width"), D: side(1, 2, "fixed depth")})
	}
	free := q.inside().free()
	for len(q.boxes) < mostBoxes {
		b := shelf.Rect{W: side(1, 5, "width"), D: side(1, 3, "depth")}
		if len(q.boxes) > 0 && rapid.Bool().Draw(t, "like the first") {
			b = q.boxes[0]
		}
		if free -= b.W * b.D; free < 0 {
			break
		}
		q.boxes = append(q.boxes, b)
	}
	return q
}

// The proof search by itself is right: dives would answer most small questions
// before its bounds and its memory are asked.
func TestProveAgreesWithEveryCell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := tight(t, 4, 5)
		want := shelf.No
		if q.inside().fits(q.boxes) {
			want = shelf.Yes
		}
		places, got := shelf.Prove(q.floor, q.fixed, q.boxes, shelf.DefaultBudget)
		if got != want {
			t.Fatalf("Prove(%v, %v, %v) = %v, want %v", q.floor, q.fixed, q.boxes, got, want)
		}
		if got == shelf.Yes {
			if f := faults(q.floor, q.fixed, q.boxes, places); f != "" {
				t.Fatalf("Prove(%v, %v, %v) = %v: %s", q.floor, q.fixed, q.boxes, places, f)
			}
		}
	})
}

// With and without dives, larger questions than the cells can answer get one
// answer, unless the work runs out.
func TestFitAgreesWithProof(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(lo, hi int64, name string) int64 { return rapid.Int64Range(lo, hi).Draw(t, name) }
		floor := shelf.Rect{W: side(20, 60, "width"), D: side(20, 40, "depth")}
		var fixed []shelf.Placed
		for range rapid.IntRange(0, 3).Draw(t, "fixed") {
			fixed = append(fixed, shelf.Placed{X: side(0, 60, "x"), Y: side(0, 40, "y"), W: side(3, 20, "w"), D: side(3, 20, "d")})
		}
		sizes := []shelf.Rect{{W: side(5, 30, "w1"), D: side(5, 20, "d1")}, {W: side(5, 30, "w2"), D: side(5, 20, "d2")}}
		var boxes []shelf.Rect
		for range rapid.IntRange(1, 8).Draw(t, "boxes") {
			boxes = append(boxes, sizes[rapid.IntRange(0, 1).Draw(t, "kind")])
		}
		_, proof := shelf.Prove(floor, fixed, boxes, 20_000)
		places, got, _ := shelf.Fit(floor, fixed, boxes, 20_000)
		if got != proof && got != shelf.Unknown && proof != shelf.Unknown {
			t.Fatalf("Fit(%v, %v, %v) = %v, Prove = %v", floor, fixed, boxes, got, proof)
		}
		if got == shelf.Yes {
			if f := faults(floor, fixed, boxes, places); f != "" {
				t.Fatalf("Fit(%v, %v, %v) = %v: %s", floor, fixed, boxes, places, f)
			}
		}
	})
}
