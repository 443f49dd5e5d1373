package search

import (
	"cmp"
	"context"
	"slices"

	"ripeby/schedule/cp/bound"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/statement"
)

// A plan too long to be stated whole is pressed a segment at a time.
//
// Jobs are taken in order of readiness, so many to a segment, half of them again in
// the next. What a segment's jobs serve, and what is short in its time, is stated to
// the kernel; everything else is frozen beside it and stays where it is. What is
// short, the number of jobs and their amount are pressed in turn, and a better
// segment takes the place of the old one. The kernel does not ask what waiting costs:
// local search sees to that between two passes, and gives the next pass other borders.
//
//	jobs     1 2 3 4 5 6 7 8 9 …
//	stated   └──────┘
//	             └──────┘          longer ones in the next pass

// defaultSegment is how many jobs a segment has in the first pass; each pass has a
// sixth more than the one before.
const (
	defaultSegment = 24
	segmentGrowth  = 6
)

// pressedParts are what is late and short, the jobs and their amount.
const pressedParts = problem.PartPenalty

const (
	horizonTurns = 4
	settledShare = 5             // one part in so many of the work left betters what waiting costs, once all before it is proved,
	settledWork  = DefaultBudget // or so much of it
	horizonShare = 2             // one part in so many of the work left goes to local search before them
	kernelShare  = 20            // one part in so many of the rest is for the kernel, whose work takes longer
)

// horizon is the pressing of one plan.
type horizon struct {
	im      *improver
	ctx     context.Context
	size    int   // jobs of a segment in the first pass
	whole   int   // and of the longest that is stated at once
	until   int64 // counted work at which to stop
	kernel  int64 // work left for the kernel
	settled func(problem.Cost) bool
	report  func()
}

// press presses the plan until nothing is left to gain or the work is spent.
func (h *horizon) press() {
	s := h.im.s
	h.kernel = (h.until - s.Spent) / kernelShare
	for turn := range horizonTurns {
		left := int64(horizonTurns - turn)
		before := s.Cost()
		h.pass(h.size+turn*h.size/segmentGrowth, turn, h.kernel/left)
		h.im.start()
		h.report()
		end := s.Spent + (h.until-s.Spent)/left
		settled := h.settled(s.Cost())
		switch last := turn == horizonTurns-1; {
		case !settled && !last && s.Cost().Less(before):
			continue // more may be gained at once
		case settled:
			end = min(h.until, s.Spent+max((h.until-s.Spent)/settledShare, settledWork))
		}
		h.im.improve(func() bool { return s.Spent < end && h.ctx.Err() == nil }, h.report, false)
		h.im.finish()
		if settled {
			return
		}
	}
}

// pass presses every segment of so many jobs in which something may be gained; they
// share the work. Where there is none, those with other borders are looked at, and longer ones.
func (h *horizon) pass(size, turn int, work int64) {
	if h.settled(h.im.s.Cost()) {
		return
	}
	for ; size <= max(h.whole, h.size); size += max(size/2, 1) {
		for border := range horizonTurns {
			first := (turn + border) * size / (2 * horizonTurns) % (size/2 + 1)
			if open := h.gainful(first, size); open > 0 {
				h.passFrom(first, size, open, work)
				return
			}
		}
	}
}

// gainful is in how many segments something may be gained.
func (h *horizon) gainful(first, size int) (open int64) {
	s := h.im.s
	for at := first; s.Spent < h.until && h.ctx.Err() == nil; at += max(size/2, 1) {
		free := s.segmentAt(at, size)
		if len(free) == 0 {
			break
		}
		if s.mayGain(s.segment(free)) {
			open++
		}
	}
	return open
}

// passFrom presses the segments with such borders.
func (h *horizon) passFrom(first, size int, open, work int64) {
	s := h.im.s
	for at := first; ; at += max(size/2, 1) {
		free := s.segmentAt(at, size)
		if len(free) == 0 || s.Spent >= h.until || h.ctx.Err() != nil || h.settled(s.Cost()) {
			return
		}
		cut := s.segment(free)
		if !s.mayGain(cut) {
			continue
		}
		used, better := h.ask(free, cut, work/max(open, 1))
		h.kernel -= used
		work -= used
		open--
		if better {
			h.im.start()
			h.report()
		}
	}
}

// segmentAt are so many of the new jobs in order of readiness.
func (s *Plan) segmentAt(at, size int) []*problem.Job {
	var all []*problem.Job
	for _, j := range s.Jobs {
		if j.Begun < 0 {
			all = append(all, j)
		}
	}
	slices.SortStableFunc(all, func(a, b *problem.Job) int { return cmp.Compare(a.Ready, b.Ready) })
	at = min(at, len(all))
	return all[at:min(at+size, len(all))]
}

// mayGain reports whether what a segment that is cut out serves could be served by fewer
// jobs, or by as many of a smaller amount, or more of it be served, had each family the
// kitchen to itself.
func (s *Plan) mayGain(cut *Plan) bool {
	now := cut.Cost()
	now.Moved, now.Penalty, now.Early = 0, 0, 0
	owed := s.Emptied(cut.Model) // nothing of it is served yet
	var least problem.Cost
	for f := range s.Model.Families {
		c := bound.CoverLeft(&owed.Schedule, f, problem.Always())
		s.Spent += int64(len(c.Units)) * roundWork
		if len(c.Units) > 0 {
			reach, _ := c.FirstPass()
			least = least.Plus(reach[len(reach)-1])
		}
	}
	return least.Less(now)
}

// segment is a segment by itself: a plan of its own with the free jobs, in a model with
// nothing but what they serve and what is short in their time.
func (s *Plan) segment(free []*problem.Job) *Plan {
	from, until := problem.Infinite, -problem.Infinite
	for _, j := range free {
		for _, sh := range j.Shares {
			due := s.Model.Demands[sh.Demand].Due
			from, until = min(from, due), max(until, due)
		}
	}
	m, frozen := s.CutOut(func(j *problem.Job) bool { return slices.Contains(free, j) },
		func(d int) bool { due := s.Model.Demands[d].Due; return from <= due && due <= until })
	cut := s.Emptied(m)
	cut.Frozen, cut.Spent, cut.Flat = frozen, s.Spent, true
	for _, j := range free {
		cut.Add(j)
	}
	return cut
}

// ask states a segment that is cut out and presses it for so much work; a better one is put back. It
// gives the work that the kernel used.
func (h *horizon) ask(free []*problem.Job, cut *Plan, work int64) (used int64, better bool) {
	s := h.im.s
	cut.Spent = s.Spent
	s.Prep.KeepChains(cut.Model)
	cost := cut.Cost()
	p := &prover{s: cut, cost: cost, ctx: h.ctx, count: statement.NewCounts(), found: func(*prover) {}}
	p.bound = p.boundOf(cut, cost)
	ok := p.restate()
	begin := p.s.Spent
	p.until = min(begin+work, h.until)
	for part := 0; ok && part < pressedParts && p.k != nil && p.s.Spent < p.until && h.ctx.Err() == nil; part++ {
		p.press(part)
	}
	s.Spent = p.s.Spent
	if !p.cost.Less(cost) {
		return s.Spent - begin, false
	}
	for _, j := range free {
		s.Remove(j)
	}
	for _, j := range p.s.Jobs {
		s.Add(j)
	}
	return s.Spent - begin, true
}
