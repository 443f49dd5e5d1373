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

// Listener is a propagator that is told what woke it, so that it need not run for
// every rise.
type Listener interface {
	Propagator
	// Hear is told that a view rose: which one, by its place among those given to
	// AddPropagator. It reports whether the propagator is to run for it; where that
	// depends on other bounds, they must wake it too.
	Hear(s *Solver, place int32) bool
}

// waking is a propagator that a view wakes, and the view's place in its list.
type waking struct{ prop, place int32 }

// priorities is the number of queues: 0 runs before 1 before 2 before 3.
const priorities = 4

type prop struct {
	p        Propagator
	hears    Listener // the same; nil where it does not listen
	priority int8
	queued   bool
}

// AddPropagator adds a propagator that is woken when the bound of one of the views
// rises. It runs for the first time with the next search.
func (s *Solver) AddPropagator(p Propagator, priority int, wake ...View) {
	k := int32(len(s.props))
	hears, _ := p.(Listener)
	s.props = append(s.props, prop{p: p, hears: hears, priority: int8(priority)})
	for place, b := range wake {
		s.wakes[b] = append(s.wakes[b], waking{k, int32(place)})
	}
	s.enqueueProp(k)
}

func (s *Solver) enqueueProp(k int32) {
	p := &s.props[k]
	if !p.queued {
		p.queued = true
		s.queues[p.priority].put(k)
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
			for _, w := range s.wakes[e.b] {
				if l := s.props[w.prop].hears; l == nil || l.Hear(s, w.place) {
					s.enqueueProp(w.prop)
				}
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
		if k, some := s.queues[p].next(); some {
			return k
		}
	}
	return -1
}

// queue is propagators that wait, first in, first out: those of list from head on.
type queue struct {
	list []int32
	head int
}

func (q *queue) put(k int32) {
	if len(q.list) == cap(q.list) && 2*q.head > len(q.list) { // move up rather than take more memory
		q.list = q.list[:copy(q.list, q.list[q.head:])]
		q.head = 0
	}
	q.list = append(q.list, k)
}

func (q *queue) next() (k int32, some bool) {
	if q.head == len(q.list) {
		q.list, q.head = q.list[:0], 0
		return -1, false
	}
	q.head++
	return q.list[q.head-1], true
}
