package shelf_test

import (
	"testing"

	"ripeby/resources/shelf"
)

func BenchmarkFit(b *testing.B) {
	fridge := cm(52, 36)
	for _, c := range []struct {
		name  string
		floor shelf.Rect
		fixed []shelf.Placed
		boxes []shelf.Rect
	}{
		{"one", fridge, nil, []shelf.Rect{cm(40, 30)}},
		{"two that clash", fridge, nil, many(2, cm(40, 30))},
		{"beside a fixed one", fridge, []shelf.Placed{stood(0, 0, 40, 30)}, []shelf.Rect{cm(30, 11)}},
		{"four equal", fridge, nil, many(4, cm(26, 18))},
		{"six equal, no", fridge, nil, many(6, cm(20, 15))},
		{"three kinds", fridge, nil, []shelf.Rect{cm(30, 20), cm(30, 16), cm(20, 15), cm(20, 15), cm(11, 8)}},
		{"three kinds, no", fridge, nil, []shelf.Rect{cm(30, 20), cm(30, 16), cm(23, 15), cm(20, 15), cm(11, 8)}},
		{"three kinds, two fixed", fridge, []shelf.Placed{stood(0, 0, 20, 15), stood(32, 16, 20, 20)},
			[]shelf.Rect{cm(30, 16), cm(20, 15), cm(11, 8)}},
		{"23 equal", cm(22, 16), nil, many(23, cm(5, 3))},
		{"57 equal", cm(49, 28), nil, many(57, cm(8, 3))},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			var spent int64
			for b.Loop() {
				_, _, spent = shelf.Fit(c.floor, c.fixed, c.boxes, shelf.DefaultBudget)
			}
			b.ReportMetric(float64(spent), "positions")
		})
	}
}
