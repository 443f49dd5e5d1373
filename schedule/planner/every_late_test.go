package planner_test

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// What has begun may run late. The listing reads the contract for itself: how late a hold
// is, how long the next stage is waited for, and what comes by itself.

// everyPatience is how long after the planning start the next stage of what has begun may
// come, unless the running hold may last longer.
const everyPatience = 60 * resources.Day

// never is a moment after all others.
const never = resources.Moment(1) << 50

// lateUnit is one tenth of lateness as the listing counts it: of two plans that are equally late the
// one with fewer holds past their most is better, so each of those counts one on top.
const lateUnit = 100

// lateness is the whole tenths of its most, or of two hours, by which a hold is over it, and one
// more of the least that counts where it is over it at all.
func lateness(over, most resources.Minutes) int64 {
	if over <= 0 {
		return 0
	}
	n := int64(0)
	for n < 999 && resources.Minutes(n+1)*max(most, 120) <= 10*over {
		n++
	}
	return n*lateUnit + 1
}

// inTenths is a score of the listing as the contract has it.
func inTenths(s schedule.Score) schedule.Score {
	s.Late /= lateUnit
	return s
}

// counted is a plan's score as the listing counts it.
func counted(p *schedule.Problem, plan *schedule.Plan) everyScore {
	s := everyScore{stuckIn(plan), plan.Score}
	s.Late *= lateUnit
	for i := range plan.Batches {
		b := &plan.Batches[i]
		r := p.RecipeOf(b.ID, b.Cheese)
		stuck := plan.Warned("begun-stuck", b.ID)
		for k := range b.Stages {
			t := &b.Stages[k]
			if !b.Begun || k == len(r.Stages)-1 || stuck && k == len(b.Stages)-1 || t.Ends < p.From {
				continue
			}
			most := resources.Minutes(0)
			if h := (&everyWorld{p: p}).warm(r.Stages[k].Hold, t.Start.Add(t.Work)); h != nil {
				most = resources.FloorLength(h.Most, p.Kitchen.Step)
			}
			if t.Hold > most {
				s.Late++
			}
		}
	}
	return s
}

// comesByItself reports whether stage i begins when the hold before it is over, since nobody
// is needed for it. That packed cheese is ready does not.
func (l *lister) comesByItself(i int) bool {
	if i == 0 || i == len(l.r.Stages)-1 || l.workOf(i) > 0 {
		return false
	}
	_, most := l.limits(l.r.Stages[i-1].Hold)
	return most > 0
}

// latestOf is when each stage still to come of what has begun may begin at the latest.
func (l *lister) latestOf() []resources.Moment {
	out := make([]resources.Moment, len(l.r.Stages))
	running := len(l.fixed) - 1
	began := l.fixed[running].Add(l.workOf(running))
	_, most := l.limits(l.warm(l.r.Stages[running].Hold, began))
	over := began.Add(most)
	at := max(l.from.Add(everyPatience), over)
	for i := running + 1; i < len(out); i++ {
		out[i] = at
		at = at.Add(l.workOf(i) + l.longestEver(l.r.Stages[i].Hold))
	}
	return out
}

// waited is how long stage i need be waited for: no longer than somebody is there for what
// work is left.
func (l *lister) waited(i int) resources.Moment {
	for k := i; k < len(l.r.Stages); k++ {
		if l.r.Stages[k].Hands != nil {
			return min(l.latest[i], l.there)
		}
	}
	return l.latest[i]
}

// leave adds the way of leaving what has begun where it is.
func (l *lister) leave() {
	w := &l.now
	cost := spent{late: 1000 * lateUnit}
	w.starts, w.works, w.who = nil, nil, nil
	for i, t := range l.fixed {
		work := l.workOf(i)
		if i+1 < len(l.fixed) {
			next := l.fixed[i+1]
			if hold := next.Sub(t.Add(work)); next >= l.from {
				h := l.warm(l.r.Stages[i].Hold, t.Add(work))
				_, most := l.limits(h)
				cost.bother += l.offHold(h, hold)
				cost.late += lateness(hold-most, most)
			}
		}
		w.starts, w.works = append(w.starts, t), append(w.works, work)
		w.who = append(w.who, l.hands(i, resources.Span{From: t, Until: t.Add(work)})[0])
	}
	w.packed, w.end, w.bother, w.late, w.begins, w.stuck = never, -never, cost.bother, cost.late, 0, true
	all := l.runs
	l.runs = nil
	for _, run := range all {
		if run.first < len(l.fixed) {
			l.runs = append(l.runs, run)
		}
	}
	l.fetch()
	l.runs, w.stuck = all, false
}
