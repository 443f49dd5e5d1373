package chain

import (
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// branchLimit is how many ways of keeping workers' day limits are tried for one
// job before it counts as not placeable.
const branchLimit = 60

// Place finds the best way to place one job beside all that is placed. Only the
// day limits of workers, which couple pieces of work of one chain, need more than
// one solve: a chain that breaks a limit is forbidden piece by piece, cheapest
// first, until one keeps them all.
func (s *Schedule) Place(q *query) (*problem.Job, bool) {
	type node struct {
		forbid []forbidden
		steps  []step
		c      *chain
		cost   int64
		seq    int
	}
	var open []node
	push := func(forbid []forbidden, seq int) {
		for _, ceiling := range s.ceilingsOf(q) {
			qq := *q
			qq.forbid, qq.ceiling = forbid, ceiling
			if q.flat {
				qq.ceiling = Unreachable
			}
			c, ok, more := s.solve(&qq)
			if ok {
				// Dearer ones that share a dear part may be cheaper than what was found.
				if steps, cost, ok := c.walk(); ok && (cost < int64(qq.ceiling) || qq.ceiling == Unreachable) {
					open = append(open, node{forbid, steps, c, cost, seq})
					return
				}
			}
			if q.flat || !more {
				return
			}
		}
	}
	push(q.forbid, 0)
	for seq := 1; len(open) > 0 && seq < branchLimit; {
		b := 0
		for i := range open {
			if s.sooner(q, open[i].cost, open[i].steps, open[i].seq, open[b].cost, open[b].steps, open[b].seq) {
				b = i
			}
		}
		nd := open[b]
		open = append(open[:b], open[b+1:]...)
		over := s.overDay(nd.c.q, nd.steps)
		if over == nil || (q.relaxed && seq+len(over) >= branchLimit) {
			j, ok := s.jobOf(nd.c, nd.steps, nd.cost)
			if ok || q.relaxed {
				return j, true
			}
			continue
		}
		for _, f := range over {
			push(append(append([]forbidden(nil), nd.forbid...), f), seq)
			seq++
		}
	}
	return nil, false
}

// sooner orders the open branches: cheaper first, then the later start, then age.
func (s *Schedule) sooner(q *query, c1 int64, s1 []step, n1 int, c2 int64, s2 []step, n2 int) bool {
	if c1 != c2 {
		return c1 < c2
	}
	if q.From == 0 && s1[0].start != s2[0].start {
		return s1[0].start > s2[0].start
	}
	return n1 < n2
}

// overDay finds a worker and day whose limit the chain breaks and gives the
// chain's pieces of work in it; nil when all limits hold.
func (s *Schedule) overDay(q *query, steps []step) []forbidden {
	for _, st := range steps {
		if st.who < 0 {
			continue
		}
		days := s.Model.Workers[st.who].Days
		d := problem.DayOf(days, st.start)
		if d < 0 {
			continue
		}
		sum := s.Load[st.who][d]
		var part []forbidden
		for x, o := range steps {
			if o.who == st.who && problem.DayOf(days, o.start) == d {
				sum += q.Mode.Acts[q.From+x].Work
				part = append(part, forbidden{q.From + x, o.who, d})
			}
		}
		// Fixed pieces of the same chain count too; what they add cannot be moved.
		for x := 0; x < q.From; x++ {
			if q.workers[x] == st.who && problem.DayOf(days, q.starts[x]) == d {
				sum += q.Mode.Acts[x].Work
			}
		}
		if sum > days[d].Limit {
			return part
		}
	}
	return nil
}

// jobOf turns a walked chain into a job with its boxes placed.
func (s *Schedule) jobOf(c *chain, steps []step, cost int64) (*problem.Job, bool) {
	q := c.q
	n := len(q.Mode.Acts)
	j := &problem.Job{Begun: -1, Penalty: cost, Intake: -1}
	j.Starts = append(append([]int(nil), q.starts[:q.From]...), make([]int, n-q.From)...)
	j.Workers = append(append([]int(nil), q.workers[:q.From]...), make([]int, n-q.From)...)
	for i, st := range steps {
		j.Starts[q.From+i], j.Workers[q.From+i] = st.start, st.who
	}
	j.Ready = j.Starts[n-1] + q.Mode.Acts[n-1].Work
	j.End = c.endAt(n-1, j.Starts[n-1])
	j.Choices = make([]int, len(q.Mode.Runs))
	j.Stays = make([]problem.StayPlace, len(q.Mode.Stays))
	spaces := make([]int, len(q.Mode.Stays))
	for x := range c.lay.items {
		it := &c.lay.items[x]
		pick := it.choices[0]
		if !it.fixed {
			pick = it.choices[c.lay.choice(it.first, steps[it.first-q.From].row)[x]]
		}
		if it.stay {
			spaces[it.r] = pick
		} else {
			j.Choices[it.r] = pick
		}
	}
	if q.From == 0 && q.supply >= 0 {
		j.Intake = s.intakeAt(q, j.Starts[0])
	}
	if q.begun || q.unrest > 0 {
		j.Penalty = s.PenaltyOf(j, q.Mode, q.began)
	}
	if q.begun {
		j.Late = LateOf(j, q.Mode, q.began)
	}
	return j, s.standAll(q, j, spaces) && (s.poolsHold(q, j) || s.chooseAgain(q, j))
}

// standAll finds where the boxes of every stay stand.
func (s *Schedule) standAll(q *query, j *problem.Job, spaces []int) bool {
	for r := range q.Mode.Stays {
		stay := &q.Mode.Stays[r]
		if stay.First < q.began {
			j.Stays[r] = q.homes[r]
			continue
		}
		space := -1
		if stay.First < q.From {
			space = q.homes[r].Space
		} else {
			space = stay.Spaces[spaces[r]]
		}
		j.Stays[r] = problem.StayPlace{Space: space}
		from, until, ok := j.Occupies(q.Mode, stay.Occupied())
		if !ok || until <= from {
			continue
		}
		if r < len(q.Stood) && s.StandsFree(space, stay.Kind, stay.Boxes, q.Stood[r], from, until) {
			j.Stays[r].Stacks = q.Stood[r]
			continue
		}
		if q.Firm && len(s.Model.Spaces[space].Floors) > 0 && stay.Boxes > 0 {
			return false
		}
		stacks, ok := s.Settle(space, stay.Kind, stay.Boxes, from, until)
		if !ok {
			return false
		}
		j.Stays[r].Stacks = stacks
	}
	return true
}

// poolsHold checks what the chain's tables do not see: runs of one job that hold
// the same pool at the same time by way of cleaning or of choices, two or more.
func (s *Schedule) poolsHold(q *query, j *problem.Job) bool {
	type hold struct {
		pool int
		usage.Occupation
	}
	var holds []hold
	for r := range q.Mode.Runs {
		run := &q.Mode.Runs[r]
		if from, until, ok := j.Occupies(q.Mode, run.Occupied()); ok {
			c := run.Choices[j.Choices[r]]
			holds = append(holds, hold{c.Pool, usage.Occupation{From: from, Until: until + c.Clean, Amount: run.Amount, Job: j, Begun: run.First < q.began}})
		}
	}
	for _, a := range holds {
		for _, from := range []int{a.From, a.Until} {
			// What is held together from this moment to the next change.
			until, sum, n, planned := problem.Infinite, 0, 0, false
			for _, b := range holds {
				if b.pool != a.pool || b.Until <= from {
					continue
				}
				if b.From > from {
					until = min(until, b.From)
					continue
				}
				until, sum, n, planned = min(until, b.Until), sum+b.Amount, n+1, planned || !b.Begun
			}
			cursor := 0
			if n > 1 && planned && usage.LimitAt(s.Free(a.pool, sum, false, from, until), &cursor, from) < until {
				return false
			}
		}
	}
	return true
}
