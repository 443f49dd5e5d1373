package shelf_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources/shelf"
)

// cm gives a footprint written in centimetres.
func cm(w, d int64) shelf.Rect { return shelf.Rect{W: w * 10_000, D: d * 10_000} }

// stood gives a fixed box written in centimetres.
func stood(x, y, w, d int64) shelf.Placed {
	return shelf.Placed{X: x * 10_000, Y: y * 10_000, W: w * 10_000, D: d * 10_000}
}

func many(n int, box shelf.Rect) []shelf.Rect {
	out := make([]shelf.Rect, n)
	for i := range out {
		out[i] = box
	}
	return out
}

func squares(sides ...int64) (out []shelf.Rect) {
	for _, n := range sides {
		out = append(out, shelf.Rect{W: n, D: n})
	}
	return out
}

// check asks Fit and checks the answer, and the places if it is Yes.
func check(t *testing.T, name string, floor shelf.Rect, fixed []shelf.Placed, boxes []shelf.Rect, want shelf.Answer) {
	t.Helper()
	places, got, spent := shelf.Fit(floor, fixed, boxes, 2*shelf.DefaultBudget)
	if got != want {
		t.Errorf("%s: Fit = %v after %d, want %v", name, got, spent, want)
		return
	}
	if got != shelf.Yes {
		if places != nil {
			t.Errorf("%s: places %v with answer %v, want none", name, places, got)
		}
		return
	}
	if f := faults(floor, fixed, boxes, places); f != "" {
		t.Errorf("%s: Fit = %v: %s", name, places, f)
	}
}

func TestFitOnAFridgeShelf(t *testing.T) {
	fridge := cm(52, 36)
	big, small := cm(40, 30), cm(26, 18)
	for _, c := range []struct {
		name  string
		fixed []shelf.Placed
		boxes []shelf.Rect
		want  shelf.Answer
	}{
		{"nothing to place", nil, nil, shelf.Yes},
		{"one", nil, []shelf.Rect{big}, shelf.Yes},
		{"two clash", nil, many(2, big), shelf.No},
		{"four exactly", nil, many(4, small), shelf.Yes},
		{"five", nil, many(5, small), shelf.No},
		{"too deep unless turned", nil, []shelf.Rect{cm(36, 52)}, shelf.Yes},
		{"too large", nil, []shelf.Rect{cm(53, 10)}, shelf.No},
		// The 40 x 30 leaves 12 cm at its side and 6 cm behind it.
		{"beside and behind", []shelf.Placed{stood(0, 0, 40, 30)}, []shelf.Rect{cm(52, 6), cm(30, 12)}, shelf.Yes},
		{"a little too broad", []shelf.Placed{stood(0, 0, 40, 30)}, []shelf.Rect{cm(30, 13)}, shelf.No},
		// In the middle a small box spoils both ways round.
		{"one in the way", []shelf.Placed{stood(24, 16, 4, 4)}, []shelf.Rect{big}, shelf.No},
		{"one in the corner", []shelf.Placed{stood(48, 32, 4, 4)}, []shelf.Rect{big}, shelf.Yes},
		{"full", []shelf.Placed{stood(0, 0, 52, 36)}, []shelf.Rect{cm(1, 1)}, shelf.No},
		{"fixed ones that overlap count once", []shelf.Placed{stood(0, 0, 26, 36), stood(0, 0, 26, 36), stood(10, 0, 5, 36)},
			many(2, small), shelf.Yes},
		{"fixed ones beyond the floor do not count", []shelf.Placed{stood(52, 0, 10, 36), stood(-9, 0, 9, 36), stood(0, 40, 52, 36)},
			many(4, small), shelf.Yes},
		{"fixed ones without area do not count", []shelf.Placed{stood(10, 10, 0, 10), stood(10, 10, 10, -3)},
			many(4, small), shelf.Yes},
		{"a fixed one that hangs over", []shelf.Placed{stood(-5, -5, 31, 23)}, many(3, small), shelf.Yes},
		{"no width", nil, []shelf.Rect{cm(0, 5)}, shelf.No},
		{"negative", nil, []shelf.Rect{cm(-5, -5)}, shelf.No},
	} {
		check(t, c.name, fridge, c.fixed, c.boxes, c.want)
	}
	check(t, "no floor", shelf.Rect{}, nil, []shelf.Rect{big}, shelf.No)
	check(t, "no floor, no box", shelf.Rect{}, nil, nil, shelf.Yes)
}

