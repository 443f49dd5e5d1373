// Package planner turns a [schedule.Problem] into a [schedule.Plan]: it states the kitchen
// to the engine (schedule/cp), and tells the engine's answer as dated stages.
//
// What a batch needs of a kitchen, package needs says; the planner puts that in numbers.
// The engine counts minutes from the last grid moment not after the planning start, and
// numbers in place of names; moments and names appear only here. What is asked beside a
// plan, of one more order or why a want is short, is package whatif's, which sees of a
// statement what stated.go shows.
//
// # Reading order, which is the flow of one plan
//
//  1. planner.go: [Plan], and how much work it may take.
//  2. stated.go: a problem as the engine is told it ([Stated]); model.go: the order in
//     which it is stated ([State]).
//  3. carry.go finds what is under way: begun.yaml, and the earlier plan.
//  4. One file for each kind of fact: people.go, kit.go (and cold places), milk.go; of
//     recipes chain.go (stages as the engine's activities), lag.go (holds), spell.go (which go by the room), mode.go
//     (batches of each size) and cleaned.go; demand.go (targets and stock); under.go,
//     alike.go and bent.go (what is under way), late.go (how it may run late); hint.go (what the earlier plan had), told.go (what it told
//     and is kept), takenew.go (what
//     it knew nothing of); shut.go and carries.go (what stands where it is closed, and where it is
//     carried).
//  5. decode.go and kept.go turn the answer into dated stages and what they occupy, layers.go says
//     which box comes to stand on which; ids.go gives each batch its id that the engine gave none; care.go lists care and rounds; slip.go how far work may slip.
//  6. warn.go says what the maker should know, closed.go of it what stands where it is closed, warm.go of it the room;
//     because.go why a want is short, in the words of facts.go; changes.go what is
//     otherwise than told, and why.
package planner
