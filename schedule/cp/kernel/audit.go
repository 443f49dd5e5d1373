package kernel

// Audit is told of the steps of a search as they are taken, so that each can be
// checked by itself: against all solutions of a small model, or by a proof checker.
// A nil function is not called. The slices are lent for the call only.
type Audit struct {
	// Implied: the literal was said to follow from the premises, all true now.
	Implied func(l Lit, premises []Lit)
	// Conflict: the premises, all true now, were said to be impossible together.
	Conflict func(premises []Lit)
	// Learned: one of the literals was said to hold in every solution.
	Learned func(clause []Lit)
	// Stated: the caller added a clause, which holds from now on.
	Stated func(clause []Lit)
}

// SetAudit has the steps from now on told to a; nil ends that. It slows a search
// down, and changes nothing else of it.
func (s *Solver) SetAudit(a *Audit) { s.audit = a }

// told tells the audit of an implied literal; a decision is none.
func (s *Solver) told(l Lit, why reason, premises []Lit) {
	if s.audit != nil && s.audit.Implied != nil && why.n != whyDecision {
		s.audit.Implied(l, premises)
	}
}

func (s *Solver) toldConflict() {
	if s.audit != nil && s.audit.Conflict != nil {
		s.audit.Conflict(s.conflict)
	}
}

func (s *Solver) toldLearned(lits []Lit) {
	if s.audit != nil && s.audit.Learned != nil {
		s.audit.Learned(lits)
	}
}

func (s *Solver) toldStated(lits []Lit) {
	if s.audit != nil && s.audit.Stated != nil {
		s.audit.Stated(lits)
	}
}
