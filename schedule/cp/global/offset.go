package global

import "ripeby/schedule/cp/kernel"

// offset keeps y = x + table[size], by bounds: each of the three follows from the
// bounds of the other two. Cost: O(log sizes) a call.
type offset struct {
	x, y kernel.Var
	size Amount
	lits []kernel.Lit
}

// AddOffset states y = x + table[size]; the table rises or is of length 1.
func AddOffset(s *kernel.Solver, x kernel.Var, size Amount, y kernel.Var) {
	if !size.sized() {
		add := int32(0)
		if len(size.Table) == 1 {
			add = size.Table[0]
		}
		s.AddArc(x, y, add)
		s.AddArc(y, x, -add)
		return
	}
	o := &offset{x: x, y: y, size: size}
	s.AddPropagator(o, 0, once(both(both(both(nil, x), y), size.By))...)
}

// Propagate implements [kernel.Propagator].
func (o *offset) Propagate(s *kernel.Solver) bool {
	return o.later(s) && o.earlier(s) && o.larger(s) && o.smaller(s)
}

// later raises y by x, and lowers x by y, with the least amount.
func (o *offset) later(s *kernel.Solver) bool {
	add := o.size.least(s)
	if v := s.Min(o.x) + add; s.Min(o.y) < v {
		o.lits, _ = o.size.sure(append(o.lits[:0], o.x.Ge(v-add)), add, 0)
		if !s.Enqueue(o.y.Ge(v), s.Because(o.lits...)) {
			return false
		}
	}
	if v := s.Max(o.y) - add; s.Max(o.x) > v {
		o.lits, _ = o.size.sure(append(o.lits[:0], o.y.Le(v+add)), add, 0)
		return s.Enqueue(o.x.Le(v), s.Because(o.lits...))
	}
	return true
}

// earlier lowers y by x, and raises x by y, with the greatest amount.
func (o *offset) earlier(s *kernel.Solver) bool {
	add := o.size.most(s)
	if v := s.Max(o.x) + add; s.Max(o.y) > v {
		o.lits = o.size.sureMost(append(o.lits[:0], o.x.Le(v-add)), add)
		if !s.Enqueue(o.y.Le(v), s.Because(o.lits...)) {
			return false
		}
	}
	if v := s.Min(o.y) - add; s.Min(o.x) < v {
		o.lits = o.size.sureMost(append(o.lits[:0], o.y.Ge(v+add)), add)
		return s.Enqueue(o.x.Ge(v), s.Because(o.lits...))
	}
	return true
}

// larger raises the size until y can be as far from x as it must. The bound of y is
// weakened to what already rules out the size below.
func (o *offset) larger(s *kernel.Solver) bool {
	most := s.Max(o.x)
	k := o.size.reach(s.Min(o.y) - most)
	if k == 0 || s.Min(o.size.By) >= k {
		return true
	}
	below := o.size.of(k - 1)
	return s.Enqueue(o.size.By.Ge(k), s.Because(o.x.Le(most), o.y.Ge(most+below+1)))
}

// smaller lowers the size until y can be as near to x as it must.
func (o *offset) smaller(s *kernel.Solver) bool {
	least := s.Min(o.x)
	k := o.size.within(s.Max(o.y) - least)
	if int(k) >= len(o.size.Table)-1 || s.Max(o.size.By) <= k {
		return true
	}
	above := o.size.of(k + 1)
	premises := [2]kernel.Lit{o.x.Ge(least), o.y.Le(least + above - 1)}
	if k < 0 {
		return s.Fail(premises[:]...)
	}
	return s.Enqueue(o.size.By.Le(k), s.Because(premises[:]...))
}
