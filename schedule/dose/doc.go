// Package dose says how much of what goes into each batch, and which packet it comes from.
//
// It scales what a recipe writes, exactly, and rounds it to what a scale, a spoon or a syringe can show. How much a
// cheese needs is the maker's own to say: suppliers of rennet differ by more than two and a half times.
//
//	4.5 IMCU per litre x 8 L = 36 IMCU ── / 200 IMCU per mL ──► 0.18 mL
//	                                        of the packet that is open then, else the recipe's
//
// [Fill] does so for a whole plan, after it was planned: no start and no person goes by it. [Sums] adds up what a
// stretch of time takes.
//
// Reading order: scale.go (one dose), round.go (what can be measured), fill.go (a plan, and what was given already),
// packets.go (what runs out, and what is past its date), sums.go; and beside any plan once.go (one dose), brine.go and
// blend.go (what is mixed at the sink).
package dose
