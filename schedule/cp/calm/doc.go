// Package calm decides which new job is which kept one of an earlier plan, so that as little as can
// be is otherwise than it told ([problem.Told]).
//
// # Theory
//
// A new job may be any kept one of its family, and each kept one is one job or none. Placing has
// one in mind, by which the chain is sought (place.go). Given where all jobs are, who is best which
// is an assignment, solved exactly (assign.go): Kuhn, "The Hungarian method for the assignment
// problem" (1955). In the proof it is decided with all the rest, by one literal for each slot and
// each kept job that it could be with any gain (links.go).
//
// # Invariants
//
//   - To be a kept job is never dearer than to be none, so a literal that could gain nothing is left
//     out and nothing is lost.
//   - What a job counts is worked out by [problem.Model.UnrestOf] alone; the clauses here say no less
//     and no more (TestWholeProofs of schedule/cp holds both to a naive reading).
//
// Reading order: place.go, assign.go, links.go.
package calm
