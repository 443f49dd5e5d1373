package rules

import "ripeby/schedule/cp/kernel"

// Excess is a cost: each step of the view above Over costs Weight. What is late is
// an excess of a start, what is early one of its negative.
type Excess struct {
	At     kernel.View
	Over   int32
	Weight int32
}

// cost is the least cost now.
func (e Excess) cost(s *kernel.Solver) int32 { return e.Weight * max(0, s.Low(e.At)-e.Over) }

// Excesses keeps a sum of costs at most at a total:
//
//	fixed + sum of Weight x max(0, At - Over) <= total
//
// The total's lower bound follows the sum, and each view is kept below what the
// total leaves for it. Explanations leave out, and then weaken, costs as far as what
// is spared of the total allows. Cost: O(terms) a call and O(terms) a change.
type Excesses struct {
	fixed int32
	terms []Excess
	total kernel.Var
	lits  []kernel.Lit
	kept  []int // terms of the literals of an explanation
}

// AddExcesses adds the constraint.
func AddExcesses(s *kernel.Solver, terms []Excess, total kernel.Var) *Excesses {
	e := &Excesses{terms: terms, total: total}
	s.AddPropagator(e, 1, append(views(terms), total.Down())...)
	return e
}

func views(terms []Excess) []kernel.View {
	var out []kernel.View
	for _, t := range terms {
		out = append(out, t.At)
	}
	return out
}

// Propagate implements [kernel.Propagator].
func (e *Excesses) Propagate(s *kernel.Solver) bool {
	sum := e.fixed
	for i := range e.terms {
		sum += e.terms[i].cost(s)
	}
	most := s.Max(e.total)
	if sum > most {
		e.lits = e.explain(s, append(e.lits[:0], e.total.Le(most)), -1, sum-most-1)
		return s.Fail(e.lits...)
	}
	if sum > s.Min(e.total) {
		e.lits = e.explain(s, e.lits[:0], -1, 0)
		if !s.Enqueue(e.total.Ge(sum), s.Because(e.lits...)) {
			return false
		}
	}
	for i := range e.terms {
		t := &e.terms[i]
		room := most - sum + t.cost(s)
		fits := room / t.Weight
		limit := kernel.Lit{B: t.At.Opposite(), V: -(t.Over + fits)}
		if s.True(limit) {
			continue
		}
		spare := t.Weight*(fits+1) - room - 1
		e.lits = e.explain(s, append(e.lits[:0], e.total.Le(most)), i, spare)
		if !s.Enqueue(limit, s.Because(e.lits...)) {
			return false
		}
	}
	return true
}

// explain appends the literals by which the terms but one cost what they do, less
// what may be spared.
func (e *Excesses) explain(s *kernel.Solver, out []kernel.Lit, except int, spare int32) []kernel.Lit {
	from := len(out)
	e.kept = e.kept[:0]
	for i := range e.terms {
		t := &e.terms[i]
		base := max(t.Over, s.Root(t.At))
		over := s.Low(t.At) - base
		if i == except || over <= 0 {
			continue
		}
		if c := over * t.Weight; c <= spare {
			spare -= c
			continue
		}
		out = append(out, kernel.Lit{B: t.At, V: s.Low(t.At)})
		e.kept = append(e.kept, i)
	}
	// Lower what is left, as far as there is something to spare.
	for k, i := range e.kept {
		t := &e.terms[i]
		steps := spare / t.Weight // less than what it is over, or it would be left out
		out[from+k].V -= steps
		spare -= steps * t.Weight
	}
	return out
}
