// Package planfile writes a plan as plan.json and reads it back.
//
// The format is "ripeby/plan/2". Keys are only ever added to it, so [Decode]
// passes over keys that it does not know, and [Encode] writes the keys in one
// fixed order: equal plans give equal bytes. A plan of "ripeby/plan/1", whose score
// has no late and no moved, is read as one in which both are 0. Nothing in the file is a binary
// fraction. Litres and centimetres are written out as exact decimals from whole
// millilitres and micrometres, money is in whole hundredths, lengths of time are
// whole minutes, and a moment carries the kitchen's offset at that moment.
//
// What is written and read back is equal to what was written, with one
// reservation: an empty list is read back as nil.
//
// Beside the keys of the contract the file has these:
//
//   - batches[].begun and batches[].stages[].begun: true for what has happened
//   - batches[].stages[].slip_from: the earliest start in the sense of slip_until; start
//     where it is missing
//   - batches[].stages[].critical: true for what may not begin later, as
//     [schedule.Batch.MarkCritical] says, by which it is read where it is missing
//   - targets[].want: the place of the want in its target, from 0
//   - batches[].stages[].revision and revised_text, stay_sequence and stay_revised,
//     and sequence and revised of targets, rounds and stock in the cold: how often what a calendar says of them changed, and when
//     it last did
//   - off_plan: every batch that was ever made off the plan, with the number and the moment of the
//     line of the record that says so, so that it is taken once
//   - batches[].stages[].needs[].rounded: the amount as scale, spoon or syringe can show it, 0 where that is less than
//     they can, and strength, for which it is; amounts are exact to a millionth. Where the curd is not weighed, amount
//     is its share and unit is %
//   - batches[].stages[].measures: what the recipe has written down there, with its limits and what it says outside them
//   - packets_used: what batches of which the plan knows no more took of a packet that was opened
//   - cautions: usual food-safety cautions that apply to this plan
//   - last_number: the highest number given to a batch of each code and day, so
//     that no id is used twice
//
// What a kitchen keeps of a batch that has begun ([schedule.KeptBatch]) is a file of its own, of
// the format "ripeby/batch/1", written and read by the same rules.
//
// Reading order: document.go (the keys), encode.go, decode.go, restore.go, needs.go (what goes in), measures.go (what is written down), decimal.go
// (exact decimals), fault.go (what is wrong with a file, and where); keptdocument.go, keptencode.go
// and keptdecode.go (a batch that has begun).
package planfile
