// Package carry puts what is under way in force: each job that has begun is carried on beside the
// others, or left where it is when there is no way at all.
//
// # Theory
//
// The most urgent comes first, at its best; when one is left without a way, all begin again in a safe
// order, in which nobody counts on what may not come (turn.go). What the earlier plan had comes before
// anything new (before.go). When the work is spent or the plan is called off there is no time for the
// best of each: the next way within a few days does (haste.go). So a plan of hundreds of jobs under way
// takes as long as one of a few, and is one that holds.
//
// Dijkstra, EWD 108 (1965), for the safe order.
//
// # Invariants
//
//   - Each job under way is placed, or left where it is and stuck; none is lost.
//   - One is stuck only when it was looked for a way in the next days and after all that is placed.
//
// Reading order: carry.go, turn.go, before.go, parts.go, haste.go, sooner.go.
package carry
