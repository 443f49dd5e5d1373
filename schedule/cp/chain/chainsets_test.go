package chain

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/lags"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/steps"
	"ripeby/schedule/cp/tiny"
)

// drawChains draws a model whose sizes differ in how long their work is, some of which costs
// something. Some lags cannot have every length between their least and most.
func drawChains(t *rapid.T) *problem.Model {
	k := tiny.Small(t)
	k.Acts, k.Length = tiny.DrawInt(t, 1, 4, "longer"), tiny.DrawInt(t, 12, 60, "length")
	m := tiny.Draw(t, k)
	tiny.AddThirdWorker(t, m, k)
	if tiny.OneIn(t, 2, "rather not") {
		m.Workers[0].Avoid = []problem.Span{{From: m.From, Until: m.Horizon}}
	}
	if tiny.OneIn(t, 2, "long work") {
		for f := range m.Families {
			for i := range m.Families[f].Modes[0].Acts { // the sizes share them
				if a := &m.Families[f].Modes[0].Acts[i]; a.Work > 0 {
					a.Work += m.Step * tiny.DrawInt(t, 2, 5, "longer work")
				}
			}
		}
	}
	if tiny.OneIn(t, 2, "lags with holes") {
		for f := range m.Families {
			for i := range m.Families[f].Modes[0].Acts {
				lag := &m.Families[f].Modes[0].Acts[i].Lag
				if lag.Cost == nil || tiny.OneIn(t, 3, "as it is") {
					continue
				}
				lag.Turns = nil
				lag.Most = lag.Least + m.Step*tiny.DrawInt(t, 0, 12, "wide")
				if lag.Cost = nil; tiny.OneIn(t, 4, "any length") {
					continue
				}
				lag.Cost = rapid.SliceOfN(rapid.SampledFrom([]int32{0, 1, 20, problem.Never, problem.Never}), lag.Most-lag.Least+1, lag.Most-lag.Least+1).Draw(t, "costs")
			}
		}
	}
	tiny.Lengthen(t, m)
	return tiny.Within(t, m)
}

// prospectsOf are all prospects of a model, one of each.
func prospectsOf(m *problem.Model) []*Prospect {
	var out []*Prospect
	for f := range m.Families {
		for _, due := range problem.DuesOf(m, f) {
			out = append(out, &Prospect{Family: f, Begun: -1, Due: due, Modes: problem.ModesOf(&m.Families[f])})
		}
	}
	for b := range m.Begun {
		if bg := &m.Begun[b]; len(bg.Starts) < len(bg.Mode.Acts) {
			out = append(out, &Prospect{Family: bg.Family, Begun: b, Modes: []*problem.Mode{&bg.Mode}, Fixed: len(bg.Starts)})
		}
	}
	return out
}

// openProspects are the prospects of a model that have something left to do.
func openProspects(m *problem.Model) []*Prospect {
	return slices.DeleteFunc(prospectsOf(m), func(sl *Prospect) bool { return sl.Fixed == sl.Acts() })
}

