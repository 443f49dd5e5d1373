package search

import (
	"context"
	"fmt"
	"slices"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/statement"
)

// witness is the best plan known, as values of all the kernel's variables. While the
// parts of the cost are held no lower than they are in it, nothing that is derived
// may rule it out: not a reason, nor a conflict, nor a learned clause. The goal below
// it is an assumption, on which no clause depends. A step that does is a fault of the
// engine, and the witness panics with it.
//
// Only builds with the tag audit have one; the values come from a statement of their own,
// so that the proof goes the same way with it and without.
type witness struct {
	p      *prover
	k      *statement.Statement
	values []int32 // nil where the plan does not fit the statement

	steps, missed int64 // steps held against a plan; plans for which there are no values
}

// pinWork is the counted work for finding the values of one plan: it is given as a whole,
// and little is left open.
const pinWork = 20_000_000

// watch has the present statement audited.
func (p *prover) watch() {
	p.witness = nil
	before := p.s.Spent
	k, ok := statement.Of(&p.s.Schedule, p.s.Frozen, p.count)
	p.s.Spent = before
	if !ok {
		return
	}
	p.witness = &witness{p: p, k: k}
	p.witness.renew()
	p.k.Kernel.SetAudit(p.witness.audit())
}

// renew takes the plan that is the best now.
func (w *witness) renew() {
	w.values = nil
	w.missed++
	values, fits := w.k.ValuesOf(&w.p.s.Ledger)
	if !fits {
		return
	}
	switch w.k.Kernel.Search(context.Background(), pinWork, w.k.Pin(values)...) {
	case kernel.Impossible:
		panic(fmt.Sprintf("the statement does not let in the plan %+v", w.p.s.Jobs))
	case kernel.Solved:
		w.missed--
		for x := range values {
			values[x] = w.k.Kernel.Value(kernel.Var(x))
		}
		w.values = values
	}
}

// audit holds every step against the plan.
func (w *witness) audit() *kernel.Audit {
	return &kernel.Audit{
		Implied: func(l kernel.Lit, premises []kernel.Lit) {
			if w.asked() && !w.breaks(premises) && !w.holds(l) {
				w.refuse("%v was said to follow from %v", l, premises)
			}
		},
		Conflict: func(premises []kernel.Lit) {
			if w.asked() && !w.breaks(premises) {
				w.refuse("%v were said to be impossible together", premises)
			}
		},
		Learned: func(clause []kernel.Lit) {
			if w.asked() && !slices.ContainsFunc(clause, w.holds) {
				w.refuse("learned %v", clause)
			}
		},
		Stated: func(clause []kernel.Lit) {
			if !w.asked() || slices.ContainsFunc(clause, w.holds) {
				return
			}
			if !w.p.doubt {
				w.refuse("stated %v", clause)
			}
			w.values = nil // whether the boxes of an answer can stand was not found out
			w.missed++
		},
	}
}

// asked counts a step, where there is a plan to hold it against.
func (w *witness) asked() bool {
	if w.values == nil {
		return false
	}
	w.steps++
	return true
}

// refuse says which step the plan shows to be wrong.
func (w *witness) refuse(format string, args ...any) {
	panic("audit: " + fmt.Sprintf(format, args...) + fmt.Sprintf(", but not in the plan %+v", w.p.s.Jobs))
}

// holds reports whether the literal is true in the plan.
func (w *witness) holds(l kernel.Lit) bool {
	w.values = w.p.k.WithSums(w.values)
	v := w.values[l.B.Var()]
	if l.B&1 != 0 {
		v = -v
	}
	return v >= l.V
}

// breaks reports whether one of the literals is false in the plan.
func (w *witness) breaks(lits []kernel.Lit) bool {
	return slices.ContainsFunc(lits, func(l kernel.Lit) bool { return !w.holds(l) })
}
