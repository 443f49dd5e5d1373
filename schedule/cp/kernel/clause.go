package kernel

import "slices"

// clause is a set of literals of which one must hold. The first two are watched.
type clause struct {
	lits    []Lit
	learned bool
	used    int64 // the conflict that it was last resolved on in
	spread  int32 // levels among its literals when it was learned
}

// watcher is a clause that waits for one of its literals to become false; other
// is another of its literals: while it is true there is nothing to do.
type watcher struct {
	clause int32
	other  Lit
}

// waiting is a view's watchers by the bound at which their literal is false; at is
// sorted and lists runs beside it.
type waiting struct {
	at    []int32
	lists [][]watcher
}

// after is the first place whose bound is above v.
func (w *waiting) after(v int32) int {
	lo, hi := 0, len(w.at)
	for lo < hi {
		mid := (lo + hi) / 2
		if w.at[mid] <= v {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// add puts a watcher where it belongs.
func (w *waiting) add(falseAt int32, one watcher) {
	k := w.after(falseAt)
	if k > 0 && w.at[k-1] == falseAt {
		w.lists[k-1] = append(w.lists[k-1], one)
		return
	}
	w.at = append(w.at, 0)
	copy(w.at[k+1:], w.at[k:])
	w.at[k] = falseAt
	w.lists = append(w.lists, nil)
	copy(w.lists[k+1:], w.lists[k:])
	w.lists[k] = []watcher{one}
}

// AddClause adds a clause with no decision in force; it reports false when the
// constraints are contradictory.
func (s *Solver) AddClause(lits ...Lit) bool {
	s.backTo(0)
	s.toldStated(lits)
	if slices.ContainsFunc(lits, s.True) {
		return true
	}
	kept := make([]Lit, 0, len(lits))
	for _, l := range lits {
		if !s.False(l) && !slices.Contains(kept, l) {
			kept = append(kept, l)
		}
	}
	switch len(kept) {
	case 0:
		s.unsat = true
	case 1:
		s.unsat = !s.Enqueue(kept[0], s.Because()) || s.unsat
	default:
		s.attach(s.store(clause{lits: kept}))
	}
	return !s.unsat
}

func (s *Solver) store(c clause) int32 {
	if n := len(s.freed); n > 0 {
		at := s.freed[n-1]
		s.freed = s.freed[:n-1]
		s.clauses[at] = c
		return at
	}
	s.clauses = append(s.clauses, c)
	return int32(len(s.clauses) - 1)
}

func (s *Solver) attach(at int32) {
	lits := s.clauses[at].lits
	s.watch(lits[0], at, lits[1])
	s.watch(lits[1], at, lits[0])
}

func (s *Solver) watch(l Lit, at int32, other Lit) {
	s.watches[l.B^1].add(1-l.V, watcher{at, other})
}

// visit propagates the clauses that watch a literal which the change of view b
// from old to now made false.
func (s *Solver) visit(b View, old, now int32) bool {
	w := &s.watches[b]
	if n := len(w.at); n == 0 || w.at[n-1] <= old {
		return true
	}
	// Watches that are moved here wait for higher bounds, so that k stays right.
	for k := w.after(old); k < len(w.at) && w.at[k] <= now; k++ {
		if !s.visitAt(b, k) {
			return false
		}
	}
	return true
}

// visitAt propagates the clauses whose watched literal is false from the k-th bound
// on. New watches never land in the list that is walked: its literal is false.
func (s *Solver) visitAt(b View, k int) bool {
	w := &s.watches[b]
	list := w.lists[k]
	gone := Lit{b, w.at[k]}.Not()
	kept := 0
	ok := true
	for i := 0; i < len(list); i++ {
		one := list[i]
		if !ok || s.low[one.other.B] >= one.other.V {
			list[kept] = one
			kept++
			continue
		}
		moved, fine := s.visitOne(&one, gone)
		ok = fine
		if !moved {
			list[kept] = one
			kept++
		}
	}
	w.lists[k] = list[:kept]
	return ok
}

// visitOne looks for another literal to watch; moved when it found one.
func (s *Solver) visitOne(w *watcher, gone Lit) (moved, ok bool) {
	c := &s.clauses[w.clause]
	s.Counted.Clauses++
	if c.lits[0] == gone {
		c.lits[0], c.lits[1] = c.lits[1], c.lits[0]
	}
	first := c.lits[0]
	if s.low[first.B] >= first.V {
		w.other = first
		return false, true
	}
	lits := c.lits
	for k := 2; k < len(lits); k++ {
		if l := lits[k]; s.low[l.B^1] < 1-l.V {
			lits[1], lits[k] = l, lits[1]
			s.watch(l, w.clause, first)
			return true, true
		}
	}
	return false, s.Enqueue(first, reason{w.clause, whyClause})
}
