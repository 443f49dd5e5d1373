package cp

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/global"
)

// drawChains draws a model whose sizes differ in how long their work is, some of which costs
// something. Some lags cannot have every length between their least and most.
func drawChains(t *rapid.T) *Model {
	k := small(t)
	k.acts, k.length = drawInt(t, 1, 4, "longer"), drawInt(t, 12, 60, "length")
	m := drawModel(t, k)
	addThirdWorker(t, m, k)
	if oneIn(t, 2, "rather not") {
		m.Workers[0].Avoid = []Span{{m.From, m.Horizon}}
	}
	if oneIn(t, 2, "long work") {
		for f := range m.Families {
			for i := range m.Families[f].Modes[0].Acts { // the sizes share them
				if a := &m.Families[f].Modes[0].Acts[i]; a.Work > 0 {
					a.Work += m.Step * drawInt(t, 2, 5, "longer work")
				}
			}
		}
	}
	if oneIn(t, 2, "lags with holes") {
		for f := range m.Families {
			for i := range m.Families[f].Modes[0].Acts {
				lag := &m.Families[f].Modes[0].Acts[i].Lag
				if lag.Cost == nil || oneIn(t, 3, "as it is") {
					continue
				}
				lag.Most = lag.Least + m.Step*drawInt(t, 0, 12, "wide")
				if lag.Cost = nil; oneIn(t, 4, "any length") {
					continue
				}
				lag.Cost = rapid.SliceOfN(rapid.SampledFrom([]int32{0, 1, 20, Never, Never}), lag.Most-lag.Least+1, lag.Most-lag.Least+1).Draw(t, "costs")
			}
		}
	}
	lengthen(t, m)
	return m
}

// prospectsOf are all prospects of a model, one of each.
func prospectsOf(m *Model) []*prospect {
	var out []*prospect
	for f := range m.Families {
		for _, due := range duesOf(m, f) {
			out = append(out, &prospect{family: f, begun: -1, due: due, modes: modesOf(&m.Families[f])})
		}
	}
	for b := range m.Begun {
		if bg := &m.Begun[b]; len(bg.Starts) < len(bg.Mode.Acts) {
			out = append(out, &prospect{family: bg.Family, begun: b, modes: []*Mode{&bg.Mode}, fixed: len(bg.Starts)})
		}
	}
	return out
}

// openProspects are the prospects of a model that have something left to do.
func openProspects(m *Model) []*prospect {
	return slices.DeleteFunc(prospectsOf(m), func(sl *prospect) bool { return sl.fixed == sl.acts() })
}

// Where nothing costs anything, tables by sets of steps are those by rows, and so is what
// is counted for them.
func TestTablesBySetsAreThoseByRows(t *testing.T) {
	var same, none, holes, many, begun int
	checkMany(t, 60, func(t *rapid.T) {
		m := drawChains(t)
		s := newSchedule(m)
		s.settleHomes()
		s.flat = true
		for _, sl := range openProspects(m) {
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
			if z := sets.sizes[0]; z.lo != nil {
				if slices.ContainsFunc(z.bands, func(b []band) bool { return len(b) > 1 }) {
					holes++
				}
				if !z.fewBands() {
					many++
				}
			}
			if sl.begun >= 0 {
				begun++
			}
		}
	})
	t.Logf("%d the same, %d with no chain, %d with holes in a lag, %d with many, %d under way", same, none, holes, many, begun)
	for what, n := range map[string]int{"tables": same, "slots without a chain": none, "lags with holes": holes, "lags with many holes": many, "jobs under way": begun} {
		if n < 10 {
			t.Errorf("got %d %s: too few to mean much", n, what)
		}
	}
}

// What work and lags cost by start and length is what looking at every one of the slot gives,
// and so is what is counted for it.
func TestWorkAndLagsCostWhatEachDoes(t *testing.T) {
	var rows, dear, drawn int
	checkMany(t, 60, func(t *rapid.T) {
		m := drawChains(t)
		s := newSchedule(m)
		s.settleHomes()
		g := grid{floorTo(m.From, m.Step), m.Step}
		empty := newSchedule(m)
		for _, sl := range openProspects(m) {
			for k := range sl.modes {
				s.flat = oneIn(t, 2, "flat")
				start := s.spent
				z := s.sizeCostsOf(g, sl, k)
				if z.lo == nil {
					continue
				}
				q := s.slotQuery(sl, k)
				s.ranges(q)
				before := empty.spent
				for i := sl.fixed; i < sl.acts(); i++ {
					for x, w := range sl.modes[k].Acts[i].Workers {
						want, ok := ownOf(empty, q, i, w, s.flat)
						if !ok {
							continue
						}
						set := shifted(reachableOf(want), z.lo[i], z.lo[i])
						if got, open := z.own[i][x], z.open[i][x]; !slices.Equal(got, want) || !slices.Equal(open, set) {
							t.Fatalf("activity %d, worker %d, size %d: got %v in %v, want %v in %v\nslot %+v\n%s", i, w, k, got, open, want, set, *sl, modelText(m))
						}
						rows++
						if slices.ContainsFunc(want, func(v int32) bool { return 0 < v && v < unreachable }) {
							dear++
						}
						if i == 0 && q.supply >= 0 {
							drawn++
						}
					}
					if i < sl.acts()-1 {
						if want := lagRow(g, &sl.modes[k].Acts[i].Lag, s.flat); !slices.Equal(z.lags[i], want) {
							t.Fatalf("lag %d, size %d: got %v, want %v\nslot %+v\n%s", i, k, z.lags[i], want, *sl, modelText(m))
						}
					}
				}
				if got, want := s.spent-start, empty.spent-before; got != want {
					t.Fatalf("size %d: counted %d, want %d\nslot %+v\n%s", k, got, want, *sl, modelText(m))
				}
			}
		}
	})
	t.Logf("%d rows, %d of what costs something, %d of what draws on an intake", rows, dear, drawn)
	for what, n := range map[string]int{"rows": rows, "rows of what costs something": dear, "rows of what draws on an intake": drawn} {
		if n < 10 {
			t.Errorf("got %d %s: too few to mean much", n, what)
		}
	}
}

// ownOf is what work costs one worker at every start of a query; not ok where there is none.
func ownOf(s *schedule, q *query, i, worker int, flat bool) ([]int32, bool) {
	if q.mode.Acts[i].Work == 0 {
		return nil, false
	}
	alone, one := *q.mode, *q
	alone.Acts = slices.Clone(q.mode.Acts)
	alone.Acts[i].Workers = []int{worker}
	one.mode = &alone
	row := make([]int32, (q.hi[i]-q.lo[i])/s.m.Step+1)
	s.fillWork(&one, i, row, make([]int16, len(row)))
	if i == 0 && q.supply >= 0 && q.k == 0 {
		s.fillIntake(&one, row)
	}
	if flat {
		flatten(row)
	}
	return row, true
}

// lagRow is what every length of a lag on the grid costs.
func lagRow(g grid, lag *Lag, flat bool) []int32 {
	var row []int32
	for x := g.long(lag.Least); x <= g.short(lag.Most); x++ {
		row = append(row, costOfLag(lag, int(x)*g.step))
	}
	if flat {
		flatten(row)
	}
	return row
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