// Where nothing costs anything, tables by sets of steps are those by rows, and so is what
// is counted for them.
func TestTablesBySetsAreThoseByRows(t *testing.T) {
	var same, none, holes, many, begun int
	tiny.CheckMany(t, 60, func(t *rapid.T) {
		m := drawChains(t)
		s := NewSchedule(m)
		s.SettleHomes()
		s.Flat = true
		for _, sl := range openProspects(m) {
			g := problem.Grid{Origin: problem.FloorTo(m.From, m.Step), Step: m.Step}
			start := s.Spent
			sets, ok := s.newChains(g, sl, bother)
			if !slices.ContainsFunc(sets.Sizes, func(z *SizeCosts) bool { return z.Lo != nil }) {
				continue
			}
			setsSpent := s.Spent - start
			rows := &Costs{Sizes: sets.Sizes, Lo: make([]int32, sl.Acts()), Hi: make([]int32, sl.Acts()), Least: make([][]Row, sl.Acts())}
			for i := sl.Fixed; i < sl.Acts(); i++ {
				lo, hi := Unreachable, -Unreachable
				for _, z := range sets.Sizes {
					if z.Lo != nil {
						lo, hi = min(lo, z.Lo[i]), max(hi, z.hi[i])
					}
				}
				rows.Lo[i], rows.Hi[i] = lo, hi
			}
			start = s.Spent
			for k := range sl.Modes {
				s.sizeCostsOf(g, sl, k, bother)
			}
			rows.fillRows(sl.Fixed, s)
			if got := rows.trim(sl.Fixed); got != ok {
				t.Fatalf("some chain: %v by sets, %v by rows\nslot %+v\n%s", ok, got, *sl, tiny.Text(m))
			}
			if rowsSpent := s.Spent - start; setsSpent != rowsSpent {
				t.Fatalf("counted work: %d by sets, %d by rows\nslot %+v\n%s", setsSpent, rowsSpent, *sl, tiny.Text(m))
			}
			if !ok {
				none++
				continue
			}
			if !slices.Equal(sets.Lo, rows.Lo) || !slices.Equal(sets.Hi, rows.Hi) || !reflect.DeepEqual(sets.Least, rows.Least) {
				t.Fatalf("by sets %v..%v %v\nby rows %v..%v %v\nslot %+v\n%s", sets.Lo, sets.Hi, sets.Least, rows.Lo, rows.Hi, rows.Least, *sl, tiny.Text(m))
			}
			same++
			if z := sets.Sizes[0]; z.Lo != nil {
				if slices.ContainsFunc(z.lags, func(l *lags.Table) bool { return l != nil && len(l.Bands) > 1 }) {
					holes++
				}
				if !z.fewBands() {
					many++
				}
			}
			if sl.Begun >= 0 {
				begun++
			}
		}
	})
	t.Logf("%d the same, %d with no chain, %d with holes in a lag, %d with many, %d under way", same, none, holes, many, begun)
	for what, n := range map[string]int{"tables": same, "slots without a chain": none, "lags with holes": holes, "lags with many holes": many, "jobs under way": begun} {
		if n < tiny.Few(10) {
			t.Errorf("got %d %s: too few to mean much", n, what)
		}
	}
}