// The 2x5 must stand clear of the wall in its row, held only by the 2x2 that
// overhangs the bare room behind the wall.
//
//	+-----+-----+
//	| 2x2 |     |
//	+--+--+     |
//	|  |##| 2x5 |
//	|w |##|     |
//	+--+--+-----+
func TestFitOverhang(t *testing.T) {
	floor := shelf.Rect{W: 4, D: 5}
	fixed := []shelf.Placed{{X: 0, Y: 0, W: 1, D: 3}}
	check(t, "as drawn", floor, fixed, []shelf.Rect{{W: 2, D: 2}, {W: 2, D: 5}}, shelf.Yes)
	check(t, "one deeper", floor, fixed, []shelf.Rect{{W: 2, D: 3}, {W: 2, D: 5}}, shelf.No)
}

// The smallest square that takes the squares of sides 1 to n: OEIS A005842,
// "minimal integer m such that an m X m square contains non-overlapping squares
// of sides 1, ..., n"; these terms are proved.
func TestFitConsecutiveSquaresA005842(t *testing.T) {
	var boxes []shelf.Rect
	for i, side := range []int64{1, 3, 5, 7, 9, 11, 13, 15, 18, 21, 24, 27} {
		n := int64(i + 1)
		boxes = append(boxes, shelf.Rect{W: n, D: n})
		check(t, "fits", shelf.Rect{W: side, D: side}, nil, boxes, shelf.Yes)
		check(t, "one less", shelf.Rect{W: side - 1, D: side - 1}, nil, boxes, shelf.No)
	}
}

// Nine different squares fill 33 x 32, and ten fill 65 x 47, without a gap: R.
// Haramoto, Simple perfect squared rectangles (sites.google.com/site/robertharamoto).
// The square of 112 filled by 21 is A. J. W. Duijvestijn's of 1978 (from memory; its area is checked).
func TestFitSquaredRectangles(t *testing.T) {
	check(t, "33x32", shelf.Rect{W: 33, D: 32}, nil, squares(1, 4, 7, 8, 9, 10, 14, 15, 18), shelf.Yes)
	check(t, "65x47", shelf.Rect{W: 65, D: 47}, nil, squares(3, 5, 6, 11, 17, 19, 22, 23, 24, 25), shelf.Yes)
	check(t, "66x46", shelf.Rect{W: 66, D: 46}, nil, squares(3, 5, 6, 11, 17, 19, 22, 23, 24, 25), shelf.No)
	full := squares(50, 35, 27, 8, 19, 15, 17, 11, 6, 24, 29, 25, 9, 2, 7, 18, 16, 42, 4, 37, 33)
	area := int64(0)
	for _, s := range full {
		area += s.W * s.D
	}
	if area != 112*112 {
		t.Fatalf("area of the 21 squares = %d, want %d", area, 112*112)
	}
	check(t, "112x112", shelf.Rect{W: 112, D: 112}, nil, full, shelf.Yes)
}

// Taking a box away never turns a Yes into a No, and a fixed box taken away
// neither.
func TestFitMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		floor, fixed, boxes := draw(t, 3, 7).scaled()
		if _, a, _ := shelf.Fit(floor, fixed, boxes, shelf.DefaultBudget); a != shelf.Yes {
			return
		}
		i := rapid.IntRange(0, len(boxes)-1).Draw(t, "without")
		fewer := append(append([]shelf.Rect{}, boxes[:i]...), boxes[i+1:]...)
		if _, a, _ := shelf.Fit(floor, fixed, fewer, shelf.DefaultBudget); a != shelf.Yes {
			t.Fatalf("Fit(%v, %v, %v) = %v, want yes as with box %v", floor, fixed, fewer, a, boxes[i])
		}
		if len(fixed) > 0 {
			if _, a, _ := shelf.Fit(floor, fixed[1:], boxes, shelf.DefaultBudget); a != shelf.Yes {
				t.Fatalf("Fit(%v, %v, %v) = %v, want yes as with %v", floor, fixed[1:], boxes, a, fixed[0])
			}
		}
	})
}

// The same question gets the same places, and is not changed by being asked.
func TestFitRepeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		floor, fixed, boxes := draw(t, 3, 7).scaled()
		fixedBefore, boxesBefore := append([]shelf.Placed{}, fixed...), append([]shelf.Rect{}, boxes...)
		p1, a1, n1 := shelf.Fit(floor, fixed, boxes, shelf.DefaultBudget)
		p2, a2, n2 := shelf.Fit(floor, fixed, boxes, shelf.DefaultBudget)
		if a1 != a2 || n1 != n2 || !reflect.DeepEqual(p1, p2) {
			t.Fatalf("Fit twice = %v %v %d and %v %v %d", p1, a1, n1, p2, a2, n2)
		}
		if len(fixed) > 0 && !reflect.DeepEqual(fixed, fixedBefore) || !reflect.DeepEqual(boxes, boxesBefore) {
			t.Fatalf("input changed to %v, %v", fixed, boxes)
		}
	})
}
