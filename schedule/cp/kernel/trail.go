package kernel

// entry is one change of a bound.
type entry struct {
	b      View
	v, old int32
	prev   int32 // the view's entry before, -1 for none
	why    reason
}

// reason tells why a bound changed. With n >= 0 the premises are arena[at:at+n].
type reason struct {
	at int32
	n  int32
}

// The kinds of reason beside arena premises.
const (
	whyDecision = -1
	whyClause   = -2 // at is a clause; its first literal is the one implied
	whyArc      = -3 // at is an arc
)

// levelMark is where the trail and the arena stood at a decision, and its number.
type levelMark struct {
	trail, arena int32
	number       int64
}

// Because stores premises and gives the reason that they are; the literals must
// all be true now.
func (s *Solver) Because(premises ...Lit) reason {
	at := int32(len(s.arena))
	s.arena = append(s.arena, premises...)
	return reason{at, int32(len(premises))}
}

// Enqueue makes the literal true for the reason. It reports false, with the
// conflict noted, when its negation holds.
func (s *Solver) Enqueue(l Lit, why reason) bool {
	if s.low[l.B] >= l.V {
		return true
	}
	if s.low[l.B^1] >= 1-l.V {
		s.conflict = append(s.conflict[:0], l.Not())
		s.conflict = s.premises(s.conflict, l, why)
		return false
	}
	if s.audit != nil {
		s.premises(nil, l, why)
	}
	s.trail = append(s.trail, entry{l.B, l.V, s.low[l.B], s.last[l.B], why})
	s.last[l.B] = int32(len(s.trail) - 1)
	s.low[l.B] = l.V
	if len(s.levels) == 0 {
		s.root[l.B] = l.V
	}
	s.Counted.Bounds++
	return true
}

// premises appends the premises from which l, which an entry with that reason
// made true, follows.
func (s *Solver) premises(out []Lit, l Lit, why reason) []Lit {
	from := len(out)
	switch why.n {
	case whyDecision:
	case whyClause:
		for _, o := range s.clauses[why.at].lits[1:] {
			out = append(out, o.Not())
		}
	case whyArc:
		a := &s.arcs[why.at]
		out = append(out, Lit{a.from, l.V - a.add})
		if a.guarded {
			out = append(out, a.guard)
		}
	default:
		out = append(out, s.arena[why.at:why.at+why.n]...)
	}
	s.told(l, why, out[from:])
	return out
}

// decide opens a level with a literal.
func (s *Solver) decide(l Lit) {
	s.levels = append(s.levels, levelMark{int32(len(s.trail)), int32(len(s.arena)), s.Counted.Decisions})
	s.Counted.Decisions++
	s.Enqueue(l, reason{0, whyDecision})
}

// backTo undoes all levels above the given one.
func (s *Solver) backTo(level int) {
	if level >= len(s.levels) {
		return
	}
	mark := s.levels[level]
	for i := len(s.trail) - 1; i >= int(mark.trail); i-- {
		e := &s.trail[i]
		s.low[e.b] = e.old
		s.last[e.b] = e.prev
		s.atoms.wake(s, e.b, e.old, e.v)
	}
	s.trail = s.trail[:mark.trail]
	s.arena = s.arena[:mark.arena]
	s.levels = s.levels[:level]
	s.head = len(s.trail)
	for p := range s.queues {
		q := &s.queues[p]
		for _, k := range q.list[q.head:] {
			s.props[k].queued = false
		}
		q.list, q.head = q.list[:0], 0
	}
}

// levelOf is the level of a trail entry.
func (s *Solver) levelOf(at int32) int {
	lo, hi := 0, len(s.levels)
	for lo < hi {
		mid := (lo + hi) / 2
		if s.levels[mid].trail <= at {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// madeTrue is the trail entry that made a true literal true, -1 for the root.
func (s *Solver) madeTrue(l Lit) int32 {
	at := s.last[l.B]
	for at >= 0 && s.trail[at].old >= l.V {
		at = s.trail[at].prev
	}
	return at
}
