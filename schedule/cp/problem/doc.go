// Package problem holds the engine's model and its cost, and what follows from a model or a
// job alone: what a job occupies and when, between which ticks its last work must end, how a
// part of a model is cut out.
//
// # The model
//
// A [Family] is a chain of activities that can be run any number of times, each
// run (a job) in one of several modes (sizes). An [Activity] is work by one
// worker, then a lag between a least and a most with a cost for every length.
// Consecutive activities occupy units of a [Pool] (a [Run]) or footprints in a [Space] (a
// [Stay]). Jobs supply [Demand]s. What counts, in this order ([Cost]): value short that was
// promised, other value short, number of jobs, their amounts, the penalty of lags and of
// avoided time, and late first starts.
//
// In the words of the literature this is a resource-constrained problem with optional jobs,
// modes, generalised precedence (minimum and maximum lags), calendars, and lot sizes: see
// Brucker, Drexl, Möhring, Neumann, Pesch, "Resource-constrained project scheduling: notation,
// classification, models, and methods" (1999).
//
// # Invariants
//
//   - Times are ticks, integers. Planned starts are multiples of Model.Step; what has begun may
//     have begun at any tick.
//   - A model is never changed once it is made: a part, one with ways round, or a trial is a copy
//     (part.go, waysround.go).
//   - What a run or stay occupies is said in occupied.go alone, as two marks of a job.
//
// # What is not here
//
// How jobs are placed, what they use together, and anything that searches.
//
// Reading order: model.go, turns.go, cost.go, job.go, occupied.go, lengths.go, grid.go, span.go, window.go,
// share.go, demands.go, sizes.go, begun.go, told.go, lists.go, rate.go, stacks.go; then fact.go, why.go (reasons);
// then part.go, within.go, stretch.go, waysround.go (other models made of one).
//
// # Short names
//
// t, u starts of activities; i, k activities; r a run or stay; c a choice of a
// run; d a demand; f a family; m a mode or a model; j a job; w a worker.
package problem
