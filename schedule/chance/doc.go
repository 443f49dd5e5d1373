// Package chance says how often a plan's wants are met when waits take as long as they happen to take, and which
// single change would help most. A plan is counted through many times (Monte Carlo): each hold that has a `ready`
// is over at a moment that is drawn, and who finds it not over does what a person would: looks again, and carries on
// in the next hour that somebody who may do the work has free.
//
// # What is counted
//
//   - A hold with `ready` is over after that many minutes in the median; its logarithm is normal with `varies` as
//     standard deviation. Its least holds all the same. Other holds last as planned, or where work before them came
//     late as short as their least allows.
//   - Work begins as planned, or when the hold before it was found to be over: by a look at the planned moment, and
//     then every two hours in somebody's hours. It goes to whoever may do it and is free first, the person of the plan
//     before others. What is planned for people otherwise keeps its time until it has to move itself.
//   - Pots, stations, moulds and boxes are kept until they are really free, cleaning included. A make whose milk would
//     be too old by then is not made.
//   - Batches are lost at a rate that the caller gives.
//
// Not counted: room on shelves, which is taken to be there; and new plans: nothing is made that was not planned.
//
// Two plans are compared with the same draws (common random numbers), so that what differs is the plan. The same
// seed gives the same answer. Nothing here is a measure of safety.
//
// Reading order: wilson.go (bands), state.go (a plan as it is counted), run.go (one time through), share.go (many),
// remedy.go (what would help), words.go.
package chance
