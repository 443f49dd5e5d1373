package chain

import (
	"slices"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// item is a run or a stay of a query's mode, with the choices it has left.
type item struct {
	stay        bool
	r           int
	first, last int
	until       problem.Mark
	choices     []int // indexes into the run's Choices or the stay's Spaces
	fixed       bool  // began before the query's first free activity
	begun       bool  // began before the planning start
}

// layout numbers the combinations of choices that are in force between two
// activities. Rows count in mixed radix over the items with more than one choice.
type layout struct {
	m     *problem.Model
	q     *query
	items []item
}

func layoutOf(m *problem.Model, q *query) *layout {
	lay := &layout{m: m, q: q}
	for r := range q.Mode.Runs {
		run := &q.Mode.Runs[r]
		it := item{false, r, run.First, run.Last, run.Occupied().Until, nil, run.First < q.From, run.First < q.began}
		switch {
		case it.fixed:
			it.choices = []int{q.choices[r]}
		case q.As != nil:
			it.choices = []int{q.As.Choices[r]}
		default:
			it.choices = problem.UpTo(len(run.Choices))
		}
		lay.items = append(lay.items, it)
	}
	for r := range q.Mode.Stays {
		stay := &q.Mode.Stays[r]
		it := item{true, r, stay.First, stay.Last, stay.Occupied().Until, nil, stay.First < q.From, stay.First < q.began}
		switch {
		case it.fixed:
			it.choices = []int{0}
		case q.As != nil:
			it.choices = []int{slices.Index(stay.Spaces, q.As.Spaces[r])}
		default:
			it.choices = problem.UpTo(len(stay.Spaces))
		}
		lay.items = append(lay.items, it)
	}
	return lay
}

// active reports whether the item is in force between activities i and i+1.
func (it *item) active(i int) bool { return it.first <= i && i <= it.last }

func (lay *layout) outRows(i int) int {
	n := 1
	for x := range lay.items {
		if lay.items[x].active(i) {
			n *= len(lay.items[x].choices)
		}
	}
	return n
}

func (lay *layout) inRows(i int) int {
	if i <= lay.q.From {
		return 1
	}
	return lay.outRows(i - 1)
}

// choice gives the place in it.choices of every item in a row between i and i+1;
// -1 for items not in force.
func (lay *layout) choice(i, row int) []int {
	out := make([]int, len(lay.items))
	for x := range lay.items {
		out[x] = -1
		if it := &lay.items[x]; it.active(i) {
			n := len(it.choices)
			out[x] = row % n
			row /= n
		}
	}
	return out
}

// next lists the rows between i and i+1 that carry on row in between i-1 and i.
func (lay *layout) next(i, in int) []int {
	var before []int
	if i > lay.q.From {
		before = lay.choice(i-1, in)
	}
	var out []int
	for row := 0; row < lay.outRows(i); row++ {
		now := lay.choice(i, row)
		same := true
		for x := range now {
			if before != nil && before[x] >= 0 && now[x] >= 0 && before[x] != now[x] {
				same = false
			}
		}
		if same {
			out = append(out, row)
		}
	}
	return out
}

// limits gives, for every row in force after activity i and every start of i,
// the latest start of i+1 in steps from its lo (0 where i is the last), or -1.
func (lay *layout) limits(c *chain, i int) [][]int32 {
	size := len(c.work[i])
	rows := lay.outRows(i)
	out := make([][]int32, rows)
	for row := range out {
		out[row] = make([]int32, size)
		for k := range out[row] {
			out[row][k] = 1 << 30
		}
	}
	stride := 1
	for x := range lay.items {
		it := &lay.items[x]
		if !it.active(i) {
			continue
		}
		n := len(it.choices)
		for ch := range it.choices {
			limit := c.limitOf(i, it, it.choices[ch])
			for row := range out {
				if row/stride%n != ch {
					continue
				}
				for k, v := range limit {
					out[row][k] = min(out[row][k], v)
				}
			}
		}
		stride *= n
	}
	return out
}

// limitOf is the limit that one item with one choice sets on the start after
// activity i, for every start of i.
func (c *chain) limitOf(i int, it *item, choice int) []int32 {
	if it.stay {
		return c.stayLimitOf(i, it, choice)
	}
	s, q := c.s, c.q
	run := &q.Mode.Runs[it.r]
	pc := run.Choices[choice]
	last := i == len(q.Mode.Acts)-1
	pieces := c.freeOf(it, pc.Pool, run.Amount)
	out := make([]int32, len(c.work[i]))
	cursor := 0
	for k := range out {
		if c.work[i][k] >= Unreachable {
			continue // nobody asks
		}
		t := q.Lo[i] + k*s.Model.Step
		limit := usage.LimitAt(pieces, &cursor, t)
		switch {
		case limit == problem.Nowhere:
			out[k] = -1
		case last:
			out[k] = yes(c.endAt(i, t)+pc.Clean <= limit)
		case it.last == i:
			out[k] = c.nextIndex(i, limit-q.Mode.After(it.until)-pc.Clean)
		default:
			out[k] = c.nextIndex(i, limit-1)
		}
	}
	return out
}

// freeOf is the free time of a pool over the whole query; what has begun clashes
// only with what is planned.
func (c *chain) freeOf(it *item, pool, amount int) []usage.Piece {
	lo := c.q.Lo[c.q.From]
	if it.begun {
		lo = min(lo, c.s.Model.From)
	}
	return c.s.Free(pool, amount, it.begun, lo, problem.Infinite)
}

func yes(ok bool) int32 {
	if ok {
		return 0
	}
	return -1
}

// nextIndex turns a latest start of activity i+1 into steps from its lo.
func (c *chain) nextIndex(i, t int) int32 {
	d := problem.FloorTo(t, c.s.Model.Step) - c.q.Lo[i+1]
	if d < 0 {
		return -1
	}
	return int32(min(d/c.s.Model.Step, 1<<30))
}

// endAt is the last delivery when the last activity starts at t.
func (c *chain) endAt(last, t int) int {
	if c.q.end != problem.Nowhere {
		return c.q.end
	}
	return t + c.q.Mode.Acts[last].Work + c.q.endLeast
}

// afterLast is from the start of the last activity to a delivery that is not given.
func (c *chain) afterLast() int { return problem.LastWork(c.q.Mode) + c.q.endLeast }

// endAtMost is the latest that the last delivery can be.
func (c *chain) endAtMost() int {
	if c.q.end != problem.Nowhere {
		return c.q.end
	}
	return c.q.readyMax + c.q.endLeast
}

func (c *chain) stayLimitOf(i int, it *item, choice int) []int32 {
	s, q := c.s, c.q
	out := make([]int32, len(c.work[i]))
	stay := &q.Mode.Stays[it.r]
	last := i == len(q.Mode.Acts)-1
	toEnd := it.last == len(q.Mode.Acts)-1 && !last
	if i > it.first { // settled where the stay began
		for k := range out {
			out[k] = 1 << 30
		}
		return out
	}
	w := q.Mode.Acts[i].Work
	pieces := s.Reach(stay.Spaces[choice], stay.Kind, stay.Boxes, q.Lo[i]+w, c.stayUntil(i, last || toEnd))
	cursor := 0
	for k := range out {
		if c.work[i][k] >= Unreachable {
			continue
		}
		t := q.Lo[i] + k*s.Model.Step
		limit := usage.LimitAt(pieces, &cursor, t+w)
		switch {
		case last:
			end := c.endAt(i, t)
			out[k] = yes(end <= t+w || end <= limit)
		case toEnd && q.relaxed && q.begun && limit != problem.Nowhere:
			out[k] = c.nextIndex(i, limit) // the delivery is let go of, but until then it stands there
		case toEnd && q.relaxed && q.end == problem.Nowhere:
			out[k] = 1 << 30 // the delivery is let go of, and the stay with it
		case toEnd && q.end == problem.Nowhere && i == len(q.Mode.Acts)-2:
			// The delivery follows the last work: the sooner that, the sooner the space is left.
			out[k] = c.nextIndex(i, max(limit, t+w)-c.afterLast())
		case toEnd:
			out[k] = c.sure(c.endAtMost() <= max(limit, t+w)) // nothing stands when it ends at once
		case limit == problem.Nowhere:
			// Nothing stands, but a hold of nothing needs no space.
			out[k] = c.nextIndex(i, t+w)
		default:
			out[k] = c.nextIndex(i, limit)
		}
	}
	return out
}

// stayUntil is when the stay that begins at activity i is over at the latest.
func (c *chain) stayUntil(i int, toEnd bool) int {
	if toEnd {
		return c.endAtMost() + 1
	}
	return c.q.Hi[i+1] + 1
}

func (c *chain) sure(ok bool) int32 {
	if ok {
		return 1 << 30
	}
	return -1
}

// bridge is the overlap of two runs of one pool that meet at an activity: the
// one that ends with its work and the one that begins with it.
type bridge struct {
	pool, amount, clean int
}

// bridges lists the overlaps at activity i. Runs with a choice of pools are left
// to the check before placing.
func (lay *layout) bridges(i int) []bridge {
	var out []bridge
	runs := lay.q.Mode.Runs
	for a := range runs {
		if runs[a].Last+1 != i || len(runs[a].Choices) != 1 {
			continue
		}
		for b := range runs {
			if runs[b].First == i && len(runs[b].Choices) == 1 && runs[b].Choices[0].Pool == runs[a].Choices[0].Pool {
				pc := runs[a].Choices[0]
				out = append(out, bridge{pc.Pool, runs[a].Amount + runs[b].Amount, pc.Clean})
			}
		}
	}
	return out
}

// bar makes starts of activity i unreachable at which a bridge has no room.
func (c *chain) bar(i int, row []int32, b bridge) {
	if c.q.Mode.Acts[i].Work+b.clean == 0 {
		return // one ends as the other begins: they never overlap
	}
	pieces := c.s.Free(b.pool, b.amount, false, c.q.Lo[c.q.From], problem.Infinite)
	cursor := 0
	for k := range row {
		t := c.q.Lo[i] + k*c.s.Model.Step
		if usage.LimitAt(pieces, &cursor, t) < t+c.q.Mode.Acts[i].Work+b.clean {
			row[k] = Unreachable
		}
	}
}
