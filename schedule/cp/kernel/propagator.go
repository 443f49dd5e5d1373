package kernel

// Propagator narrows bounds. Checklist for writing one:
//
//   - every change goes through Enqueue with premises that are true now and from
//     which it follows; premises as weak as they can be make clauses strong;
//   - when all its variables are fixed and it does not hold, it must fail;
//   - it keeps no state that depends on bounds, or recomputes it at each call;
//   - it need not reach its own fixpoint: its own changes wake it again;
//   - it allocates nothing once it has run.
type Propagator interface {
	// Propagate reports false when Enqueue did, or after Fail.
	Propagate(s *Solver) bool
}

// priorities is the number of queues: 0 runs before 1 before 2 before 3.
const priorities = 4

type prop struct {
	p        Propagator
	priority int8
	queued   bool
}

// AddPropagator adds a propagator that is woken when the bound of one of the views
// rises. It runs for the first time with the next search.
func (s *Solver) AddPropagator(p Propagator, priority int, wake ...View) {
	k := int32(len(s.props))
	s.props = append(s.props, prop{p: p, priority: int8(priority)})
	for _, b := range wake {
		s.wakes[b] = append(s.wakes[b], k)
	}
	s.enqueueProp(k)
}

func (s *Solver) enqueueProp(k int32) {
	p := &s.props[k]
	if !p.queued {
		p.queued = true
		s.queues[p.priority] = append(s.queues[p.priority], k)
	}
}

// Fail notes a conflict: premises that are all true and cannot be together.
func (s *Solver) Fail(premises ...Lit) bool {
	s.conflict = append(s.conflict[:0], premises...)
	return false
}

// propagate brings everything to fixpoint; false on a conflict.
func (s *Solver) propagate() bool {
	for {
		for s.head < len(s.trail) {
			e := s.trail[s.head]
			s.head++
			if !s.follow(e.b) || !s.visit(e.b, e.old, e.v) {
				return false
			}
			for _, k := range s.wakes[e.b] {
				s.enqueueProp(k)
			}
		}
		k := s.nextProp()
		if k < 0 {
			return true
		}
		s.props[k].queued = false
		s.Counted.Wakes++
		if !s.props[k].p.Propagate(s) {
			return false
		}
	}
}

func (s *Solver) nextProp() int32 {
	for p := range s.queues {
		if q := s.queues[p]; len(q) > 0 {
			k := q[0]
			copy(q, q[1:])
			s.queues[p] = q[:len(q)-1]
			return k
		}
	}
	return -1
}
