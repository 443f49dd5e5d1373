// Package steps holds sets of steps of a grid of time as sorted ranges: what is in either of
// two sets, in both, or so much later than what is in one. A working day is one range, so that
// a season is a few hundred where its steps are tens of thousands.
//
// # Invariants
//
// The ranges of a set are sorted and apart from one another: between two lies a step that is in
// neither. No set is changed once it is made, so that many can have it in common; a function may
// give one of its arguments back.
package steps
