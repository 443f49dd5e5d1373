package kernel

import "slices"

// Shrink makes a set smaller that has a property which every larger one has too, as the
// core of an impossible question is impossible whatever else is assumed: each of the
// members named is left out in turn, and stays out where the rest has the property still.
// For a rest that has it, ask answers Impossible, and with a part of the rest that has it,
// which may be all of it; for one that has not, Solved.
//
// Least tells whether no member named can be left out of what is given: it is false where ask
// answered Unknown. The rest of the set may be smaller too, by way of the parts.
//
// This is deletion, one question a member: Chinneck and Dravnieks, "Locating minimal
// infeasible constraint sets in linear programs" (1991). Of two smallest sets it finds the one
// without the members that are named first.
func Shrink[T comparable](set, members []T, ask func(rest []T) (Status, []T)) (out []T, least bool) {
	out, least = slices.Clone(set), true
	for _, member := range members {
		at := slices.Index(out, member)
		if at < 0 {
			continue // an earlier part did without it
		}
		st, part := ask(slices.Delete(slices.Clone(out), at, at+1))
		switch st {
		case Impossible:
			out = slices.Clone(part)
		case Unknown:
			least = false
		}
	}
	return out, least
}
