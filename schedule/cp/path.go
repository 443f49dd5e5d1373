package cp

// fixedLimit is the latest start of activity k that the runs and stays in force
// after the fixed activity k-1 allow; nowhere for none. When every activity is fixed
// it is the latest last delivery instead.
func (c *chain) fixedLimit() int {
	q := c.q
	limit := Infinite
	n := len(q.mode.Acts)
	for x := range c.lay.items {
		it := &c.lay.items[x]
		if !it.active(q.k - 1) {
			continue
		}
		l := c.heldUntil(it)
		if l == nowhere {
			return nowhere
		}
		if it.stay {
			if it.last == n-1 && q.k < n {
				if q.end == nowhere && q.k == n-1 {
					limit = min(limit, max(l, q.starts[q.k-1]+q.mode.Acts[q.k-1].Work)-c.afterLast())
					continue
				}
				if c.endAtMost() > l {
					return nowhere
				}
				continue
			}
			limit = min(limit, l)
			continue
		}
		clean := q.mode.Runs[it.r].Choices[it.choices[0]].Clean
		switch {
		case q.k == n:
			limit = min(limit, l-clean)
		case it.last == q.k-1:
			limit = min(limit, l-clean-q.mode.Acts[q.k].Work)
		default:
			limit = min(limit, l-1)
		}
	}
	return limit
}

// heldUntil is how long a fixed run or stay can be held on from activity k-1.
func (c *chain) heldUntil(it *item) int {
	s, q := c.s, c.q
	at := q.starts[q.k-1]
	if it.stay {
		stay := &q.mode.Stays[it.r]
		if it.fact {
			return s.stayLimit(q.homes[it.r], stay.Boxes)
		}
		from := q.starts[stay.First] + q.mode.Acts[stay.First].Work
		cursor := 0
		l := limitAt(s.reach(q.homes[it.r].Space, stay.Kind, stay.Boxes, from, Infinite), &cursor, from)
		return max(l, from)
	}
	if it.fact {
		at = max(at, s.m.From)
	}
	run := &q.mode.Runs[it.r]
	cursor := 0
	l := limitAt(s.free(run.Choices[it.choices[0]].Pool, run.Amount, it.fact, at, Infinite), &cursor, at)
	if it.fact {
		l = max(l, at) // what has been held until now has been held
	}
	return l
}

// step is one activity of a found chain.
type step struct {
	start, row int // row in force after it
	who        int
}

// walk follows the cheapest chain; it reports its cost and steps from activity k
// on, or false when there is none.
func (c *chain) walk() (steps []step, cost int64, ok bool) {
	q := c.q
	k0, first, ok := c.firstStart()
	if !ok {
		return nil, 0, false
	}
	n := len(q.mode.Acts)
	k, in := k0, 0
	cost = int64(first)
	for i := q.k; i < n; i++ {
		st := step{start: q.lo[i] + k*c.s.m.Step, who: int(c.who[i][k])}
		rest := c.rest[i][in][k]
		if i == q.k {
			cost += int64(rest)
		}
		want := rest - c.work[i][k]
		found := false
		for _, out := range c.lay.next(i, in) {
			to, hit := c.onward(i, out, k, want)
			if hit {
				st.row, found = out, true
				in, k = out, to
				break
			}
		}
		if !found {
			return nil, 0, false
		}
		steps = append(steps, st)
	}
	return steps, cost, true
}

// onward finds the next start index that gives exactly the wanted cost.
func (c *chain) onward(i, out, k int, want int32) (int, bool) {
	limit := c.limits[i][out][k]
	if limit < 0 {
		return 0, false
	}
	if i == len(c.q.mode.Acts)-1 {
		return 0, c.q.flat || want == 0
	}
	act := &c.q.mode.Acts[i]
	order := c.s.prep.lags[act]
	next := c.rest[i+1][out]
	shift := (c.q.lo[i] + act.Work - c.q.lo[i+1]) / c.s.m.Step
	top := min(int(limit), len(next)-1)
	for _, b := range order.bands {
		for to := max(k+shift+int(b.from), 0); to <= min(k+shift+int(b.to), top); to++ {
			if next[to] < unreachable && (c.q.flat || b.cost+next[to] == want) {
				return to, true
			}
		}
	}
	return 0, false
}

// firstStart chooses the start of activity k: the cheapest, and among those the
// latest for a new job and the soonest for one under way.
func (c *chain) firstStart() (k int, lag int32, ok bool) {
	q := c.q
	rest := c.rest[q.k][0]
	if q.k == 0 {
		best := unreachable
		for x := len(rest) - 1; x >= 0; x-- {
			if rest[x] < best {
				best, k = rest[x], x
			}
		}
		return k, 0, best < unreachable
	}
	limit := c.fixedLimit()
	before := &q.mode.Acts[q.k-1]
	worked := q.starts[q.k-1] + before.Work
	best := unreachable
	for x := range rest {
		t := q.lo[q.k] + x*c.s.m.Step
		if t > limit {
			break
		}
		if rest[x] >= unreachable {
			continue
		}
		cost, allowed := before.Lag.costOf(t-worked, q.late > 0)
		if !allowed {
			continue
		}
		total := cost + rest[x]
		if total < best {
			best, k, lag = total, x, cost
		}
		if q.soonest {
			break
		}
	}
	return k, lag, best < unreachable
}

// costOf is the cost of a lag, and whether it is allowed.
func (l *Lag) costOf(ticks int, late bool) (int32, bool) {
	if ticks < l.Least {
		return 0, false
	}
	if ticks > l.Most {
		if !late || l.Late == nil {
			return 0, false
		}
		return l.Late(ticks), true
	}
	if x := ticks - l.Least; x < len(l.Cost) {
		return l.Cost[x], l.Cost[x] < Never
	}
	return 0, true
}
