package statement

import "ripeby/schedule/cp/global"

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
// terms; neighbours are summed first.
func (k *Statement) bySubtotals(terms []global.Term) []global.Term {
	for len(terms) > 2 {
		var sums []global.Term
		for ; len(terms) > 1; terms = terms[2:] {
			sums = append(sums, k.addSubtotal(terms[:2:2]))
		}
		terms = append(sums, terms...)
	}
	return terms
}

func (k *Statement) addSubtotal(terms []global.Term) global.Term {
	most := int64(0)
	for _, t := range terms {
		most -= t.Times * int64(k.Kernel.Low(t.View.Opposite()))
	}
	x := k.Kernel.NewVar(0, int32(min(most, 1<<30)))
	global.AddLinear(k.Kernel, append(terms, global.Term{View: x.Down(), Times: 1}), 0)
	return global.Term{View: x.Up(), Times: 1}
}
