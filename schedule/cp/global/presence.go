package global

import (
	"slices"

	"ripeby/schedule/cp/kernel"
)

// undecided tells how literals that must all be true stand: how many are open and
// one of them; -1 when one is false.
func undecided(s *kernel.Solver, lits []kernel.Lit) (open kernel.Lit, n int) {
	for _, l := range lits {
		switch {
		case s.True(l):
		case s.False(l):
			return l, -1
		default:
			open = l
			n++
		}
	}
	return open, n
}

// nearly reports whether literals are all true but one at the most, which is open.
func nearly(s *kernel.Solver, lits []kernel.Lit) bool {
	open := 0
	for _, l := range lits {
		if s.True(l) {
			continue
		}
		if open++; open > 1 || s.False(l) {
			return false
		}
	}
	return true
}

// distinct is the literals, each once: one that is named twice is still one open
// literal.
func distinct(lits []kernel.Lit) []kernel.Lit {
	var out []kernel.Lit
	for _, l := range lits {
		if !slices.Contains(out, l) {
			out = append(out, l)
		}
	}
	return out
}

// but appends the literals without one.
func but(out, lits []kernel.Lit, one kernel.Lit) []kernel.Lit {
	for _, l := range lits {
		if l != one {
			out = append(out, l)
		}
	}
	return out
}

// onTrue appends the views that wake a propagator when one of the literals becomes
// true.
func onTrue(wake []kernel.View, lits []kernel.Lit) []kernel.View {
	for _, l := range lits {
		wake = append(wake, l.B)
	}
	return wake
}

// both appends the two views of a variable.
func both(wake []kernel.View, x kernel.Var) []kernel.View {
	return append(wake, x.Up(), x.Down())
}

// once is the views in order, each once.
func once(wake []kernel.View) []kernel.View {
	slices.Sort(wake)
	return slices.Compact(wake)
}

// viewsOf is the views of n things in order, each once, and the things that each of
// them is of.
func viewsOf(n int, views func(i int) []kernel.View) (all []kernel.View, of [][]int32) {
	for i := range n {
		all = append(all, views(i)...)
	}
	all = once(all)
	of = make([][]int32, len(all))
	for i := range n {
		for _, b := range once(views(i)) {
			k, _ := slices.BinarySearch(all, b)
			of[k] = append(of[k], int32(i))
		}
	}
	return all, of
}
