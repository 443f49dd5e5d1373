package kernel

// minimizeDepth is how far back a literal's premises are followed to see that the
// rest of a clause implies it. Sörensson and Biere, "Minimizing learned clauses"
// (2009), follow them to the end; beyond some depth little is found.
const minimizeDepth = 12

// verdict is what is known of a trail entry while one clause is minimized: up to
// which value it follows from the clause, or that it does not.
type verdict struct {
	stamp int64
	upTo  int32
	fails bool
}

// The literals of a set are put in question in trail order, so that what was found
// of an entry for one still holds for the next.

// redundant reports whether a literal of the set, made true at a trail entry,
// follows from the rest of it. Premises lie earlier on the trail, so a literal
// is never used to justify itself.
func (s *Solver) redundant(l Lit, at int32, depth int) bool {
	why := s.trail[at].why
	if why.n == whyDecision || depth == 0 {
		return false
	}
	from := len(s.pending)
	s.pending = s.premises(s.pending, l, why)
	ok := true
	for k := from; k < len(s.pending) && ok; k++ {
		ok = s.follows(s.pending[k], depth-1)
	}
	s.pending = s.pending[:from]
	return ok
}

// follows reports whether a true literal follows from the set and the root.
func (s *Solver) follows(p Lit, depth int) bool {
	if p.V <= s.root[p.B] {
		return true
	}
	// A literal of the set helps only if it came true before the one in question:
	// else two could each be left out because of the other.
	if s.need[p.B] != unset && s.need[p.B] >= p.V && s.madeTrue(Lit{p.B, s.need[p.B]}) < s.question {
		return true
	}
	at := s.madeTrue(p)
	for int(at) >= len(s.verdicts) {
		s.verdicts = append(s.verdicts, verdict{})
	}
	v := &s.verdicts[at]
	if v.stamp == s.Counted.Conflicts {
		if v.fails {
			return false
		}
		if p.V <= v.upTo {
			return true
		}
	}
	ok := s.redundant(p, at, depth)
	v = &s.verdicts[at]
	if ok || depth > 0 {
		*v = verdict{s.Counted.Conflicts, p.V, !ok}
	}
	return ok
}
