// Package trace answers what was in a piece of cheese, and where the rest of it went, months
// later: from what was kept of each batch and from the record alone, whatever became of the plan,
// of recipes and of names since. It is pure: it knows no files.
//
//	milk, its collection, the supplier's lot ──► batch ──► target, business
//	           one step back                       │          one step forward
//	                                    what is left, and the balance:
//	                          made = gone + took - back + left + gap
//
// A packet of rennet is one step back too: that which was said with a batch, else those that were open
// at the work at which the batch's recipe, as it was kept, has rennet go in; of a recipe that did not say what goes in,
// all that were open while it was made. What is asked of milk or of a packet is answered forward: all that was made of it,
// and where that went.
//
// What nobody said is assumed, and is told as such. Entries hold as everywhere: of what is struck
// nothing counts, but it is shown; of what happens once the first one written holds, of the rest
// the later. Where the record has spoken since a plan was last kept, the record holds.
//
// Reading order: archive.go (what is known, and by which names), batch.go (what is told of a
// batch), stages.go, milk.go, packets.go, leaving.go (what left, and of which batch), balance.go
// (pieces), weight.go, where.go (what is left), sales.go (market days), losses.go, ask.go (what a word means) and answer.go (what is answered);
// made.go (every batch, for whoever learns from them).
package trace
