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
	past  []past // for levels that rise, how far the items are done with
}

// past is that all items before a place were decided, or did not matter, at a level of the search.
type past struct {
	level, place int
	decision     int64 // that opened the level
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
	i := b.resume(s)
	for ; i < len(b.items); i++ {
		if it := &b.items[i]; !s.Fixed(it.x) && !s.False(it.when) {
			break
		}
	}
	b.leave(s, i)
	if i == len(b.items) {
		return kernel.Lit{}, false
	}
	it := &b.items[i]
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

// resume is the place to look on from: what was done with under decisions that are still in force.
func (b *brancher) resume(s *kernel.Solver) int {
	for n := len(b.past); n > 0; n = len(b.past) {
		if p := &b.past[n-1]; p.level <= s.Level() && s.Decision(p.level) == p.decision {
			return p.place
		}
		b.past = b.past[:n-1]
	}
	return 0
}

// leave notes that the items before a place are done with at the present level.
func (b *brancher) leave(s *kernel.Solver, place int) {
	if n := len(b.past); n > 0 && b.past[n-1].level == s.Level() {
		b.past[n-1].place = place
		return
	}
	b.past = append(b.past, past{s.Level(), place, s.Decision(s.Level())})
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
