package planner

import (
	"ripeby/schedule/cp/problem"
)

// table is the cost of every total length of consecutive holds, by minute from
// least; lengths off the grid that cannot be cost problem.Never.
type table struct {
	least, most int
	cost        []int32
}

// plain is the table of one hold.
func (h hold) plain() table {
	t := table{h.shortest(), h.longest(), make([]int32, h.longest()-h.shortest()+1)}
	for x := range t.cost {
		t.cost[x] = h.bother(t.least + x)
	}
	return t
}

// then adds a hold after those of the table. Stages start on the grid: with the
// first hold counted from a moment that is phase minutes past the grid, the
// table's lengths end on it.
func (t table) then(h hold, step, phase int) table {
	out := table{t.least + h.least(), t.most + h.most(), make([]int32, t.most+h.most()-t.least-h.least()+1)}
	for x := range out.cost {
		out.cost[x] = problem.Never
	}
	for x, c := range t.cost {
		if c >= problem.Never || (phase+t.least+x)%step != 0 {
			continue
		}
		for l := h.least(); l <= h.most(); l += step {
			k := t.least + x + l - out.least
			out.cost[k] = min(out.cost[k], c+h.bother(l))
		}
	}
	return out
}

// holdsTable is the table of the holds of stages from to last of an act, the
// first counted from a moment that is phase minutes past the grid.
func (c *chain) holdsTable(from, last, step, phase int) table {
	t := c.holds[from].plain()
	for i := from + 1; i <= last; i++ {
		t = t.then(c.holds[i], step, phase)
	}
	return t
}

// splitAll divides a total length over the holds of stages from to last, one that is longer than
// they may be too: then the last is, and those before it are as long as they may be.
func (c *chain) splitAll(from, last, total, step, phase int) []int {
	if before, _ := c.longestBefore(from, last, phase, step); total <= before+c.holds[last].longest() {
		return c.split(from, last, total, step, phase)
	}
	var out []int
	for i := from; i < last; i++ {
		long, _ := c.longestBefore(i, i+1, phase, step)
		out, phase, total = append(out, long), 0, total-long
	}
	return append(out, total)
}

// split divides a total length over the holds of stages from to last, at the
// table's cost; of equal splits the one with the shorter first holds.
func (c *chain) split(from, last, total, step, phase int) []int {
	if from == last {
		return []int{total}
	}
	rest := c.holds[last]
	before := c.holdsTable(from, last-1, step, phase)
	best, at := problem.Never, -1
	for l := rest.most(); l >= rest.least(); l -= step {
		x := total - l - before.least
		if x < 0 || x >= len(before.cost) || before.cost[x] >= problem.Never || (phase+total-l)%step != 0 {
			continue
		}
		if v := before.cost[x] + rest.bother(l); v < best {
			best, at = v, l
		}
	}
	if at < 0 {
		at = rest.least()
	}
	return append(c.split(from, last-1, total-at, step, phase), at)
}

// slipOf gives how short and how long the holds of stages from to last, which past minutes
// of an activity's lag come before, may last in all when all but the last are as split
// has them; nil for one hold, which its own least and most limit.
func (c *chain) slipOf(from, last, past, step, phase int) func(lag int) (least, most int) {
	if from == last {
		return nil
	}
	return func(lag int) (least, most int) {
		parts := c.split(from, last, lag-past, step, phase)
		before := lag - parts[len(parts)-1]
		return before + c.holds[last].least(), before + c.holds[last].most()
	}
}

// lag turns a table into the engine's lag.
func (t table) lag() problem.Lag {
	return problem.Lag{Least: t.least, Most: t.most, Cost: t.cost}
}

// lags are the lags of a chain's activities; those of all sizes are alike. Late ones may go on past
// their time.
func (c *chain) lags(k clock, late bool) []problem.Lag {
	out, step := make([]problem.Lag, len(c.acts)), int(k.step)
	for a, ac := range c.acts {
		if a == len(c.acts)-1 {
			h := c.holds[ac.last]
			out[a] = problem.Lag{Least: h.least(), Most: h.most()}
			continue
		}
		out[a] = c.turning(ac.first, k, func(c *chain) problem.Lag {
			lag := c.holdsTable(ac.first, ac.last, step, 0).lag()
			lag.Slip = c.slipOf(ac.first, ac.last, 0, step, 0)
			if late {
				lag.Past = c.pastOf(ac.first, ac.last, 0, 0, step)
			}
			return lag
		})
	}
	return out
}

// runningLag is what may still come of an activity's holds up to stage last, of which that
// of stage running runs and past minutes are over. Past holds cost nothing more.
func (c *chain) runningLag(running, last, past, step, phase int) problem.Lag {
	lag := c.holdsTable(running, last, step, phase).lag()
	lag.Least, lag.Most = past+lag.Least, past+lag.Most
	lag.Slip = c.slipOf(running, last, past, step, phase)
	if late := c.lateFrom(running, last, phase, step); late > 0 {
		lag.Late = make([]int32, len(lag.Cost)) // it is late already, and the next stages come by themselves
		for x := range lag.Late {
			lag.Late[x] = late
		}
	}
	return lag
}
