package lags

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// A cost that grows by ten over each side of what is wanted is convex, rounded; one with a step in
// it is not, nor is one that cannot be in the middle.
func TestConvexCosts(t *testing.T) {
	var round []int32
	for x := range int32(300) {
		round = append(round, max((max(100-x, x-150)*10+89)/90, 0))
	}
	step, gap := slices.Clone(round), slices.Clone(round)
	for x := range 40 {
		step[x] = 20
	}
	gap[120] = Unreachable
	for _, c := range []struct {
		name string
		row  []int32
		want bool
	}{{"rounded", round, true}, {"a step", step, false}, {"a gap", gap, false}, {"a single length", []int32{7}, true}, {"none", nil, false}} {
		got := newConvexCost(5, c.row)
		if (got != nil) != c.want {
			t.Fatalf("%s: got %v, want convex %v", c.name, got, c.want)
		}
		for x := range c.row {
			if got != nil && int32((got.cost[x]+fine-1)/fine) != c.row[x] {
				t.Errorf("%s: got %d parts at %d, want %d units", c.name, got.cost[x], x, c.row[x])
			}
			if got != nil && x > 1 && got.cost[x]-got.cost[x-1] < got.cost[x-1]-got.cost[x-2] {
				t.Errorf("%s: not convex at %d", c.name, x)
			}
		}
	}
}

// The least sums are those of all lengths tried, whatever the lag costs and wherever one may go on.
func TestLeastSumsAgainstAllLengths(t *testing.T) {
	byOrder, byBands := 0, 0
	var f Sums // one for all, as in the engine
	tiny.CheckMany(t, 4, func(t *rapid.T) {
		least := tiny.DrawInt(t, 0, 9, "least")
		lag := problem.Lag{Least: least}
		wanted, up, down := tiny.DrawInt(t, 0, 120, "wanted"), tiny.DrawInt(t, 1, 40, "up"), tiny.DrawInt(t, 1, 40, "down")
		odd := tiny.OneIn(t, 4, "odd")
		for x := range tiny.DrawInt(t, 1, 160, "lengths") {
			c := (max((wanted-x)*down, (x-wanted)*up) + 9) / 10
			if odd {
				c = c * 7 % 40
			}
			lag.Cost = append(lag.Cost, int32(c))
			if odd && c%11 == 3 {
				lag.Cost[x] = problem.Never
			}
		}
		lag.Most = least + len(lag.Cost) - 1
		table := New(&lag, 1)
		row := rapid.SliceOfN(rapid.OneOf(rapid.Int32Range(0, 60), rapid.Just(Unreachable)), 1, 300).Draw(t, "row")
		way, ceiling := 1-2*tiny.DrawInt(t, 0, 1, "way"), rapid.SampledFrom([]int32{25, 150, Unreachable}).Draw(t, "ceiling")
		f.Over(table, way, row)
		falls, top := tiny.OneIn(t, 5, "falling"), 0
		for at := tiny.DrawInt(t, -200, 100, "first"); at < 400 && len(f.Starts) < 200; at += tiny.DrawInt(t, 1, 5, "on") {
			if top = max(top, min(at+tiny.DrawInt(t, 0, 150, "top"), len(row)-1)); falls {
				top = len(row) - 1 - len(f.Starts)%len(row)
			}
			f.Add(at, top)
		}
		f.Find(ceiling)
		if table.asked && table.hull != nil && f.inOrder() {
			byOrder++
		} else {
			byBands++
		}
		for x, at := range f.Starts {
			want := Unreachable
			for k, c := range lag.Cost {
				if p := int(at) + way*(least+k); c < problem.Never && p >= 0 && p <= int(f.tops[x]) && row[p] < Unreachable {
					want = min(want, row[p]+c)
				}
			}
			if want >= ceiling {
				want = Unreachable
			}
			if f.Out[x] != want {
				t.Fatalf("start %d of %v: got %d, want %d", at, f.Starts, f.Out[x], want)
			}
		}
	})
	if t.Logf("%d by the order of the best places, %d by bands", byOrder, byBands); byOrder < tiny.Few(40) || byBands < tiny.Few(40) {
		t.Errorf("got %d by the order of the best places and %d by bands: too few of one to mean much", byOrder, byBands)
	}
}
