// Package usage keeps the ledger of what is placed: what every job, stock and piece of work uses of
// pools, spaces, workers and intakes, and what of them is left.
//
// # Theory
//
// A pool's usage is a step function of time; [Ledger.Free] turns it into pieces, the stretches
// in which so many units more can be held throughout. Boxes never move while they stand, so a
// later end is only harder: how long boxes may stay in a space ([Ledger.Reach]) is found by
// moving the end from change to change. Boxes are put floor after floor, as many stacks as each
// takes at one moment, by a function that the caller of the engine gives; answers are kept, since
// the same boxes are asked for many times. This may miss a way to put them; the exact answer over
// time is the package packing's.
//
// What has begun may use more than there is: that is no fault of a plan's. It clashes with what
// is planned, never with other things that have begun.
//
// # Invariants
//
//   - Lists of a pool, space or worker are sorted by their start.
//   - What [Ledger.Add] puts in force, [Ledger.Remove] takes out to the last unit.
//   - Unmet is the units of each demand that neither stock nor a job in the ledger serves.
//   - Spent counts work. It only grows, by what is looked at and never by the clock.
//
// Reading order: ledger.go, pool.go, worker.go, space.go, packings.go, corners.go, home.go,
// spots.go, underway.go, now.go, about.go.
package usage
