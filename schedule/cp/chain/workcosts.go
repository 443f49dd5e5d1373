package chain

import (
	"slices"
	"sort"

	"ripeby/schedule/cp/lags"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/steps"
)

// workCosts is what a piece of work costs with the kitchen to itself, by the step at which
// it starts, over the time that was asked about so far. All activities and sizes with the
// same work have their rows from it, each a part of it.
type workCosts struct {
	span steps.Range     // steps that the rows go from and to
	own  [][]int32       // of each worker; nil for what is nobody's work
	any  []int32         // the least of own
	at   []int32         // steps at which somebody can, sorted
	open [][]steps.Range // steps at which each worker can; for what is nobody's work one that is all
	can  []steps.Range   // steps of at
}

// workKey names a piece of work: who can do it, how long it is, and for the first work of
// what draws on a supply the least intake of those that have enough.
type workKey struct {
	who    string
	work   int
	flat   bool
	supply int // -1 for none
	enough int64
}

// workCosts gives the costs of an activity's work over some steps at the least.
func (s *Schedule) workCosts(g problem.Grid, q *query, i int, span steps.Range) *workCosts {
	act := &q.Mode.Acts[i]
	key := workKey{who: problem.KeyOf(act.Workers), work: act.Work, flat: s.Flat || q.measure == lateness, supply: -1}
	w := s.Prep.works[key]
	if w == nil || !w.covers(span) {
		if w != nil {
			span = steps.Range{From: min(span.From, w.span.From), To: max(span.To, w.span.To)}
		}
		span.To = max(span.To, s.lastOwed(g))
		w = s.newWorkCosts(g, q, i, span)
		s.Prep.works[key] = w
	}
	if i > 0 || q.From > 0 || q.supply < 0 || act.Work == 0 {
		return w
	}
	key.supply, key.enough = q.supply, s.leastEnough(q.supply, q.Mode.Amount)
	drawn := s.Prep.works[key]
	if drawn == nil || !drawn.covers(span) {
		drawn = w.drawing(s.drawable(g, q))
		s.Prep.works[key] = drawn
	}
	return drawn
}

// covers reports whether the rows go over some steps.
func (w *workCosts) covers(span steps.Range) bool {
	return w.span.From <= span.From && span.To <= w.span.To
}

// lastOwed is the step of the last moment at which anything is due.
func (s *Schedule) lastOwed(g problem.Grid) int32 {
	last := s.Model.From
	for d := range s.Model.Demands {
		if dm := &s.Model.Demands[d]; dm.Units > 0 {
			last = max(last, dm.Due)
		}
	}
	return g.Up(last)
}

// newWorkCosts works the costs out.
func (s *Schedule) newWorkCosts(g problem.Grid, q *query, i int, span steps.Range) *workCosts {
	act := &q.Mode.Acts[i]
	w := &workCosts{span: span}
	if act.Work == 0 {
		w.any = lags.RowOf([]steps.Range{span}, span.From, span.To)
		w.can = []steps.Range{span}
		w.open, w.at = [][]steps.Range{w.can}, steps.StepsOf(w.can)
		return w
	}
	empty := s.Prep.Empty(s.Model)
	defer func(spent int64) { empty.Spent = spent }(empty.Spent) // it is counted where it is used
	alone := *q.Mode
	alone.Acts = slices.Clone(q.Mode.Acts)
	all := *q
	all.Mode, all.Lo = &alone, slices.Clone(q.Lo)
	all.Lo[i] = g.Tick(span.From)
	who := make([]int16, span.To-span.From+1)
	for _, worker := range act.Workers {
		alone.Acts[i].Workers = []int{worker}
		row := make([]int32, len(who))
		empty.fillWork(&all, i, row, who)
		if s.Flat || q.measure == lateness {
			lags.Flatten(row)
		}
		w.own, w.open = append(w.own, row), append(w.open, steps.Shifted(lags.ReachableOf(row), span.From, span.From))
	}
	w.join()
	return w
}

// join fills what somebody can from what each worker can.
func (w *workCosts) join() {
	w.any = lags.RowOf(nil, w.span.From, w.span.To)
	for x, row := range w.own {
		for x, v := range row {
			w.any[x] = min(w.any[x], v)
		}
		w.can = steps.Union(w.can, w.open[x])
	}
	w.at = steps.StepsOf(w.can)
}

// leastEnough is the smallest intake of a supply that has so much; -1 for none.
func (s *Schedule) leastEnough(supply int, amount int64) int64 {
	least := int64(-1)
	for i := range s.Model.Intakes {
		if in := &s.Model.Intakes[i]; in.Supply == supply && in.Amount >= amount && (least < 0 || in.Amount < least) {
			least = in.Amount
		}
	}
	return least
}

// drawable is the steps at which some intake has enough.
func (s *Schedule) drawable(g problem.Grid, q *query) []steps.Range {
	var out []steps.Range
	for i := range s.Model.Intakes {
		in := &s.Model.Intakes[i]
		span := steps.Range{From: max(g.Up(in.Ready), 0), To: g.Down(in.Until)}
		if in.Supply == q.supply && in.Amount >= q.Mode.Amount && span.From <= span.To {
			out = steps.Union(out, []steps.Range{span})
		}
	}
	return out
}

// drawing is the costs of the work where it can be at the steps of a set alone.
func (w *workCosts) drawing(set []steps.Range) *workCosts {
	if steps.Holds(set, w.can) {
		return w
	}
	out := &workCosts{span: w.span}
	for x, row := range w.own {
		open := steps.Meet(w.open[x], set)
		limited := lags.RowOf(nil, w.span.From, w.span.To)
		for _, r := range open {
			a, b := r.From-w.span.From, r.To-w.span.From
			copy(limited[a:b+1], row[a:b+1])
		}
		out.own, out.open = append(out.own, limited), append(out.open, open)
	}
	out.join()
	return out
}

// takeWork has an activity's work cost what it does for the starts that the query has, which
// lie on the grid, and gives the counted work of looking at them one by one.
func (s *Schedule) takeWork(g problem.Grid, q *query, i int, z *SizeCosts) (spent int64) {
	act := &q.Mode.Acts[i]
	lo, hi := g.Up(q.Lo[i]), g.Down(q.Hi[i])
	w := s.workCosts(g, q, i, steps.Range{From: lo, To: hi})
	part := func(row []int32) []int32 {
		a, b := lo-w.span.From, hi-w.span.From+1
		return row[a:b:b]
	}
	z.Any[i] = part(w.any)
	from := sort.Search(len(w.at), func(k int) bool { return w.at[k] >= lo })
	to := from + sort.Search(len(w.at)-from, func(k int) bool { return w.at[from+k] > hi })
	z.At[i] = w.at[from:to:to]
	z.can[i] = steps.Clip(w.can, lo, hi)
	z.Own[i], z.open[i] = make([][]int32, len(w.own)), make([][]steps.Range, len(w.open))
	for x := range w.own {
		z.Own[i][x] = part(w.own[x])
	}
	for x := range w.open {
		z.open[i][x] = steps.Clip(w.open[x], lo, hi)
	}
	if act.Work == 0 {
		return 0
	}
	empty := s.Prep.Empty(s.Model)
	for _, w := range act.Workers {
		empty.Openings(w, act.Work, q.Lo[i], q.Hi[i], func(from, to int) {
			spent += int64((to-from)/g.Step) + 8
		})
	}
	empty.Spent += spent
	return spent
}
