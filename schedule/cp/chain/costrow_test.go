package chain

import (
	"testing"

	"pgregory.net/rapid"
)

// A row looked at by its blocks says the same as one looked at cost by cost.
func TestARowOfCostsByBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cost := rapid.SliceOfN(rapid.SampledFrom([]int32{0, 1, 2, 3, 9, Unreachable}), 1, 3*rowBlock+5).Draw(t, "cost")
		r, n := newRow(cost), int32(len(cost))
		most := rapid.SampledFrom([]int32{-1, 0, 1, 2, 5, 9}).Draw(t, "most")
		lo := rapid.Int32Range(0, n-1).Draw(t, "lo")
		hi := rapid.Int32Range(lo, n-1).Draw(t, "hi")
		least := Unreachable
		for _, v := range cost[lo : hi+1] {
			least = min(least, v)
		}
		if v := r.Within(lo, hi, most); v > most && v != least || v <= most && least > most {
			t.Errorf("within(%d, %d, %d) = %d, the least is %d", lo, hi, most, v, least)
		}
		x, passed := lo, Unreachable
		for ; x < n && cost[x] > most; x++ {
			passed = min(passed, cost[x])
		}
		if gotX, got := r.Upward(lo, most); gotX != x || got != passed {
			t.Errorf("upward(%d, %d) = %d, %d, want %d, %d", lo, most, gotX, got, x, passed)
		}
		x, passed = hi, Unreachable
		for ; x >= 0 && cost[x] > most; x-- {
			passed = min(passed, cost[x])
		}
		if gotX, got := r.Downward(hi, most); gotX != x || got != passed {
			t.Errorf("downward(%d, %d) = %d, %d, want %d, %d", hi, most, gotX, got, x, passed)
		}
	})
}
