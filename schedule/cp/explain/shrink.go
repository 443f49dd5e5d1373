package explain

import (
	"slices"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// shrink leaves out of facts that forbid the question all that are not needed; least tells
// whether each of the rest is known to be needed. Whole groups are tried first: where one of
// them can go, its facts need no question each. Kinds go in the same order either way, by
// [problem.Fact.Weight], so that it is the same kind of set that is preferred.
func (r *reasons) shrink(set []bool) (out []bool, least bool) {
	for _, group := range r.groups() {
		rest := slices.Clone(set)
		gone := 0
		for _, i := range group {
			if rest[i] {
				gone++
			}
			rest[i] = false
		}
		if gone < 2 {
			continue // it has its turn below
		}
		if st, core := r.possible(rest); st == kernel.Impossible {
			set = core
		}
	}
	facts := marked(set)
	order := slices.Clone(facts)
	slices.SortStableFunc(order, func(a, b int) int { return r.facts[b].Weight() - r.facts[a].Weight() })
	facts, least = kernel.Shrink(facts, order, func(rest []int) (kernel.Status, []int) {
		in := make([]bool, len(set))
		for _, i := range rest {
			in[i] = true
		}
		st, core := r.possible(in)
		return st, marked(core)
	})
	out = make([]bool, len(set))
	for _, i := range facts {
		out[i] = true
	}
	return out, least
}

// groups are facts that one change is likely to leave out together, the first to go first: all
// hours, one person's, what other families give, what all others get, then all of a kind.
func (r *reasons) groups() [][]int {
	m := r.plan.Model
	own := m.Demands[r.demand].Family
	var out [][]int
	add := func(is func(f problem.Fact) bool) {
		var group []int
		for i, f := range r.facts {
			if is(f) {
				group = append(group, i)
			}
		}
		out = append(out, group)
	}
	ofKind := func(kind problem.FactKind) {
		add(func(f problem.Fact) bool { return f.Kind == kind })
	}
	ofKind(problem.FactWorker)
	for w := range m.Workers {
		add(func(f problem.Fact) bool { return f.Kind == problem.FactWorker && f.Index == w })
	}
	add(func(f problem.Fact) bool { return f.Kind == problem.FactDemand && m.Demands[f.Index].Family != own })
	ofKind(problem.FactDemand)
	ofKind(problem.FactSpace)
	ofKind(problem.FactSupply)
	ofKind(problem.FactPool)
	return out
}

// marked lists the places that are marked.
func marked(set []bool) []int {
	var out []int
	for i := range set {
		if set[i] {
			out = append(out, i)
		}
	}
	return out
}
