// Package kernel decides constraints over integer bounds by lazy clause
// generation: conflict-driven search in which every change of a bound carries its
// reason, and every dead end leaves a clause that forbids it for good.
//
// # Theory
//
// A variable x has a lower and an upper bound. Both are kept as lower bounds of
// two views, x and -x, so that every rule is written once, upward. A literal says
// that a view is at least a value; its negation is a literal of the opposite
// view. Literals are not made ahead: a bound is a number, and only literals that
// occur in learned clauses get a name (an atom), for their activity.
//
//	x in [3, 9]     view x  >= 3     view -x >= -9
//	not (x >= 5)    is      x <= 4   is      -x >= -4
//
// The trail lists every change of a bound in order, with the value before and
// why. A dead end is a set of literals, all true, that cannot be. It is resolved
// backward along the trail, literal by literal, until one literal of the present
// decision is left (the first unique implication point); of two literals of one
// view the stronger stands for both.
//
// # Invariants
//
//   - trail[last[b]] is the latest change of view b; low[b] is its value.
//   - A reason is true before the change that it explains.
//   - Of the two watched literals of a clause none is false, unless the other is
//     true and became so no later; clauses are at fixpoint before a propagator runs.
//   - At the root nothing needs a reason: a literal true there is left out of every
//     conflict, so that clauses may be dropped there whatever they implied.
//   - Nothing depends on time, map order or addresses.
//
// # Sources
//
// Ohrimenko, Stuckey, Codish, "Propagation via lazy clause generation" (2009);
// Schutt, Feydy, Stuckey, Wallace, "Explaining the cumulative propagator" (2011);
// Moskewicz et al., "Chaff" (2001) for watched literals and activity; Eén and
// Sörensson, "An extensible SAT solver" (2003) for the shape of the whole; Audemard
// and Simon, "Predicting learnt clauses quality" (2009) for what is kept.
//
// Reading order: literal.go, solver.go, trail.go, clause.go, arc.go,
// propagator.go, rouse.go, analyze.go, minimize.go, atom.go, heap.go, reduce.go,
// search.go, order.go, minimum.go, assume.go, shrink.go, audit.go.
//
// # Short names
//
// x variable, b view, v value, l literal, c clause, e trail entry, p propagator.
package kernel
