package kernel

import "context"

// Status is what a search found out.
type Status int

// The answers of a search.
const (
	Unknown    Status = iota // the budget ran out
	Solved                   // a solution was found; see Value
	Impossible               // there is none; under assumptions, see Core
)

// String names the status.
func (st Status) String() string { return [...]string{"unknown", "solved", "impossible"}[st] }

// pollEvery is how many decisions are made between looks at the context.
const pollEvery = 64

// lookShare is how many looks of propagators at their own tables are one unit of counted work.
const lookShare = 64

// Work is the counted work so far: bounds changed, clauses and propagators run, and what these looked at.
func (s *Solver) Work() int64 {
	return s.Counted.Bounds + s.Counted.Clauses + 4*s.Counted.Wakes + s.Counted.Looks/lookShare
}

// Search looks for one solution. It stops, Unknown, when the counted work since
// its start passes the budget or ctx ends.
func (s *Solver) Search(ctx context.Context, budget int64, assume ...Lit) Status {
	s.backTo(0)
	end := s.Work() + budget
	free := s.limits.turns >= 1
	since := int64(0)
	for !s.unsat {
		if !s.propagate() {
			s.Counted.Conflicts++
			s.toldConflict()
			since++
			if len(s.levels) == 0 {
				s.unsat = true
				break
			}
			lits, level := s.analyze()
			if level < 0 {
				s.unsat = true
				break
			}
			s.toldLearned(lits)
			s.learn(lits, level)
			continue
		}
		if s.Work() >= end || (s.Counted.Decisions%pollEvery == 0 && ctx.Err() != nil) {
			s.backTo(0)
			return Unknown
		}
		if since >= s.limits.unit*luby(s.limits.turns+1) {
			since = 0
			s.limits.turns++
			s.Counted.Restarts++
			free = s.limits.turns >= 1
			s.backTo(0)
			s.recall()
			s.reduce()
			continue
		}
		if k := len(s.levels); k < len(assume) {
			if s.False(assume[k]) {
				s.blame(assume[k], assume[:k])
				s.backTo(0)
				return Impossible
			}
			s.decide(assume[k])
			continue
		}
		l, more := s.choose(free)
		if !more {
			s.keepSolution()
			s.backTo(0)
			return Solved
		}
		s.decide(l)
	}
	s.core = s.core[:0]
	return Impossible
}

// choose picks the next decision: by activity or by the model's order. False
// when every variable has its value.
func (s *Solver) choose(free bool) (Lit, bool) {
	if free {
		if l, ok := s.popAtom(); ok {
			return l, true
		}
	}
	if s.branch != nil {
		return s.branch(s)
	}
	best := View(-1)
	for _, b := range s.order {
		if -s.low[b^1] == s.low[b] {
			continue
		}
		if best < 0 || s.low[b] < s.low[best] {
			best = b
		}
	}
	if best >= 0 {
		return Lit{best, s.low[best] + 1}.Not(), true
	}
	for b := View(0); int(b) < len(s.low); b += 2 {
		if s.low[b] != -s.low[b^1] {
			return Lit{b, s.low[b] + 1}.Not(), true
		}
	}
	return Lit{}, false
}

func (s *Solver) keepSolution() {
	s.best = append(s.best[:0], s.low...)
	s.guide = append(s.guide[:0], s.low...)
	s.recall()
}

// recall puts every atom on the side that it has in the best solution, so that the
// search stays near it.
func (s *Solver) recall() {
	for k, l := range s.atoms.lit {
		if int(l.B) < len(s.guide) {
			s.atoms.phase[k] = s.guide[l.B] >= l.V
		}
	}
}
