// Package cheapest keeps what a job costs at no less than the cheapest chain of work that is left to
// it, and its starts where a chain is cheap enough: a rule of the kernel over one slot.
//
// # Theory
//
// The tables of [chain.Costs] have the least cost of a chain through each start of each piece of work,
// alone in the kitchen. Two looks at them:
//
//	single.go   the starts of one piece of work that are left, by its two bounds alone
//	whole.go    the whole chain within the bounds of all starts: forward along the chain, the
//	            least cost up to every start that is left
//	weaken.go   which of all those bounds that needs: from the last piece of work to the first,
//	            each goes out for as long as no chain through what it lets in is cheaper
//
// It is a shortest path through layers of starts, and its reasons are as weak as going through the
// layers once can make them: Gange, Stuckey, van Hoeve, "Explaining propagators for edge-valued
// decision diagrams" (2013), of which chains of starts are a case. Reasons that name every bound as it
// stands are true as well, and of next to no use: of the first demo's bother ten times as many dead ends.
//
// # Invariants
//
//   - Nothing is said that a chain of the tables breaks (TestReasonsOfThePenaltyFollowFromTheChains in
//     statement).
//   - The cheapest chain found last is remembered: while all of it is left, nothing can be concluded.
//     That it is left is looked up anew each time, so no undone decision matters.
//
// Reading order: chain.go, single.go, whole.go, weaken.go.
//
// # Short names
//
// s the solver, b the rule, z the tables of one size, i a piece of work, t a start, v a cost.
package cheapest
