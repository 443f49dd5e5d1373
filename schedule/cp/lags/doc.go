// Package lags holds what the wait between two activities costs by its length, and finds the cheapest
// wait after each of many starts at once: the inner loop of placing jobs and of the tables of their
// chains.
//
// A [Table] is the costs of a lag on a grid of time, a row is costs by start, and [Sums] are the least
// sums of both: from tables of least values where a lag has few different costs, by the order of the
// best places where it has many and is convex.
//
// # Invariants
//
//   - Costs are from nothing to less than [Unreachable], which is the cost of what cannot be.
//   - Sums are exact, whichever way they are found (sums_test.go holds them to all lengths tried).
//   - A table is not changed once it is made but for what it keeps of itself.
//
// Reading order: table.go, row.go, least.go, convex.go, sums.go.
//
// # Short names
//
// o a table of a lag; x and p places in a row.
package lags
