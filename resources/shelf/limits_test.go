package shelf_test

import (
	"math"
	"testing"

	"ripeby/resources/shelf"
)

// When the work runs out the answer is Unknown, whichever it would have been,
// and no more is spent than was given.
func TestFitBudget(t *testing.T) {
	for _, c := range []struct {
		name  string
		floor shelf.Rect
		boxes []shelf.Rect
		want  shelf.Answer
	}{
		{"yes in the end", cm(22, 16), many(23, cm(5, 3)), shelf.Yes},
		{"no in the end", shelf.Rect{W: 17, D: 17}, squares(1, 2, 3, 4, 5, 6, 7, 8, 9), shelf.No},
	} {
		_, got, spent := shelf.Fit(c.floor, nil, c.boxes, shelf.DefaultBudget)
		if got != c.want {
			t.Errorf("%s: Fit = %v, want %v", c.name, got, c.want)
		}
		for _, budget := range []int64{-1, 0, 1, 100, spent / 4} {
			places, got, used := shelf.Fit(c.floor, nil, c.boxes, budget)
			if got != shelf.Unknown || places != nil {
				t.Errorf("%s, budget %d of %d: Fit = %v, want unknown", c.name, budget, spent, got)
			}
			if used > max(budget, 0) {
				t.Errorf("%s: spent %d, want at most %d", c.name, used, budget)
			}
		}
	}
}

func TestLongestFloor(t *testing.T) {
	box := []shelf.Rect{{W: shelf.Longest / 2, D: shelf.Longest / 2}}
	for _, c := range []struct {
		side int64
		want shelf.Answer
	}{{shelf.Longest, shelf.Yes}, {shelf.Longest + 1, shelf.Unknown}, {math.MaxInt64, shelf.Unknown}} {
		floor := shelf.Rect{W: c.side, D: c.side}
		if _, got, _ := shelf.Fit(floor, nil, box, shelf.DefaultBudget); got != c.want {
			t.Errorf("floor %d: Fit = %v, want %v", c.side, got, c.want)
		}
	}
}

func TestExtremes(t *testing.T) {
	hi, lo := int64(math.MaxInt64), int64(math.MinInt64)
	far := []shelf.Placed{{X: hi, Y: hi, W: hi, D: hi}, {X: lo, Y: lo, W: hi, D: hi}, {X: 1, Y: 1, W: lo, D: hi}}
	check(t, "fixed far off", cm(52, 36), far, []shelf.Rect{cm(52, 36)}, shelf.Yes)
	check(t, "fixed without end", cm(52, 36), []shelf.Placed{{X: -5, Y: -5, W: hi, D: hi}}, []shelf.Rect{cm(1, 1)}, shelf.No)
	check(t, "boxes without end", cm(52, 36), nil, []shelf.Rect{{W: hi, D: hi}, {W: lo, D: lo}}, shelf.No)
	check(t, "floor less than nothing", shelf.Rect{W: lo, D: lo}, nil, []shelf.Rect{cm(1, 1)}, shelf.No)
}
