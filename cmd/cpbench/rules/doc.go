// Package rules holds the constraints of the public benchmark problems that kitchens
// have no use for: tasks that all count, of fixed length and demand, values that are
// left out, and a sum of costs with the search for its least. Each is a rule of
// ripeby/schedule/cp/kernel, written forward, for lower bounds; run on the negated
// views of time it gives the backward half. What kitchens need, tasks that may or may
// not count and demands by size, stands in ripeby/schedule/cp/global.
//
// # The constraints
//
//	AddTimetable    at every t:   sum of Demand over tasks with Start <= t < Start+Length  <=  capacity
//	AddEdgeFind     the same, by the energy of each stretch [a, b):
//	                sum of Demand x (overlap with [a, b))  <=  capacity x (b - a)
//	AddHoles        x in none of [From, Until)
//	AddExcesses     sum of Weight x max(0, At - Over)  <=  total
//	NewLift         the least such sum, from below by cores and from above by turns
//
// # Theory
//
// A task must run from its latest start to its earliest end, where the first comes
// before the second; what must run, added up, is the timetable. A task that does not
// fit on a stretch of it is moved past, and the reason is of single moments: Schutt,
// Feydy, Stuckey, Wallace, "Explaining the cumulative propagator" (2011), sections 4.1
// and 4.2. Edge finding also sees what must be done in a stretch without a moment at
// which it must: Vilím, "Timetable edge finding filtering algorithm for discrete
// cumulative resources" (2011); Schutt, Feydy, Stuckey, "Explaining
// time-table-edge-finding propagation for the cumulative resource constraint" (2013).
// Weighted earliness and tardiness are excesses of starts and of their negatives, and
// cores of "nothing costs" lift the bound of their sum: Andres, Kaufmann, Matheis,
// Schaub, "Unsatisfiability-based optimization in clasp" (2012); Morgado, Dodaro,
// Marques-Silva, "Core-guided MaxSAT with soft cardinality constraints" (2014); Gange,
// Berg, Demirović, Stuckey, "Core-guided and core-boosted search for CP" (2020).
//
// The tests hold every step of whole searches against all solutions of small models
// (ripeby/schedule/cp/kernel/oracle).
//
// Reading order: interval.go, timetable.go, profile.go (what must run), edgefind.go,
// holes.go; then excess.go, lift.go (sums of costs).
package rules
