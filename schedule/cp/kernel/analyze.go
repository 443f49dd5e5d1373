package kernel

import "slices"

// analyze resolves the conflict into a clause with one literal of the present
// level, first, and gives the level to go back to.
//
// need[b] is the strongest literal wanted of view b. Going down the trail, an
// entry that lifted its view from below need[b] is where that literal became true;
// it is replaced by its premises until it is the only one left of this level.
func (s *Solver) analyze() (learned []Lit, level int) {
	if !s.lower() {
		return nil, -1
	}
	start := s.levels[len(s.levels)-1].trail
	open := 0
	for _, l := range s.conflict {
		open += s.want(l, start)
	}
	var scratch []Lit
	at := int32(len(s.trail) - 1)
	for ; ; at-- {
		e := &s.trail[at]
		if s.need[e.b] <= e.old || s.need[e.b] == unset {
			continue
		}
		l := Lit{e.b, s.need[e.b]}
		if open == 1 {
			learned = append(learned, l.Not())
			s.drop(e.b)
			break
		}
		s.drop(e.b)
		open--
		s.resolved(l, e.why)
		scratch = s.premises(scratch[:0], l, e.why)
		for _, p := range scratch {
			open += s.want(p, start)
		}
	}
	learned, level = s.collect(learned)
	s.bump(learned)
	return learned, level
}

// resolved notes that a literal was resolved on: its clause is of use, and its atom
// is worth branching on where it has one.
func (s *Solver) resolved(l Lit, why reason) {
	if why.n == whyClause {
		s.clauses[why.at].used = s.Counted.Conflicts
	}
	if l.B&1 != 0 {
		l = l.Not()
	}
	if k, named := s.atoms.number[l]; named {
		s.atoms.raise(k)
	}
}

// lower goes back to the highest level among the conflict's literals: a propagator
// may notice late what was wrong before the last decision. It reports false when
// the conflict needs no decision at all.
func (s *Solver) lower() bool {
	level := 0
	for _, l := range s.conflict {
		if l.V > s.root[l.B] {
			level = max(level, s.levelOf(s.madeTrue(l)))
		}
	}
	s.backTo(level)
	return level > 0
}

// want adds a true literal to the set; it reports 1 when the set got one more
// literal of the present level.
func (s *Solver) want(l Lit, start int32) int {
	if l.V <= s.root[l.B] || (s.need[l.B] != unset && s.need[l.B] >= l.V) {
		return 0
	}
	if s.need[l.B] == unset {
		s.touched = append(s.touched, l.B)
	}
	was := s.present[l.B]
	s.need[l.B] = l.V
	s.present[l.B] = s.madeTrue(l) >= start
	if s.present[l.B] && !was {
		return 1
	}
	return 0
}

func (s *Solver) drop(b View) {
	s.need[b] = unset
	s.present[b] = false
}

// collect gathers what is left of earlier levels, less what the rest implies, and
// finds the highest level among it.
func (s *Solver) collect(learned []Lit) ([]Lit, int) {
	s.members = s.members[:0]
	for _, b := range s.touched {
		if s.need[b] != unset {
			s.members = append(s.members, member{s.madeTrue(Lit{b, s.need[b]}), b})
		}
	}
	slices.SortFunc(s.members, func(x, y member) int { return int(x.at - y.at) })
	s.members = slices.Compact(s.members) // a view may have been touched twice
	level := 0
	for _, m := range s.members {
		l := Lit{m.b, s.need[m.b]}
		s.question = m.at
		if m.at >= 0 && s.redundant(l, m.at, minimizeDepth) {
			continue
		}
		learned = append(learned, l.Not())
		if lv := s.levelOf(m.at); lv > level {
			level = lv
			k := len(learned) - 1
			learned[1], learned[k] = learned[k], learned[1]
		}
	}
	for _, b := range s.touched {
		s.drop(b)
	}
	s.touched = s.touched[:0]
	return learned, level
}

// learn goes back and adds the clause; its first literal follows at once.
func (s *Solver) learn(lits []Lit, level int) {
	s.backTo(level)
	if len(lits) == 1 {
		if !s.Enqueue(lits[0], s.Because()) {
			s.unsat = true
		}
		return
	}
	spread := s.spread(lits)
	at := s.store(clause{lits: append([]Lit(nil), lits...), learned: true, used: s.Counted.Conflicts, spread: spread})
	s.learned = append(s.learned, at)
	s.attach(at)
	s.Enqueue(lits[0], reason{at, whyClause})
}

// spread counts the levels among a clause's false literals.
func (s *Solver) spread(lits []Lit) int32 {
	n := int32(0)
	prev := -1
	for _, l := range lits[1:] {
		if lv := s.levelOf(s.madeTrue(l.Not())); lv != prev {
			n++
			prev = lv
		}
	}
	return n + 1
}
