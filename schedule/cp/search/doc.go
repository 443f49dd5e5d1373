// Package search finds plans and proves them: a first plan, its improvement, and the proof part
// by part.
//
// # Theory
//
//  1. The covers (package bound) choose the jobs; build.go places them one after another, the most urgent
//     last or first (serial schedule generation, backward), shrinking and splitting what does
//     not fit. What is under way comes first (package carry). Before any of that the
//     plan in force is put back as it was, as far as it holds (inforce.go).
//  2. improve.go takes a few jobs out and builds again in another way: large neighbourhood
//     search (Shaw 1998) that takes a step when it is no worse than some steps ago (Burke
//     and Bykov 2017). Above 32 jobs a plan is improved a
//     segment at a time, 14, 28 or 56 jobs that are ready one after another (segment.go).
//  3. prove.go states the model and presses one part of the cost after another below what the
//     plan has, until that is refuted; each answer is a better plan. What the jobs cost their
//     maker is bounded from each job up as well (cores.go). Boxes of an answer are put
//     exactly; what does not stand comes back as a clause.
//  4. A plan of more than 64 jobs is not stated whole: it is pressed a segment at a time, 24 to
//     36 jobs, with the rest frozen (horizon.go), and what it is short of is bounded by groups of its demands (groups.go).
//
// Shaw, "Using constraint programming and local search methods to solve vehicle routing
// problems" (1998); Burke and Bykov, "The late acceptance hill-climbing heuristic" (2017);
// Kolisch and Hartmann, "Heuristic algorithms for the resource-constrained project scheduling
// problem" (1999), for building.
//
// # Invariants
//
//   - Work is counted, never timed: the same model and budget give the same plan.
//   - A bound is never above a plan: it comes from a relaxation, or from a refutation of which
//     every clause is proved (else prover.doubt is set).
//   - No plan is given up for a worse one, nor for one of equal cost: of equal plans that stays
//     which was there first, the plan in force before all.
//
// Builds with the tag audit hold every step of a proof against the best plan known (witness.go).
//
// Reading order: find.go, course.go, plan.go, homes.go, opening.go, inforce.go, build.go;
// improve.go, segment.go, regroup.go, fewer.go, intheway.go; prove.go, cores.go, witness.go, audit_off.go,
// audit_on.go; horizon.go, groups.go.
package search
