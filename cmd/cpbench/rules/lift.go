package rules

import (
	"context"
	"slices"

	"ripeby/schedule/cp/kernel"
)

// Lift finds values with a least sum of excesses, from below and above by turns.
//
// From below it assumes that nothing costs. A set of assumptions that cannot hold
// together (a core) shows that the sum is at least the least weight among them; that
// much is taken off each of their weights and put on a new variable, which counts by
// how much they are over together:
//
//	3 a + 2 b + c, core {a, b}    =    2 + a + c + 2 z,   z >= a + b - 1
//
// and so on until the assumptions hold. The heavy are assumed first. Andres,
// Kaufmann, Matheis, Schaub, "Unsatisfiability-based optimization in clasp" (2012);
// Morgado, Dodaro, Marques-Silva, "Core-guided MaxSAT with soft cardinality
// constraints" (2014); Gange, Berg, Demirović, Stuckey, "Core-guided and
// core-boosted search for CP" (2020), for counting with bounds.
//
// From above every solution found limits the sum, which the new weights make felt
// sooner than the old ones.
type Lift struct {
	s     *kernel.Solver
	costs []Excess // as given
	terms []Excess // as lifted; of some the weight is 0
	sum   *Excesses
	total kernel.Var

	First int64 // counted work from above before the first from below
	Cores int   // how many were found

	least int32 // proved of the sum
	best  int32 // of the best solution, with some
	some  bool
	found func(value int32)
}

// What one question of a search from below may take, in counted work.
const (
	coreWork   = 20_000_000 // to find a core
	shrinkWork = 150_000    // to do without one of its members
	aboveFirst = 200_000    // before the first of them
)

// NewLift adds costs to a solver. Every cost must have a weight above 0, and no
// view may be there twice; found is called for each better solution.
func NewLift(s *kernel.Solver, costs []Excess, found func(value int32)) *Lift {
	l := &Lift{s: s, costs: costs, terms: slices.Clone(costs), found: found, First: aboveFirst}
	most := int32(0)
	for _, c := range costs {
		most += c.Weight * max(0, -s.Low(c.At.Opposite())-c.Over)
	}
	l.total = s.NewVar(0, most)
	l.sum = AddExcesses(s, slices.Clone(costs), l.total)
	return l
}

// Least is what is proved of the sum from below.
func (l *Lift) Least() int32 { return l.least }

// value is the sum in the latest solution.
func (l *Lift) value() int32 {
	sum := int32(0)
	for _, c := range l.costs {
		x := c.At.Var()
		v := l.s.Value(x)
		if c.At == x.Down() {
			v = -v
		}
		sum += c.Weight * max(0, v-c.Over)
	}
	return sum
}

// take notes a solution and asks for better ones from now on; false when there
// can be none.
func (l *Lift) take() bool {
	if v := l.value(); !l.some || v < l.best {
		l.best, l.some = v, true
		l.found(v)
	}
	return l.best > l.least && l.s.AddClause(l.total.Le(l.best-1))
}

// done is the answer when no better solution is left.
func (l *Lift) done() kernel.Status {
	if !l.some {
		return kernel.Impossible
	}
	l.least = l.best
	return kernel.Solved
}

// Minimize searches until the least sum is proved, or the work or ctx ends.
func (l *Lift) Minimize(ctx context.Context, budget int64) kernel.Status {
	l.s.AddClause(l.total.Ge(0))
	end := l.s.Work() + budget
	if st, over := l.above(ctx, min(budget, l.First)); over {
		return st
	}
	for weight := int32(0); ; {
		if l.s.Work() >= end || ctx.Err() != nil {
			return kernel.Unknown
		}
		if weight = l.next(weight); weight == 0 {
			return l.done() // every assumption held
		}
		st, over := l.below(ctx, weight, end)
		if over {
			return st
		}
		if st == kernel.Unknown {
			break
		}
	}
	for l.s.Work() < end && ctx.Err() == nil {
		if st, over := l.above(ctx, end-l.s.Work()); over {
			return st
		}
	}
	return kernel.Unknown
}

// above looks for better solutions; over when there are none.
func (l *Lift) above(ctx context.Context, budget int64) (kernel.Status, bool) {
	for end := l.s.Work() + budget; ; {
		switch l.s.Search(ctx, end-l.s.Work()) {
		case kernel.Unknown:
			return kernel.Unknown, false
		case kernel.Impossible:
			return l.done(), true
		}
		if !l.take() {
			return l.done(), true
		}
	}
}

