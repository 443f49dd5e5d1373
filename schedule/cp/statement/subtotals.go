package statement

import (
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// A cost is summed up by subtotals of neighbours, which each have a variable.
//
//	cost                 x
//	                  /     \
//	subtotals        x       x
//	                / \     / \
//	of each slot   x   x   x   x
//
// What clauses learn of a part of the plan (that the jobs of two weeks cost so much
// together, whoever of them it is) they can say by one literal of a subtotal. Of a
// sum of all slots at once they would have to name every slot, for each way to share
// the cost out among them. Slots stand in order of family and last delivery.

// bySubtotals gives a sum of two terms at the most which is no less than that of the
// terms, of a part of the cost; neighbours are summed first.
func (k *Statement) bySubtotals(part int, terms []global.Term) []global.Term {
	for len(terms) > 2 {
		var sums []global.Term
		for ; len(terms) > 1; terms = terms[2:] {
			sum, x := k.subtotal(terms[:2:2])
			k.put(part, sum)
			sums = append(sums, x)
		}
		terms = append(sums, terms...)
	}
	return terms
}

// subtotal is a variable for a sum of terms, and what makes it no less than that.
func (k *Statement) subtotal(terms []global.Term) (sum, global.Term) {
	most := int64(0)
	for _, t := range terms {
		most -= t.Times * int64(k.Kernel.Low(t.View.Opposite()))
	}
	x := k.Kernel.NewVar(0, int32(min(most, 1<<30)))
	nothing := []kernel.Lit{x.Le(0)}
	for _, t := range terms {
		nothing = append(nothing, kernel.Lit{B: t.View, V: 1})
	}
	return sum{nothing: nothing, terms: append(terms, global.Term{View: x.Down(), Times: 1})}, global.Term{View: x.Up(), Times: 1}
}

// sum is terms that come to no more than so much while literals hold. Nothing is a clause beside it: a
// subtotal of nothing is nothing, so that nobody goes on to lower what it may be at the most.
type sum struct {
	terms   []global.Term
	atMost  int64
	when    []kernel.Lit
	nothing []kernel.Lit
}

// put keeps a sum of a part of the cost until that is summed up.
func (k *Statement) put(part int, s sum) { k.unsaid[part] = append(k.unsaid[part], s) }

// state states a sum.
func (k *Statement) state(s sum) {
	if len(s.terms) > 0 {
		global.AddLinear(k.Kernel, s.terms, s.atMost, s.when...)
	}
	if len(s.nothing) > 0 {
		k.Kernel.AddClause(s.nothing...)
	}
}

// SumUp sums up a part of the cost and those before it. Until then nothing is known of what they come
// to: sums of parts that nobody asks about yet would be worked out at every step of a search for nothing.
func (k *Statement) SumUp(part int) {
	for p := range part + 1 {
		for _, s := range k.unsaid[p] {
			k.state(s)
		}
		k.unsaid[p] = nil
	}
}

// Sums reports whether a part of the cost has summands of which cores can be made: what each
// job costs.
func (k *Statement) Sums(part int) bool { return len(k.Summands(part)) > 1 }

// Summands are the variables that a part of the cost is the sum of, where each counts once and
// no others count.
func (k *Statement) Summands(part int) (out []kernel.Var) {
	if part != problem.PartPenalty {
		return nil
	}
	for _, sl := range k.Slots {
		out = append(out, sl.Penalty)
	}
	if k.told != nil {
		out = append(out, k.told.Points...)
	}
	return out
}

// Sum is a variable that is no less than the sum of others.
func (k *Statement) Sum(of []kernel.Var) kernel.Var {
	if len(of) == 1 {
		return of[0]
	}
	var terms []global.Term
	for _, x := range of {
		terms = append(terms, global.Term{View: x.Up(), Times: 1})
	}
	s, t := k.subtotal(terms)
	x := t.View.Var()
	k.summed = append(k.summed, summed{x, of})
	k.state(s)
	return x
}

// Within keeps the sum of variables within a part of the cost.
func (k *Statement) Within(of []kernel.Var, part int) {
	terms := []global.Term{{View: k.Cost[part].Down(), Times: 1}}
	for _, x := range of {
		terms = append(terms, global.Term{View: x.Up(), Times: 1})
	}
	global.AddLinear(k.Kernel, terms, 0)
}

// summed is a variable that is no less than the sum of others.
type summed struct {
	x  kernel.Var
	of []kernel.Var
}

// WithSums has values for the sums too that were added since the model was stated.
func (k *Statement) WithSums(values []int32) []int32 {
	for _, s := range k.summed {
		if int(s.x) < len(values) {
			continue
		}
		sum := int32(0)
		for _, x := range s.of {
			sum += values[x]
		}
		values = append(values, sum)
	}
	return values
}
