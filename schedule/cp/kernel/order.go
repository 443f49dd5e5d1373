package kernel

// Order decides variables in an order, each toward a value where there are such, and leaves open what
// does not matter. It is for [Solver.Branch].
type Order struct {
	Toward []int32 // a value of each variable; nil for the least of each
	items  []orderItem
	past   []past // for levels that rise, how far the items are done with
}

// orderItem is a variable that matters while a literal is not false.
type orderItem struct {
	x    Var
	when Lit
}

// past is that all items before a place were decided, or did not matter, at a level of the search.
type past struct {
	level, place int
	decision     int64 // that opened the level; -1 for level 0
}

// Put adds a variable that matters while a literal is not false.
func (o *Order) Put(x Var, when Lit) { o.items = append(o.items, orderItem{x, when}) }

// Next is the next decision.
func (o *Order) Next(s *Solver) (Lit, bool) {
	i := o.resume(s)
	for ; i < len(o.items); i++ {
		if it := &o.items[i]; !s.Fixed(it.x) && !s.False(it.when) {
			break
		}
	}
	o.leave(s, i)
	if i == len(o.items) {
		return Lit{}, false
	}
	x := o.items[i].x
	lo, hi := s.Min(x), s.Max(x)
	v := lo
	if o.Toward != nil {
		v = min(max(o.Toward[x], lo), hi)
	}
	if v > lo {
		return x.Ge(v), true
	}
	return x.Le(v), true
}

// resume is the place to look on from: what was done with under decisions that are still in force.
func (o *Order) resume(s *Solver) int {
	for n := len(o.past); n > 0; n = len(o.past) {
		if p := &o.past[n-1]; p.level <= len(s.levels) && s.opened(p.level) == p.decision {
			return p.place
		}
		o.past = o.past[:n-1]
	}
	return 0
}

// leave notes that the items before a place are done with at the present level.
func (o *Order) leave(s *Solver, place int) {
	level := len(s.levels)
	if n := len(o.past); n > 0 && o.past[n-1].level == level {
		o.past[n-1].place = place
		return
	}
	o.past = append(o.past, past{level, place, s.opened(level)})
}

// opened is the number of the decision that opened a level, of all that were ever made; -1 for level 0.
// While a level is open with one number, nothing that held in it is taken back.
func (s *Solver) opened(level int) int64 {
	if level == 0 {
		return -1
	}
	return s.levels[level-1].number
}
