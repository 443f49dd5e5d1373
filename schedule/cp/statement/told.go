package statement

import (
	"ripeby/schedule/cp/calm"
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// addTold puts into the parts what is otherwise than an earlier plan told.
func (k *Statement) addTold(put func(part int, t global.Term, high int64)) {
	over, slots := []calm.Overflow(nil), []*calm.Slot(nil)
	for _, sl := range k.Slots {
		sl.told = &calm.Slot{Prospect: sl.Prospect, Here: sl.Present(), Start: sl.Start, Who: sl.Who}
		slots = append(slots, sl.told)
	}
	for _, o := range k.Over {
		over = append(over, calm.Overflow{Family: o.Family, Due: o.Due, Some: o.None().Not()})
	}
	k.told = calm.State(k.Kernel, k.Model, k.Grid, slots, over, func(e *problem.Kept) bool { return k.frozen == nil || k.frozen.IsFree(e) })
	k.told.Put(k.Kernel, k.Yes, put)
}

// AsTold is a literal under which work is as an earlier plan told.
func (k *Statement) AsTold(c problem.Changed) kernel.Lit {
	return k.told.Same(k.Kernel, k.Model, k.Grid, c)
}
