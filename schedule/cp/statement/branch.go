package statement

import (
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/usage"
)

// brancher decides slot by slot, each variable toward the value that the guide has
// for it, and leaves open what a job that is not made would do.
type brancher struct {
	k     *Statement
	items []branchItem
	guide []int32
}

// branchItem is a variable that matters while a literal is not false.
type branchItem struct {
	x    kernel.Var
	when kernel.Lit
}

// NewBrancher decides for the least values, but for what [Statement.BranchNear] gives it.
func (k *Statement) NewBrancher() *brancher {
	b := &brancher{k: k}
	put := func(when kernel.Lit, xs ...kernel.Var) {
		for _, x := range xs {
			b.items = append(b.items, branchItem{x, when})
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
	known := make([]bool, k.Kernel.Vars())
	for _, it := range b.items {
		known[it.x] = true
	}
	for x := range known {
		if !known[x] {
			put(k.Yes, kernel.Var(x))
		}
	}
	return b
}

// Next is the next decision.
func (b *brancher) Next(s *kernel.Solver) (kernel.Lit, bool) {
	for i := range b.items {
		it := &b.items[i]
		if s.Fixed(it.x) || s.False(it.when) {
			continue
		}
		lo, hi := s.Min(it.x), s.Max(it.x)
		v := lo
		if b.guide != nil {
			v = min(max(b.guide[it.x], lo), hi)
		}
		if v > lo {
			return it.x.Ge(v), true
		}
		return it.x.Le(v), true
	}
	return kernel.Lit{}, false
}

// BranchNear has the search decide toward a plan, nil for none; false when the plan does not
// fit the slots, and then it goes toward least values.
func (k *Statement) BranchNear(s *usage.Ledger) (fits bool) {
	b, fits := k.NewBrancher(), true
	if s != nil {
		var values []int32
		if values, fits = k.ValuesOf(s); fits {
			k.Kernel.Guide(values)
			b.guide = values
		}
	}
	k.Kernel.Branch(b.Next)
	return fits
}