// What work and lags cost by start and length is what looking at every one of the slot gives,
// and so is what is counted for it.
func TestWorkAndLagsCostWhatEachDoes(t *testing.T) {
	var rows, dear, drawn int
	tiny.CheckMany(t, 60, func(t *rapid.T) {
		m := drawChains(t)
		s := NewSchedule(m)
		s.SettleHomes()
		g := problem.Grid{Origin: problem.FloorTo(m.From, m.Step), Step: m.Step}
		empty := NewSchedule(m)
		for _, sl := range openProspects(m) {
			for k := range sl.Modes {
				s.Flat = tiny.OneIn(t, 2, "flat")
				start := s.Spent
				z := s.sizeCostsOf(g, sl, k, bother)
				if z.Lo == nil {
					continue
				}
				q := s.slotQuery(sl, k)
				s.Ranges(q)
				before := empty.Spent
				for i := sl.Fixed; i < sl.Acts(); i++ {
					for x, w := range sl.Modes[k].Acts[i].Workers {
						want, ok := ownOf(empty, q, i, w, s.Flat)
						if !ok {
							continue
						}
						set := steps.Shifted(lags.ReachableOf(want), z.Lo[i], z.Lo[i])
						if got, open := z.Own[i][x], z.open[i][x]; !slices.Equal(got, want) || !slices.Equal(open, set) {
							t.Fatalf("activity %d, worker %d, size %d: got %v in %v, want %v in %v\nslot %+v\n%s", i, w, k, got, open, want, set, *sl, tiny.Text(m))
						}
						rows++
						if slices.ContainsFunc(want, func(v int32) bool { return 0 < v && v < Unreachable }) {
							dear++
						}
						if i == 0 && q.supply >= 0 {
							drawn++
						}
					}
					if i < sl.Acts()-1 {
						if want := lagRow(g, &sl.Modes[k].Acts[i].Lag, s.Flat); !slices.Equal(z.Lags[i], want) {
							t.Fatalf("lag %d, size %d: got %v, want %v\nslot %+v\n%s", i, k, z.Lags[i], want, *sl, tiny.Text(m))
						}
					}
				}
				if got, want := s.Spent-start, empty.Spent-before; got != want {
					t.Fatalf("size %d: counted %d, want %d\nslot %+v\n%s", k, got, want, *sl, tiny.Text(m))
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
func ownOf(s *Schedule, q *query, i, worker int, flat bool) ([]int32, bool) {
	if q.Mode.Acts[i].Work == 0 {
		return nil, false
	}
	alone, one := *q.Mode, *q
	alone.Acts = slices.Clone(q.Mode.Acts)
	alone.Acts[i].Workers = []int{worker}
	one.Mode = &alone
	row := make([]int32, (q.Hi[i]-q.Lo[i])/s.Model.Step+1)
	s.fillWork(&one, i, row, make([]int16, len(row)))
	if i == 0 && q.supply >= 0 && q.From == 0 {
		s.fillIntake(&one, row)
	}
	if flat {
		lags.Flatten(row)
	}
	return row, true
}

// lagRow is what every length of a lag on the grid costs.
func lagRow(g problem.Grid, lag *problem.Lag, flat bool) []int32 {
	var row []int32
	for x := g.Long(lag.Least); x <= g.Short(lag.Most); x++ {
		row = append(row, costOfLag(lag, int(x)*g.Step))
	}
	if flat {
		lags.Flatten(row)
	}
	return row
}

// Sets of steps are what a list of every step says.
func TestSetsOfStepsAreWhatEveryStepSays(t *testing.T) {
	const far = 40
	draw := func(t *rapid.T, name string) []int32 {
		row := rapid.SliceOfN(rapid.SampledFrom([]int32{0, 0, 0, Unreachable}), 0, far).Draw(t, name)
		if tiny.OneIn(t, 2, "sparse") {
			for x := range row {
				row[x] = Unreachable - row[x]
			}
		}
		return row
	}
	in := func(row []int32, x int) bool { return x >= 0 && x < len(row) && row[x] < Unreachable }
	check := func(t *rapid.T, what string, got []steps.Range, want func(x int) bool) {
		row := make([]int32, 3*far)
		for x := range row {
			if !want(x) {
				row[x] = Unreachable
			}
		}
		if set := lags.ReachableOf(row); !slices.Equal(got, set) {
			t.Fatalf("%s: got %v, want %v", what, got, set)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		rowA, rowB := draw(t, "a"), draw(t, "b")
		a, b := lags.ReachableOf(rowA), lags.ReachableOf(rowB)
		check(t, "union", steps.Union(a, b), func(x int) bool { return in(rowA, x) || in(rowB, x) })
		check(t, "meet", steps.Meet(a, b), func(x int) bool { return in(rowA, x) && in(rowB, x) })
		from, to := tiny.DrawInt(t, 0, far, "from"), tiny.DrawInt(t, 0, far, "to")
		check(t, "clip", steps.Clip(a, int32(from), int32(to)), func(x int) bool { return in(rowA, x) && from <= x && x <= to })
		least := tiny.DrawInt(t, 0, 6, "least")
		most := least + tiny.DrawInt(t, 0, 6, "long")
		check(t, "shifted", steps.Shifted(a, int32(least), int32(most)), func(x int) bool {
			return slices.ContainsFunc([]int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}, func(d int) bool { return least <= d && d <= most && in(rowA, x-d) })
		})
		if got, want := steps.Holds(a, b), !slices.ContainsFunc(steps.StepsOf(b), func(x int32) bool { return !in(rowA, int(x)) }); got != want {
			t.Fatalf("holds: got %v, want %v", got, want)
		}
		if row := lags.RowOf(a, 0, far); !slices.Equal(lags.ReachableOf(row), a) {
			t.Fatalf("row: got %v of %v", row, a)
		}
	})
}
