package statement

import (
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/usage"
)

// NewBrancher decides slot by slot, for the least values but for what [Statement.BranchNear] gives it,
// and leaves open what a job that is not made would do.
func (k *Statement) NewBrancher() *kernel.Order {
	b, known := &kernel.Order{}, make([]bool, k.Kernel.Vars())
	put := func(when kernel.Lit, xs ...kernel.Var) {
		for _, x := range xs {
			b.Put(x, when)
			known[x] = true
		}
	}
	for _, o := range k.Over {
		put(k.Yes, o.Jobs)
	}
	for _, sl := range k.Slots {
		put(k.Yes, sl.Here)
	}
	for _, sl := range k.Slots {
		here := sl.Present()
		decisions := sl.Decisions()
		decide := func(which func(d *Decision) bool) {
			for x := range decisions {
				switch d := &decisions[x]; {
				case !which(d):
				case d.Number():
					put(here, d.X)
				case d.Lit != k.Yes && d.Lit != k.Yes.Not():
					put(here, d.Lit.B.Var())
				}
			}
		}
		decide(func(d *Decision) bool { return d.About < DecidesStart })
		for i := sl.Acts() - 1; i >= sl.Fixed; i-- {
			decide(func(d *Decision) bool { return d.At == i && (d.About == DecidesStart || d.About == DecidesWho) })
			put(here, sl.Done[i].X)
		}
		decide(func(d *Decision) bool { return d.About > DecidesWho })
		put(here, sl.units, sl.Late, sl.Penalty)
		if sl.Begun < 0 {
			put(here, sl.Amount, sl.Early)
		}
	}
	for x := range known {
		if !known[x] {
			put(k.Yes, kernel.Var(x))
		}
	}
	return b
}

// BranchNear has the search decide toward a plan, nil for none; false when the plan does not
// fit the slots, and then it goes toward least values.
func (k *Statement) BranchNear(s *usage.Ledger) (fits bool) {
	b, fits := k.NewBrancher(), true
	if s != nil {
		var values []int32
		if values, fits = k.ValuesOf(s); fits {
			k.Kernel.Guide(values)
			b.Toward = values
		}
	}
	k.Kernel.Branch(b.Next)
	return fits
}
