package kernel

// arc says that view to is at least view from plus add, while guard holds.
type arc struct {
	from, to View
	add      int32
	guard    Lit
	guarded  bool
}

// AddArc states y >= x + add, both ways round: also x <= y - add.
func (s *Solver) AddArc(x, y Var, add int32) bool {
	s.backTo(0)
	s.arc(arc{from: x.Up(), to: y.Up(), add: add})
	s.arc(arc{from: y.Down(), to: x.Down(), add: add})
	return s.touch(x.Up()) && s.touch(y.Down())
}

// AddArcIf states y >= x + add while guard holds. That guard is false when the
// bounds forbid the arc is stated too, by a propagator of its own.
func (s *Solver) AddArcIf(guard Lit, x, y Var, add int32) bool {
	s.backTo(0)
	s.arc(arc{x.Up(), y.Up(), add, guard, true})
	s.arc(arc{y.Down(), x.Down(), add, guard, true})
	s.AddPropagator(&guardOf{guard, x, y, add}, 0, x.Up(), y.Down(), guard.B)
	return s.touch(x.Up()) && s.touch(y.Down())
}

func (s *Solver) arc(a arc) {
	s.arcs = append(s.arcs, a)
	s.arcsOf[a.from] = append(s.arcsOf[a.from], int32(len(s.arcs)-1))
}

// touch propagates the arcs of a view at the root.
func (s *Solver) touch(b View) bool {
	if !s.follow(b) {
		s.unsat = true
	}
	return !s.unsat
}

// follow propagates the arcs out of a view.
func (s *Solver) follow(b View) bool {
	v := s.low[b]
	for _, k := range s.arcsOf[b] {
		a := &s.arcs[k]
		if a.guarded && s.low[a.guard.B] < a.guard.V {
			continue
		}
		if s.low[a.to] < v+a.add && !s.Enqueue(Lit{a.to, v + a.add}, reason{k, whyArc}) {
			return false
		}
	}
	return true
}

// guardOf makes a guard false when its arc cannot hold, and follows the arc when
// the guard comes true.
type guardOf struct {
	guard Lit
	x, y  Var
	add   int32
}

// Propagate implements [Propagator].
func (g *guardOf) Propagate(s *Solver) bool {
	if s.True(g.guard) {
		return s.follow(g.x.Up()) && s.follow(g.y.Down())
	}
	// x + add > max y forbids it: x >= v and y <= v + add - 1.
	if v := s.Min(g.x); v+g.add > s.Max(g.y) && !s.False(g.guard) {
		return s.Enqueue(g.guard.Not(), s.Because(g.x.Ge(v), g.y.Le(v+g.add-1)))
	}
	return true
}
