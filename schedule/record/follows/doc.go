// Package follows says where a kitchen stands: what follows from its record, from the plan
// before and from what nobody spoke of. It is pure: no files, no clock, no planner.
//
// The plan before is what would have been; the record is what was said of it. [Of] lives the
// plan before through up to the planning start:
//
//	planned   make 07:30 ── set 08:30 ──────── drain 08:00 ── press 18:00      now
//	said                      not a word         did 08:40                      │
//	lived     make 07:30 ── set 08:30 ──────── drain 08:10 ── press 18:00       │
//	             └ silence: as planned             └ less its work     └ silence
//
// and gives the problem with the plan before as it went ([schedule.Problem.Lived]), so that
// planner and judge carry on from what was, and need to know of no record. People who are away,
// places that are closed, milk that was ordered or came and batches that are lost are put where
// the folder's own are.
//
// Silence is assent, but never to what cannot have been: a hold that was too short, work by
// somebody who was away, a stage before a look that was asked for, a make without its milk. What
// was taken as planned without a word is listed, to be answered.
//
// Reading order: follows.go (what is asked and given), batch.go (one batch: what is known of
// it), said.go (starts from what was said), silence.go (what nobody spoke of), answer.go (what of it is to be answered), asof.go (begun.yaml,
// and what came after it), counts.go (pieces), left.go (what targets took), seen.go (what the plan before knew of it), stands.go (where it is said to stand), offplan.go (batches that no plan had), milk.go (orders, collections, makes without),
// lots.go (what stands on the label), lives.go (what is known of each batch that has begun), looks.go (holds that are not over), kitchen.go (who is away, what is closed), packets.go (what was opened, and what curd weighed).
package follows
