// Package whatif answers what else could be: whether one more order fits beside the plan
// in force, why a want is short and which single change would give it more, and what one
// more of each thing would buy.
//
// Every question is put to the engine about a problem as package planner states it
// ([planner.Stated]), with the plan in force as the problem's earlier one, and is answered
// by a plan that shows it. Nothing is taken from anybody: every other want gets no less
// than the plan in force gives it, and what has begun goes on as it began.
//
// # Reading order
//
//  1. order.go: an order, and a problem with it; ask.go: asking beside the plan in force.
//  2. fits.go: does an order fit, and how much of it; earliest.go: and if not, when.
//  3. fixes.go: why a want is short, and the changes that are tried, sidebyside.go, some
//     at once.
//  4. change.go: what a change is, and which could do away with which fact. The changes
//     are in kit.go (more of something), batch.go (other sizes), hours.go (longer days),
//     afterall.go (closed days that are open after all) and later.go (other dates).
//  5. cause.go: what made work move, of a plan that takes an earlier one's place.
//  6. worth.go: what one more of each thing would buy over the whole plan.
//
// What is said of facts is in package planner, since a plan says it too. Tests that hold
// the answers to a list of all plans of tiny kitchens are in package planner, beside the list.
package whatif
