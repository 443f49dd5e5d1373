package chain

import (
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// fixedLimit is the latest start of activity k that the runs and stays in force
// after the fixed activity k-1 allow; nowhere for none. When every activity is fixed
// it is the latest last delivery instead.
func (c *chain) fixedLimit() int {
	q := c.q
	limit := problem.Infinite
	n := len(q.Mode.Acts)
	for x := range c.lay.items {
		it := &c.lay.items[x]
		if !it.active(q.From - 1) {
			continue
		}
		l := c.heldUntil(it)
		if l == problem.Nowhere {
			return problem.Nowhere
		}
		if it.stay {
			if it.last == n-1 && q.From < n {
				if q.end == problem.Nowhere && q.From == n-1 {
					limit = min(limit, max(l, q.starts[q.From-1]+q.Mode.Acts[q.From-1].Work)-c.afterLast())
					continue
				}
				if c.endAtMost() > l {
					return problem.Nowhere
				}
				continue
			}
			limit = min(limit, l)
			continue
		}
		clean := q.Mode.Runs[it.r].Choices[it.choices[0]].Clean
		switch {
		case q.From == n:
			limit = min(limit, l-clean)
		case it.last == q.From-1:
			limit = min(limit, l-clean-q.Mode.After(it.until))
		default:
			limit = min(limit, l-1)
		}
	}
	return limit
}

// heldUntil is how long a fixed run or stay can be held on from activity k-1.
func (c *chain) heldUntil(it *item) int {
	s, q := c.s, c.q
	at := q.starts[q.From-1]
	if it.stay {
		stay := &q.Mode.Stays[it.r]
		if it.begun {
			return s.StayLimit(q.homes[it.r], stay.Kind, stay.Boxes)
		}
		from := q.starts[stay.First] + q.Mode.Acts[stay.First].Work
		cursor := 0
		l := usage.LimitAt(s.Reach(q.homes[it.r].Space, stay.Kind, stay.Boxes, from, problem.Infinite), &cursor, from)
		return max(l, from)
	}
	if it.begun {
		at = max(at, s.Model.From)
	}
	run := &q.Mode.Runs[it.r]
	cursor := 0
	l := usage.LimitAt(s.Free(run.Choices[it.choices[0]].Pool, run.Amount, it.begun, at, problem.Infinite), &cursor, at)
	if it.begun {
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
	n := len(q.Mode.Acts)
	k, in := k0, 0
	cost = int64(first)
	for i := q.From; i < n; i++ {
		st := step{start: q.Lo[i] + k*c.s.Model.Step, who: int(c.who[i][k])}
		rest := c.rest[i][in][k]
		if i == q.From {
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
	if i == len(c.q.Mode.Acts)-1 {
		return 0, c.q.flat || want == 0
	}
	act := &c.q.Mode.Acts[i]
	lag := c.s.Prep.lags[act].at(c.q.Lo[i] + k*c.s.Model.Step + act.Work).sought
	next := c.rest[i+1][out]
	shift := (c.q.Lo[i] + act.Work - c.q.Lo[i+1]) / c.s.Model.Step
	top := min(int(limit), len(next)-1)
	for _, b := range lag.Bands {
		for to := max(k+shift+int(b.From), 0); to <= min(k+shift+int(b.To), top); to++ {
			if next[to] < Unreachable && (c.q.flat || b.Cost+next[to] == want) {
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
	rest := c.rest[q.From][0]
	if q.From == 0 {
		best := Unreachable
		for x := len(rest) - 1; x >= 0; x-- {
			if rest[x] < best {
				best, k = rest[x], x
			}
		}
		return k, 0, best < Unreachable
	}
	limit := c.fixedLimit()
	before := &q.Mode.Acts[q.From-1]
	worked := q.starts[q.From-1] + before.Work
	best := Unreachable
	for x := range rest {
		t := q.Lo[q.From] + x*c.s.Model.Step
		if t > limit {
			break
		}
		if rest[x] >= Unreachable {
			continue
		}
		cost := c.s.Prep.lags[before].at(worked).costOf(t - worked)
		if cost >= Unreachable {
			continue
		}
		total := cost + rest[x]
		if total < best {
			best, k, lag = total, x, cost
		}
	}
	return k, lag, best < Unreachable
}
