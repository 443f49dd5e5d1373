package cp

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/global"
)

// drawChains draws a model whose sizes differ in how long their work is, some of whose lags
// cannot have every length between their least and most.
func drawChains(t *rapid.T) *Model {
	k := small(t)
	k.acts, k.length = drawInt(t, 1, 4, "longer"), drawInt(t, 12, 60, "length")
	m := drawModel(t, k)
	addThirdWorker(t, m, k)
	lengthen(t, m)
	if oneIn(t, 2, "lags with holes") {
		for f := range m.Families {
			for i := range m.Families[f].Modes[0].Acts { // the sizes share what a lag costs
				for x := range m.Families[f].Modes[0].Acts[i].Lag.Cost {
					if oneIn(t, 3, "hole") {
						m.Families[f].Modes[0].Acts[i].Lag.Cost[x] = Never
					}
				}
			}
		}
	}
	return m
}

// openSlots are the slots of a model that have something left to do.
func openSlots(m *Model) []*slot {
	return slices.DeleteFunc(slotsOf(m), func(sl *slot) bool { return sl.fixed == sl.acts() })
}

// Where nothing costs anything, tables by sets of steps are those by rows, and so is what
// is counted for them.
func TestTablesBySetsAreThoseByRows(t *testing.T) {
	var same, none, holes, begun int
	checkMany(t, 20, func(t *rapid.T) {
		m := drawChains(t)
		s := newState(m, prepare(m))
		s.settleHomes()
		s.flat = true
		for _, sl := range openSlots(m) {
			g := grid{floorTo(m.From, m.Step), m.Step}
			start := s.spent
			sets, ok := s.newChains(g, sl)
			if !slices.ContainsFunc(sets.sizes, func(z *sizeCosts) bool { return z.lo != nil }) {
				continue
			}
			setsSpent := s.spent - start
			rows := &chainCosts{sizes: sets.sizes, lo: make([]int32, sl.acts()), hi: make([]int32, sl.acts()), least: make([][]costRow, sl.acts())}
			for i := sl.fixed; i < sl.acts(); i++ {
				lo, hi := unreachable, -unreachable
				for _, z := range sets.sizes {
					if z.lo != nil {
						lo, hi = min(lo, z.lo[i]), max(hi, z.hi[i])
					}
				}
				rows.lo[i], rows.hi[i] = lo, hi
			}
			start = s.spent
			for k := range sl.modes {
				s.sizeCostsOf(g, sl, k)
			}
			rows.fillRows(sl.fixed, s)
			if got := rows.trim(sl.fixed); got != ok {
				t.Fatalf("some chain: %v by sets, %v by rows\nslot %+v\n%s", ok, got, *sl, modelText(m))
			}
			if rowsSpent := s.spent - start; setsSpent != rowsSpent {
				t.Fatalf("counted work: %d by sets, %d by rows\nslot %+v\n%s", setsSpent, rowsSpent, *sl, modelText(m))
			}
			if !ok {
				none++
				continue
			}
			if !slices.Equal(sets.lo, rows.lo) || !slices.Equal(sets.hi, rows.hi) || !reflect.DeepEqual(sets.least, rows.least) {
				t.Fatalf("by sets %v..%v %v\nby rows %v..%v %v\nslot %+v\n%s", sets.lo, sets.hi, sets.least, rows.lo, rows.hi, rows.least, *sl, modelText(m))
			}
			same++
			if z := sets.sizes[0]; z.lo != nil && slices.ContainsFunc(z.bands, func(b []band) bool { return len(b) > 1 }) {
				holes++
			}
			if sl.begun >= 0 {
				begun++
			}
		}
	})
	t.Logf("%d the same, %d with no chain, %d with holes in a lag, %d under way", same, none, holes, begun)
	for what, n := range map[string]int{"tables": same, "slots without a chain": none, "lags with holes": holes, "jobs under way": begun} {
		if n < 50 {
			t.Errorf("got %d %s: too few to mean much", n, what)
		}
	}
}

