// Package explain says why a demand is short, and what more a plan in force could give.
//
// # Theory
//
// A fact is that a thing is as it is: so many of a pool, a worker's hours on one day. Beside
// every pool, space, worker and supply stands a way round it, one that never ends
// (problem.WaysRound); while the literal of a fact is assumed, the ways round its thing are
// shut. So one statement, and what the kernel has learned from it, answers for every choice of
// facts. The question is one unit more of a demand while no other gets less; the core of a
// refusal, made smaller by deletion, is a reason. Then its facts are lifted and the next one
// is looked for: Reiter, "A theory of diagnosis from first principles" (1987) calls these
// conflict sets; Junker, "QuickXplain" (2004), for what makes them readable: the order of
// deletion is a preference, hours first.
//
// With a plan comes a short look: one set of facts a demand, for a small part of what the plan
// took ([Reasons]). Where the plan's proof rules the unit out, that stands (provedMost), and only
// the facts are looked for. The whole, up to three sets of which each is least, is an [Inquiry]'s.
//
// An [Inquiry] asks the same of a plan in force that is held in place by one more literal a
// job, so that it can be told what moves.
//
// Of a plan too long to be stated whole, what is near the demand is stated twice: with the
// rest frozen beside it, where an answer is a plan, and with the rest left out and nothing asked that a
// plan might not give, where the lack of an answer is a proof.
//
// # Invariants
//
//   - Each set of a reason forbids the unit by itself, whatever the other facts were; with Least
//     none of its facts can be left out (TestAReasonIsWhatForbids holds both against all plans).
//   - "Cannot" is only said of what was refuted, here or by the plan's proof; work that runs out
//     is said to be open.
//   - Nothing of an inquiry changes the plan.
//
// Reading order: reasons.go, shrink.go, proved.go, reason.go; then inforce.go, inquiry.go, tables.go,
// fit.go, most.go, soonest.go; changed.go.
package explain
