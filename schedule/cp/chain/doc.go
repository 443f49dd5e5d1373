// Package chain places one job exactly beside all others, and says what chains cost alone in
// the kitchen.
//
// # Theory
//
// A job is a chain of activities with lags between. With everything else fixed, the cheapest
// chain is a shortest path backward in time over (activity, start), with one row for every
// choice of pool or space in force (chain.go has the recursion and its picture, layout.go the
// rows). The least over all lags from a start is asked of [lags.Sums], for all starts of an
// activity at once: nothing else looks through lags. The limits of a worker's days couple works
// of one chain; they are kept by branching (place.go).
//
// For the proof the same is worked out for all starts with the kitchen empty ([Costs]): through
// every start of every activity, the least that a chain costs. Where nothing costs anything,
// sets of steps say it (sets.go).
//
// This is the label-free case of shortest paths with time windows: Desrosiers, Dumas, Solomon,
// Soumis, "Time constrained routing and scheduling" (1995), section 3. The sparse table:
// Bender and Farach-Colton, "The LCA problem revisited" (2000).
//
// # Invariants
//
//   - A placed job keeps every rule beside what the ledger holds, and no other placing of
//     the same query costs less (place_test.go holds this to a naive reading).
//   - A job under way is never lost: it is placed in time, else late (lateness.go), else stuck.
//   - [Prepared] is of the kitchen, not of a plan: schedules share it.
//
// Reading order: schedule.go, limit.go, prepare.go, lags.go, work.go, chain.go, layout.go, path.go, turns.go,
// place.go, choose.go, penalty.go, underway.go, soon.go, lateness.go, unrest.go, slip.go, idle.go; then the tables of
// chains alone: prospect.go, costs.go, workcosts.go, row.go, sets.go.
//
// # Short names
//
// q a query; x a place in a row; z what chains of one size cost.
package chain
