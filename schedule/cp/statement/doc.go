// Package statement states a problem to the kernel: which jobs there may be, what is open of
// each, what they use together, and the parts of the cost.
//
// # Theory
//
// New jobs are counted by their last delivery: for every family and due moment
// there are a few slots, and one overflow that stands for any further ones, with
// nothing asked of it. What is proved without assuming that there is no overflow
// holds for any number of jobs. A slot's variables are its size, starts, workers, pools,
// spaces, intake and gifts; all of these, and nothing else, are its decisions (decision.go).
// Everything that decides, guides, pins or reads back goes by that one list.
//
//	chains alone     penalty.go: the penalty of a slot from the tables of chain, by cheapest
//	pigeonholes      covers.go: how many jobs the units of a stretch need, as running counts
//	hours            slot.go: when a start can be, from the sets and tables of chain
//	shared things    pools.go, spaces.go, workers.go (one piece of work at a time, limits of
//	                 days): cumulative constraints
//	boxes            spaces.go relaxes floors to area and stacks; boxes.go puts an answer's boxes
//	                 exactly, and gives a clause over the few stays that cannot stand, at one
//	                 moment where they share one
//	costs            cost.go, subtotals.go: sums that clauses can name a part of, stated when a
//	                 part is first asked about
//	the rest         frozen.go: what stays as it is counts as taken
//
// Ohrimenko, Stuckey, Codish, "Propagation via lazy clause generation" (2009); Schutt, Feydy,
// Stuckey, "Explaining time-table-edge-finding propagation for the cumulative resource
// constraint" (2013); Laborie and Rogerie, "Reasoning with conditional time-intervals" (2008)
// for jobs that may not be.
//
// # Invariants
//
//   - Every plan of the model has values that the statement lets in, at no more than its cost
//     (TestTheStatementHoldsThePlan, TestWholeProofsAgainstEveryPlan): else it would prove too much.
//   - Time is rounded so that nothing is lost: ends off the grid up, since what begins there
//     begins on it. What that lets in is seen when the boxes are put.
//   - The slots of one last delivery are in order of their first start.
//
// Reading order: statement.go, slot.go, decision.go, counts.go, overflow.go,
// give.go, penalty.go, pools.go, workers.go, spaces.go, overfull.go, frozen.go, covers.go,
// cost.go, told.go, subtotals.go; then values.go, branch.go, answer.go, boxes.go.
//
// # Short names
//
// k a statement, st in what belongs to one; sl a slot; l a literal; x a variable or a place.
package statement
