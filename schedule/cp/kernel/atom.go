package kernel

import "slices"

// atoms are the literals that learned clauses name, each with its activity and
// the side it was last on. Heap orders them by activity, then by number.
type atoms struct {
	lit      []Lit // of the even view
	activity []float64
	phase    []bool
	where    []int32 // place in the heap, -1 when not in it
	heap     []int32
	number   map[Lit]int32
	ofVar    [][]int32 // a variable's atoms by rising value
	bumpBy   float64
}

// decay is how much of its activity an atom keeps from one conflict to the next;
// found by trying 0.9, 0.95 and 0.98 on hard instances.
const decay = 0.9

// atom gives the number of a literal, making it if need be, and whether the
// literal is its positive side.
func (s *Solver) atom(l Lit) (int32, bool) {
	positive := l.B&1 == 0
	if !positive {
		l = l.Not()
	}
	a := &s.atoms
	if a.number == nil {
		a.number = map[Lit]int32{}
		a.bumpBy = 1
	}
	k, known := a.number[l]
	if !known {
		k = int32(len(a.lit))
		a.number[l] = k
		a.lit = append(a.lit, l)
		a.activity = append(a.activity, 0)
		a.phase = append(a.phase, int(l.B) < len(s.guide) && s.guide[l.B] >= l.V)
		a.where = append(a.where, -1)
		x := int(l.B.Var())
		for len(a.ofVar) <= x {
			a.ofVar = append(a.ofVar, nil)
		}
		at := a.after(x, l.V)
		a.ofVar[x] = slices.Insert(a.ofVar[x], at, k)
		a.push(k)
	}
	return k, positive
}

// bump raises the activity of a clause's atoms.
func (s *Solver) bump(lits []Lit) {
	a := &s.atoms
	for _, l := range lits {
		k, _ := s.atom(l)
		a.raise(k)
	}
	a.bumpBy /= decay
}

// raise lifts an atom's activity by what one conflict is worth now.
func (a *atoms) raise(k int32) {
	a.activity[k] += a.bumpBy
	if a.activity[k] > 1e100 {
		for i := range a.activity {
			a.activity[i] *= 1e-100
		}
		a.bumpBy *= 1e-100
	}
	if a.where[k] >= 0 {
		a.up(int(a.where[k]))
	}
}

// wake puts the atoms that a change of view b from old to v decided back into
// the heap, remembering the side they were on.
func (a *atoms) wake(s *Solver, b View, old, v int32) {
	x := int(b.Var())
	if x >= len(a.ofVar) {
		return
	}
	// Of the even view those above old up to v; of the odd one, where an atom is
	// false from 1-V on, those from 1-v to below 1-old.
	up := b&1 == 0
	if !up {
		old, v = -v, -old
	}
	list := a.ofVar[x]
	for at := a.after(x, old); at < len(list) && a.lit[list[at]].V <= v; at++ {
		a.phase[list[at]] = up
		a.push(list[at])
	}
}

// after is the place of a variable's first atom above v.
func (a *atoms) after(x int, v int32) int {
	list := a.ofVar[x]
	lo, hi := 0, len(list)
	for lo < hi {
		mid := (lo + hi) / 2
		if a.lit[list[mid]].V <= v {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// pop gives the most active atom that is still open as a literal on its last
// side; false when there is none.
func (s *Solver) popAtom() (Lit, bool) {
	a := &s.atoms
	for len(a.heap) > 0 {
		k := a.heap[0]
		a.remove()
		l := a.lit[k]
		if s.True(l) || s.False(l) {
			continue
		}
		if a.phase[k] {
			return l, true
		}
		return l.Not(), true
	}
	return Lit{}, false
}
