package cp

import "ripeby/schedule/cp/kernel"

// brancher decides slot by slot, each variable toward the value that the guide has
// for it, and leaves open what a job that is not made would do.
type brancher struct {
	k     *asked
	items []branchItem
	guide []int32
}

// branchItem is a variable that matters while a literal is not false.
type branchItem struct {
	x    kernel.Var
	when kernel.Lit
}

func (k *asked) newBrancher() *brancher {
	b := &brancher{k: k}
	put := func(when kernel.Lit, xs ...kernel.Var) {
		for _, x := range xs {
			b.items = append(b.items, branchItem{x, when})
		}
	}
	lits := func(when kernel.Lit, ls []kernel.Lit) {
		for _, l := range ls {
			if l != k.yes && l != k.yes.Not() {
				put(when, l.B.Var())
			}
		}
	}
	for _, o := range k.over {
		put(k.yes, o.jobs)
	}
	for _, sl := range k.slots {
		put(k.yes, sl.here)
	}
	for _, sl := range k.slots {
		here := sl.present()
		put(here, sl.size)
		put(here, sl.give...)
		for i := sl.acts() - 1; i >= sl.fixed; i-- {
			put(here, sl.start[i])
			lits(here, sl.who[i])
			put(here, sl.done[i].X)
		}
		for _, list := range sl.pools {
			for _, c := range list {
				lits(here, []kernel.Lit{c.lit})
			}
		}
		for _, ls := range sl.spaces {
			lits(here, ls)
		}
		for _, d := range sl.draws {
			lits(here, []kernel.Lit{d.lit})
		}
		put(here, sl.units, sl.bother)
		if sl.begun < 0 {
			put(here, sl.amount, sl.early)
		}
	}
	known := make([]bool, k.k.Vars())
	for _, it := range b.items {
		known[it.x] = true
	}
	for x := range known {
		if !known[x] {
			put(k.yes, kernel.Var(x))
		}
	}
	return b
}

// next is the next decision.
func (b *brancher) next(s *kernel.Solver) (kernel.Lit, bool) {
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

// branchNear has the search decide toward a plan, nil for none; false when the plan does not
// fit the slots, and then it goes toward least values.
func (k *asked) branchNear(s *ledger) (fits bool) {
	b, fits := k.newBrancher(), true
	if s != nil {
		var values []int32
		if values, fits = k.guide(s); fits {
			k.k.Guide(values)
			b.guide = values
		}
	}
	k.k.Branch(b.next)
	return fits
}
