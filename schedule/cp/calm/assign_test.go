package calm

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/tiny"
)

// An assignment gains as much as the best of all of them, each tried.
func TestAssignAgainstAllWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows, columns := tiny.DrawInt(t, 0, 4, "rows"), tiny.DrawInt(t, 0, 4, "columns")
		gains := make([][]int64, rows)
		for r := range gains {
			for range columns {
				gains[r] = append(gains[r], int64(tiny.DrawInt(t, 0, 5, "gain"))<<(32*tiny.DrawInt(t, 0, 1, "much")))
			}
		}
		taken := make([]bool, columns)
		var best func(r int) int64
		best = func(r int) int64 {
			if r == rows {
				return 0
			}
			most := best(r + 1)
			for c := range taken {
				if !taken[c] {
					taken[c] = true
					most = max(most, gains[r][c]+best(r+1))
					taken[c] = false
				}
			}
			return most
		}
		got, used := int64(0), make([]bool, columns)
		for r, c := range assign(gains, columns) {
			if c < 0 {
				continue
			}
			if used[c] {
				t.Fatalf("column %d twice: %v", c, gains)
			}
			got, used[c] = got+gains[r][c], true
		}
		if want := best(0); got != want {
			t.Fatalf("got %d, want %d: %v", got, want, gains)
		}
	})
}
