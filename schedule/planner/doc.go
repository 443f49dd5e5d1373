// Package planner turns a [schedule.Problem] into a [schedule.Plan].
//
// # Flow
//
//  1. carry.go finds what is under way: begun.yaml, and the earlier plan.
//  2. model.go states the kitchen to the engine, one file for each kind of fact:
//     people.go, kit.go, cold.go, milk.go, chain.go, lag.go, mode.go and
//     cleaned.go (recipes), demand.go (targets and stock), under.go and bent.go
//     (what is under way), hint.go (what the earlier plan had).
//  3. The engine (schedule/cp) chooses and places the batches.
//  4. decode.go and kept.go turn its answer into dated stages; ids.go gives each
//     batch its id; care.go lists care and rounds; warn.go and because.go say what
//     the maker should know, slip.go how far work may slip.
//
// The engine counts minutes from the last grid moment not after the planning
// start ([clock]); moments appear only here.
package planner
