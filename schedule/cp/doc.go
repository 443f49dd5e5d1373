// Package cp plans chains of work on shared things. It knows no cheese, no
// clock, no input or output: time is an integer, everything else is a number or
// an index, and work is counted so that the same model and budget give the same
// answer on every machine.
//
// # The model
//
// A [Family] is a chain of activities that can be run any number of times, each
// run (a job) in one of several modes (sizes). An activity is work by one
// worker, then a lag between a least and a most with a cost for every length.
// Consecutive activities occupy units of a [Pool] or footprints in a [Space].
// Jobs supply [Demand]s. What counts, in this order ([Cost]): value short that was
// promised, other value short, number of jobs, their amounts, lag and
// avoided-time cost, and late first starts.
//
// # How it is solved
//
//  1. cover.go chooses the jobs of each family as if the kitchen were empty: a
//     shortest path over the demanded units in due order. It gives the first
//     set of jobs and a bound in every part.
//  2. chain.go places one job exactly beside all that is already placed: a
//     dynamic programme backward in time over (activity, start).
//  3. build.go places the jobs of the cover one after another, shrinking and
//     splitting those that do not fit; improve.go removes some and builds again,
//     for as long as the budget of counted work lasts, a long plan one stretch of
//     time after another (stretch.go).
//     What can be stated as a whole is then proved (prove.go); of a longer plan one
//     stretch after another is stated beside the rest (horizon.go), and groups of
//     demands bound what is short (groups.go).
//  4. energy.go bounds the value that the shared things can carry at all. For plans
//     that need more jobs than the covers, layers.go bounds the amount; for those
//     that leave more short, traded.go bounds jobs and amount.
//
// The bound of step 1 is a relaxation, since each family and each job of it has
// the kitchen to itself; where the plan meets it, the plan is proved.
//
// Reading order: model.go, result.go, state.go, pool.go, space.go, worker.go,
// chain.go, place.go, choose.go, home.go, begin.go, turn.go, late.go, cover.go,
// build.go, improve.go, regroup.go, fewer.go, intheway.go, stretch.go, bound.go,
// layers.go, traded.go, prove.go, asked.go, horizon.go, beside.go, groups.go, slip.go,
// blame.go; then fact.go, beyond.go, reasons.go, reason.go, inforce.go, inquiry.go.
//
// # Short names
//
// t, u starts of activities; i, k activities; r a run or stay; c a choice of a
// run; d a demand; f a family; m a mode; j a job; w a worker or a work length.
package cp
