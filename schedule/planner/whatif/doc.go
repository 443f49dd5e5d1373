// Package whatif answers what else could be: whether one more order fits beside the plan
// in force, why a want is short and which single change would give it more, and what one
// more of each thing would buy.
//
// Every question is put to the engine about the problem as package planner states it
// ([planner.Stated]), with the plan in force as the problem's earlier one, and answered by
// a plan that shows it. Nothing is taken from anybody: every other want gets no less than
// that plan gives it, and what has begun goes on as it began.
//
// # Reading order
//
// fits.go (does it fit, and how much of it), earliest.go (and if not, when), fixes.go
// (why a want is short, and the changes that are tried), change.go and afterall.go (the
// changes), worth.go (what one more of each thing would buy).
package whatif