// What work costs by start is what looking at every start of the slot gives, and so is what
// is counted for it.
func TestWorkCostsAreThoseOfEveryStart(t *testing.T) {
	var rows, drawn int
	checkMany(t, 20, func(t *rapid.T) {
		m := drawChains(t)
		s := newState(m, prepare(m))
		s.settleHomes()
		s.flat = oneIn(t, 2, "flat")
		g := grid{floorTo(m.From, m.Step), m.Step}
		empty := newState(m, prepare(m))
		for _, sl := range openSlots(m) {
			for k := range sl.modes {
				start := s.spent
				z := s.sizeCostsOf(g, sl, k)
				if z.lo == nil {
					continue
				}
				q := s.slotQuery(sl, k)
				s.ranges(q)
				before := empty.spent
				for i := sl.fixed; i < sl.acts(); i++ {
					alone := *q.mode
					alone.Acts = slices.Clone(q.mode.Acts)
					q.mode = &alone
					for x, w := range sl.modes[k].Acts[i].Workers {
						if alone.Acts[i].Work == 0 {
							continue
						}
						alone.Acts[i].Workers = []int{w}
						want := make([]int32, len(z.any[i]))
						empty.fillWork(q, i, want, make([]int16, len(want)))
						if i == 0 && q.supply >= 0 && q.k == 0 {
							empty.fillIntake(q, want)
							drawn++
						}
						if s.flat {
							flatten(want)
						}
						if got := z.own[i][x]; !slices.Equal(got, want) {
							t.Fatalf("activity %d, worker %d, size %d: got %v, want %v\nslot %+v\n%s", i, w, k, got, want, *sl, modelText(m))
						}
						if got, want := z.open[i][x], shifted(reachableOf(want), z.lo[i], z.lo[i]); !slices.Equal(got, want) {
							t.Fatalf("activity %d, worker %d, size %d: open in %v, want %v\nslot %+v\n%s", i, w, k, got, want, *sl, modelText(m))
						}
						rows++
					}
				}
				if got, want := s.spent-start, empty.spent-before; got != want {
					t.Fatalf("size %d: counted %d, want %d\nslot %+v\n%s", k, got, want, *sl, modelText(m))
				}
			}
		}
	})
	t.Logf("%d rows, %d of what draws on an intake", rows, drawn)
	for what, n := range map[string]int{"rows": rows, "rows of what draws on an intake": drawn} {
		if n < 50 {
			t.Errorf("got %d %s: too few to mean much", n, what)
		}
	}
}

// Sets of steps are what a list of every step says.
func TestSetsOfStepsAreWhatEveryStepSays(t *testing.T) {
	const far = 40
	draw := func(t *rapid.T, name string) []int32 {
		row := rapid.SliceOfN(rapid.SampledFrom([]int32{0, 0, 0, unreachable}), 0, far).Draw(t, name)
		if oneIn(t, 2, "sparse") {
			for x := range row {
				row[x] = unreachable - row[x]
			}
		}
		return row
	}
	in := func(row []int32, x int) bool { return x >= 0 && x < len(row) && row[x] < unreachable }
	check := func(t *rapid.T, what string, got []global.Range, want func(x int) bool) {
		row := make([]int32, 3*far)
		for x := range row {
			if !want(x) {
				row[x] = unreachable
			}
		}
		if set := reachableOf(row); !slices.Equal(got, set) {
			t.Fatalf("%s: got %v, want %v", what, got, set)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		rowA, rowB := draw(t, "a"), draw(t, "b")
		a, b := reachableOf(rowA), reachableOf(rowB)
		check(t, "union", union(a, b), func(x int) bool { return in(rowA, x) || in(rowB, x) })
		check(t, "meet", meet(a, b), func(x int) bool { return in(rowA, x) && in(rowB, x) })
		from, to := drawInt(t, 0, far, "from"), drawInt(t, 0, far, "to")
		check(t, "clip", clip(a, int32(from), int32(to)), func(x int) bool { return in(rowA, x) && from <= x && x <= to })
		least := drawInt(t, 0, 6, "least")
		most := least + drawInt(t, 0, 6, "long")
		check(t, "shifted", shifted(a, int32(least), int32(most)), func(x int) bool {
			return slices.ContainsFunc([]int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}, func(d int) bool { return least <= d && d <= most && in(rowA, x-d) })
		})
		if got, want := holds(a, b), !slices.ContainsFunc(stepsOf(b), func(x int32) bool { return !in(rowA, int(x)) }); got != want {
			t.Fatalf("holds: got %v, want %v", got, want)
		}
		if row := rowOf(a, 0, far); !slices.Equal(reachableOf(row), a) {
			t.Fatalf("row: got %v of %v", row, a)
		}
	})
}
