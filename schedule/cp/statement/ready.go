package statement

import "ripeby/schedule/cp/kernel"

// ReadyBy is a literal under which all that a demand gets is ready by a tick.
func (k *Statement) ReadyBy(demand, tick int) kernel.Lit {
	in := k.Kernel.NewVar(0, 1).Ge(1)
	for _, sl := range k.Slots {
		for x, d := range sl.Reach {
			if d == demand {
				k.Kernel.AddClause(in.Not(), sl.Give[x].Le(0), AtMost(sl.Done[sl.Acts()-1], k.Grid.Down(tick)))
			}
		}
	}
	return in
}
