package cp

import (
	"slices"
	"sort"

	"ripeby/schedule/cp/global"
)

// workCosts is what a piece of work costs with the kitchen to itself, by the step at which
// it starts, over the time that was asked about so far. All activities and sizes with the
// same work have their rows from it, each a part of it.
type workCosts struct {
	span global.Range     // steps that the rows go from and to
	own  [][]int32        // of each worker; nil for what is nobody's work
	any  []int32          // the least of own
	at   []int32          // steps at which somebody can, sorted
	open [][]global.Range // steps at which each worker can; for what is nobody's work one that is all
	can  []global.Range   // steps of at
}

// workKey names a piece of work: who can do it, how long it is, and for the first work of
// what draws on a supply the least intake of those that have enough.
type workKey struct {
	who         string
	work        int
	begun, flat bool
	supply      int // -1 for none
	enough      int64
}

// workCosts gives the costs of an activity's work over some steps at the least.
func (s *schedule) workCosts(g grid, q *query, i int, span global.Range) *workCosts {
	act := &q.mode.Acts[i]
	key := workKey{who: keyOf(act.Workers), work: act.Work, begun: q.begun, flat: s.flat, supply: -1}
	w := s.prep.works[key]
	if w == nil || !w.covers(span) {
		if w != nil {
			span = global.Range{From: min(span.From, w.span.From), To: max(span.To, w.span.To)}
		}
		span.To = max(span.To, s.lastOwed(g))
		w = s.newWorkCosts(g, q, i, span)
		s.prep.works[key] = w
	}
	if i > 0 || q.k > 0 || q.supply < 0 || act.Work == 0 {
		return w
	}
	key.supply, key.enough = q.supply, s.leastEnough(q.supply, q.mode.Amount)
	drawn := s.prep.works[key]
	if drawn == nil || !drawn.covers(span) {
		drawn = w.drawing(s.drawable(g, q))
		s.prep.works[key] = drawn
	}
	return drawn
}

// covers reports whether the rows go over some steps.
func (w *workCosts) covers(span global.Range) bool {
	return w.span.From <= span.From && span.To <= w.span.To
}

// lastOwed is the step of the last moment at which anything is due.
func (s *schedule) lastOwed(g grid) int32 {
	last := s.m.From
	for d := range s.m.Demands {
		if dm := &s.m.Demands[d]; dm.Units > 0 {
			last = max(last, dm.Due)
		}
	}
	return g.up(last)
}

// newWorkCosts works the costs out.
func (s *schedule) newWorkCosts(g grid, q *query, i int, span global.Range) *workCosts {
	act := &q.mode.Acts[i]
	w := &workCosts{span: span}
	if act.Work == 0 {
		w.any = rowOf([]global.Range{span}, span.From, span.To)
		w.can = []global.Range{span}
		w.open, w.at = [][]global.Range{w.can}, stepsOf(w.can)
		return w
	}
	empty := s.prep.empty(s.m)
	defer func(spent int64) { empty.spent = spent }(empty.spent) // it is counted where it is used
	alone := *q.mode
	alone.Acts = slices.Clone(q.mode.Acts)
	all := *q
	all.mode, all.lo = &alone, slices.Clone(q.lo)
	all.lo[i] = g.tick(span.From)
	who := make([]int16, span.To-span.From+1)
	for _, worker := range act.Workers {
		alone.Acts[i].Workers = []int{worker}
		row := make([]int32, len(who))
		empty.fillWork(&all, i, row, who)
		if s.flat {
			flatten(row)
		}
		w.own, w.open = append(w.own, row), append(w.open, shifted(reachableOf(row), span.From, span.From))
	}
	w.join()
	return w
}

// join fills what somebody can from what each worker can.
func (w *workCosts) join() {
	w.any = rowOf(nil, w.span.From, w.span.To)
	for x, row := range w.own {
		for x, v := range row {
			w.any[x] = min(w.any[x], v)
		}
		w.can = union(w.can, w.open[x])
	}
	w.at = stepsOf(w.can)
}

// flatten takes away what anything costs, and leaves what cannot be.
func flatten(row []int32) {
	for x, v := range row {
		if v < unreachable {
			row[x] = 0
		}
	}
}

// leastEnough is the smallest intake of a supply that has so much; -1 for none.
func (s *schedule) leastEnough(supply int, amount int64) int64 {
	least := int64(-1)
	for i := range s.m.Intakes {
		if in := &s.m.Intakes[i]; in.Supply == supply && in.Amount >= amount && (least < 0 || in.Amount < least) {
			least = in.Amount
		}
	}
	return least
}

// drawable is the steps at which some intake has enough.
func (s *schedule) drawable(g grid, q *query) []global.Range {
	var out []global.Range
	for i := range s.m.Intakes {
		in := &s.m.Intakes[i]
		span := global.Range{From: max(g.up(in.Ready), 0), To: g.down(in.Until)}
		if in.Supply == q.supply && in.Amount >= q.mode.Amount && span.From <= span.To {
			out = union(out, []global.Range{span})
		}
	}
	return out
}

// drawing is the costs of the work where it can be at the steps of a set alone.
func (w *workCosts) drawing(set []global.Range) *workCosts {
	if holds(set, w.can) {
		return w
	}
	out := &workCosts{span: w.span}
	for x, row := range w.own {
		open := meet(w.open[x], set)
		limited := rowOf(nil, w.span.From, w.span.To)
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
func (s *schedule) takeWork(g grid, q *query, i int, z *sizeCosts) (spent int64) {
	act := &q.mode.Acts[i]
	lo, hi := g.up(q.lo[i]), g.down(q.hi[i])
	w := s.workCosts(g, q, i, global.Range{From: lo, To: hi})
	part := func(row []int32) []int32 {
		a, b := lo-w.span.From, hi-w.span.From+1
		return row[a:b:b]
	}
	z.any[i] = part(w.any)
	from := sort.Search(len(w.at), func(k int) bool { return w.at[k] >= lo })
	to := from + sort.Search(len(w.at)-from, func(k int) bool { return w.at[from+k] > hi })
	z.at[i] = w.at[from:to:to]
	z.can[i] = clip(w.can, lo, hi)
	z.own[i], z.open[i] = make([][]int32, len(w.own)), make([][]global.Range, len(w.open))
	for x := range w.own {
		z.own[i][x] = part(w.own[x])
	}
	for x := range w.open {
		z.open[i][x] = clip(w.open[x], lo, hi)
	}
	if act.Work == 0 {
		return 0
	}
	empty := s.prep.empty(s.m)
	for _, w := range act.Workers {
		empty.openings(w, act.Work, q.lo[i], q.hi[i], func(from, to int) {
			spent += int64((to-from)/g.step) + 8
		})
	}
	empty.spent += spent
	return spent
}
