package lags

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/tiny"
)

func TestLeastTableIsLeast(t *testing.T) {
	var table leastTable // one for all, as in the engine: rows get longer and shorter
	tiny.CheckMany(t, 20, func(t *rapid.T) {
		row := rapid.SliceOfN(rapid.Int32Range(-5, 1<<30), 1, 70).Draw(t, "row")
		table.fill(row)
		a := tiny.DrawInt(t, 0, len(row)-1, "a")
		b := tiny.DrawInt(t, a, len(row)-1, "b")
		want := row[a]
		for _, v := range row[a : b+1] {
			want = min(want, v)
		}
		if got := table.of(a, b); got != want {
			t.Fatalf("least of %v[%d..%d] is %d, want %d", row, a, b, got, want)
		}
	})
}
