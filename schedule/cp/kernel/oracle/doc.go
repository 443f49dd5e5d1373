// Package oracle holds rules of the kernel against every assignment of models so
// small that all of them can be tried. It is for tests: no program imports it.
//
// A [Rule] says twice what it means: to the solver, and to Holds, which shares
// nothing with the solver. Of a [Model] with some rules, [Model.Check] demands
//
//   - bounds: one propagation keeps the values of every solution, and refuses no model that has one;
//   - decisions: with all values fixed, propagation alone tells whether they are a solution;
//   - search: every solution is found, each once, and nothing else;
//   - steps: each reason, conflict and learned clause on the way holds in all solutions
//     that are still asked for, and every premise is true when it is used.
//
// A [Tally] counts what was met, so that a test can tell that it tested something.
//
// Reading order: model.go, check.go, audit.go.
package oracle
