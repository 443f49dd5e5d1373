package shelf_test

import (
	"testing"

	"ripeby/resources/shelf"
)

// FuzzFit reads sides and corners from bytes, five for each thing: fixed or not
// and four lengths. Whatever they are, an answer is valid.
func FuzzFit(f *testing.F) {
	f.Add([]byte{52, 36, 0, 0, 0, 40, 30})
	f.Add([]byte{22, 16, 0, 0, 0, 5, 3, 0, 0, 0, 5, 3, 1, 4, 4, 9, 2})
	f.Add([]byte{7, 7, 1, 255, 255, 3, 3, 0, 0, 0, 0, 4})
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) < 2 || len(data) > 80 {
			t.Skip()
		}
		floor := shelf.Rect{W: int64(data[0]), D: int64(data[1])}
		var fixed []shelf.Placed
		var boxes []shelf.Rect
		for d := data[2:]; len(d) >= 5; d = d[5:] {
			if d[0]%2 == 1 {
				fixed = append(fixed, shelf.Placed{X: int64(int8(d[1])), Y: int64(int8(d[2])), W: int64(d[3]), D: int64(d[4])})
			} else {
				boxes = append(boxes, shelf.Rect{W: int64(d[3]), D: int64(d[4])})
			}
		}
		const budget = 5_000
		places, answer, spent := shelf.Fit(floor, fixed, boxes, budget)
		if spent < 0 || spent > budget {
			t.Errorf("spent %d of %d", spent, budget)
		}
		if (answer == shelf.Yes) != (places != nil || len(boxes) == 0) {
			t.Errorf("places %v with answer %v", places, answer)
		}
		if answer == shelf.Yes {
			if s := faults(floor, fixed, boxes, places); s != "" {
				t.Errorf("Fit(%v, %v, %v) = %v: %s", floor, fixed, boxes, places, s)
			}
		}
		if answer == shelf.No && len(boxes) == 1 && oneFits(floor, fixed, boxes[0]) {
			t.Errorf("Fit(%v, %v, %v) = no, want yes", floor, fixed, boxes)
		}
	})
}

// oneFits tries a single box at every cell, both ways round.
func oneFits(floor shelf.Rect, fixed []shelf.Placed, b shelf.Rect) bool {
	if b.W <= 0 || b.D <= 0 {
		return false
	}
	for _, s := range []shelf.Rect{b, {W: b.D, D: b.W}} {
		for x := int64(0); x+s.W <= floor.W; x++ {
			for y := int64(0); y+s.D <= floor.D; y++ {
				if faults(floor, fixed, []shelf.Rect{b}, []shelf.Placed{{X: x, Y: y, W: s.W, D: s.D}}) == "" {
					return true
				}
			}
		}
	}
	return false
}
