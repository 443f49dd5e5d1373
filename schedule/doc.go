// Package schedule holds the trade's own types: what is to be made (recipes,
// stages, targets), what is under way, the planning problem that they pose, and
// the plan that answers it. It knows no engine, no files, no HTTP, no iCalendar.
//
// # Flow
//
//  1. config reads a kitchen folder into a [Problem].
//  2. schedule/planner turns a Problem into a [Plan] with the engine's help.
//  3. schedule/judge checks the Plan against the Problem, by the contract alone.
//  4. schedule/planfile writes the Plan as plan.json and reads it back.
//  5. calendar/note numbers what a calendar says of a Plan that is put in force, and
//     the rooms of calendar turn it into events, tables and drawings; schedule/coldroom
//     says what stands where.
//
// # Glossary
//
//   - work: hands-on minutes of one person, not interrupted
//   - hold: the wait after the work of a stage: least, best, most
//   - stage: work, then a hold; either may be absent
//   - batch: one run of one recipe, in one pot
//   - run of kit: consecutive stages that keep the same pot, moulds, boxes, station
//   - target: a moment at which packed pieces leave the kitchen
//   - want: so many pieces of one cheese at one target, at one price
//   - begun: not to be moved, because it has happened
//   - slip: how far a piece of work may go sooner or later with everything else kept
//   - critical: may go no later, however short the waits after it; "sharp" on screens
//
// Reading order: recipe.go, temperature.go (holds by how warm the room is), settime.go (bounds of set times), need.go (what goes into a cheese), measure.go (what is written down), label.go, target.go, begun.go, left.go (what has left), problem.go, settled.go, plan.go, numbers.go (ids and lots), milk.go (milk to order and
// to collect), score.go,
// proved.go (what the proof rules out), critical.go (what may not be late), overdue.go (what should have begun), caution.go (food safety), named.go and listed.go
// (finding and counting in words), moves.go and change.go (two plans side by side), madeof.go (what a plan was made from), look.go (looks at holds that were not over), carried.go (what is carried out of closed places),
// keptbatch.go (what is kept of a batch that has begun).
package schedule