// next is the heaviest weight below the one given, 0 for none; of all for 0.
func (l *Lift) next(weight int32) int32 {
	out := int32(0)
	for _, t := range l.terms {
		if (weight == 0 || t.Weight < weight) && t.Weight > out {
			out = t.Weight
		}
	}
	return out
}

// below lifts the bound until all terms of a weight and above cost nothing more in
// some solution: Solved. Over with the answer when nothing better is left.
func (l *Lift) below(ctx context.Context, weight int32, end int64) (kernel.Status, bool) {
	for {
		l.root()
		assume := l.assume(weight)
		switch l.s.Search(ctx, min(coreWork, end-l.s.Work()), assume...) {
		case kernel.Unknown:
			return kernel.Unknown, false
		case kernel.Solved:
			if !l.take() {
				return l.done(), true
			}
			return kernel.Solved, false
		}
		core := slices.Clone(l.s.Core())
		l.Cores++
		if len(core) == 0 {
			return l.done(), true
		}
		core = l.shrink(ctx, core)
		if !l.lift(ctx, core) {
			return l.done(), true
		}
	}
}

// root takes what bounds cost with no decision into the bound.
func (l *Lift) root() {
	for i := range l.terms {
		t := &l.terms[i]
		if low := l.s.Root(t.At); low > t.Over {
			l.least += t.Weight * (low - t.Over)
			t.Over = low
		}
	}
	l.state()
}

// state tells the sum of the terms as they are now.
func (l *Lift) state() {
	l.sum.fixed = l.least
	l.sum.terms = l.sum.terms[:0]
	for _, t := range l.terms {
		if t.Weight > 0 {
			l.sum.terms = append(l.sum.terms, t)
		}
	}
	l.s.Rouse(l.sum)
}

// assume is that no term of a weight and above costs more than is proved.
func (l *Lift) assume(weight int32) []kernel.Lit {
	var out []kernel.Lit
	for _, t := range l.terms {
		if t.Weight >= weight && t.Weight > 0 {
			out = append(out, t.free())
		}
	}
	return out
}

// free is the literal that the term costs nothing.
func (e Excess) free() kernel.Lit { return kernel.Lit{B: e.At.Opposite(), V: -e.Over} }

// shrink leaves members out of a core as long as little work shows that the rest
// is one.
func (l *Lift) shrink(ctx context.Context, core []kernel.Lit) []kernel.Lit {
	core, _ = kernel.Shrink(core, core, func(rest []kernel.Lit) (kernel.Status, []kernel.Lit) {
		if len(rest) == 0 {
			return kernel.Solved, nil // one member is as few as there are
		}
		st := l.s.Search(ctx, shrinkWork, rest...)
		kept := l.s.Core()
		return st, slices.DeleteFunc(rest, func(one kernel.Lit) bool { return !slices.Contains(kept, one) })
	})
	return core
}

// lift takes a core into the bound; false when no solution is left.
func (l *Lift) lift(ctx context.Context, core []kernel.Lit) bool {
	if len(core) == 0 {
		return false
	}
	if len(core) == 1 {
		return l.s.AddClause(core[0].Not())
	}
	by, together, most := int32(0), []Excess(nil), int32(0)
	for i := range l.terms {
		t := &l.terms[i]
		if t.Weight == 0 || !slices.Contains(core, t.free()) {
			continue
		}
		if by == 0 || t.Weight < by {
			by = t.Weight
		}
		together = append(together, Excess{t.At, t.Over, 1})
		most += max(0, -l.s.Root(t.At.Opposite())-t.Over)
	}
	for i := range l.terms {
		if t := &l.terms[i]; t.Weight > 0 && slices.Contains(core, t.free()) {
			t.Weight -= by
		}
	}
	z := l.s.NewVar(1, max(1, most))
	AddExcesses(l.s, together, z)
	l.least += by
	over := int32(1)
	for ; over < most; over++ { // as far as little work shows
		if l.s.Search(ctx, shrinkWork, z.Le(over)) != kernel.Impossible {
			break
		}
		if !l.s.AddClause(z.Ge(over + 1)) {
			return false
		}
		l.least += by
	}
	l.terms = append(l.terms, Excess{z.Up(), over, by})
	l.state()
	l.s.Rouse(l.sum, z.Up())
	return true
}
