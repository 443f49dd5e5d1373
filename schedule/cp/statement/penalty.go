package statement

import (
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/cheapest"
	"ripeby/schedule/cp/kernel"
)

// addPenalty keeps the penalty of a slot, and how late it is, at what its chain costs at the least.
func (k *Statement) addPenalty(sl *Slot) {
	k.addMeasure(sl, sl.Penalty, sl.chains)
	if late := k.Schedule.LatenessOf(k.Grid, &sl.Prospect); late != nil {
		sl.Late = k.Kernel.NewVar(0, plenty)
		k.addMeasure(sl, sl.Late, late)
	}
}

// addMeasure keeps a cost of a slot at what its chains come to by the tables.
func (k *Statement) addMeasure(sl *Slot, cost kernel.Var, by *chain.Costs) {
	cheapest.Add(k.Kernel, cheapest.Chain{Here: sl.Present(), Size: sl.Size, Start: sl.Start, Who: sl.Who, Fixed: sl.Fixed, Cost: cost, By: by})
}
