// Package note says what a calendar may tell of a plan, and numbers it: a piece of
// work, a stay in the cold, a round, a carry, a target and a job with milk each have a note, and whenever that is
// another than in the earlier plan the next number.
//
// A note is all that an event tells and nothing that it does not tell. So an event that
// is written from its note alone is revised exactly when something that people see has
// changed, which is what a subscriber's calendar goes by (RFC 5545, 3.8.7.3 and
// 3.8.7.4: LAST-MODIFIED, SEQUENCE).
//
// Planning knows none of this: whoever puts a plan in force calls [Revise] first. The
// numbers are kept in the plan, and so in plan.json. How often a stage's start, end or
// place has changed belongs to the plan itself and is counted by schedule.CountMoves;
// the judge holds it against the earlier plan.
//
// Callers may rely on this: the same plans give the same notes and numbers, a plan that
// tells the same as the earlier one keeps all its numbers, and from plan to plan a
// number and its moment only go up for as long as what they are of is planned.
//
// Reading order: task.go (a piece of work), caution.go (what is to be minded on a day), day.go (rounds and targets), milk.go (milk to
// order and to collect, with its numbers), carry.go (out of closed places, likewise), stay.go (stays in the cold), revise.go and
// stays.go (the numbers of all others).
package note
