// Package since tells what has become otherwise since the earlier plan of a problem was made: lines of
// the record, targets, entries of begun.yaml, and things of the kitchen. It is pure, and decides
// nothing: which of it made work move is asked by planning again without it.
//
//	earlier plan ── made of (schedule.MadeOf) ──┐
//	                                            ├─ what is otherwise ─ and the problem without it
//	folder and record now ──────────────────────┘
//
// What was taken away or changed of the kitchen is known by a digest alone, so there is no problem
// without it: it is named, and not asked about.
//
// Reading order: madeof.go (what a plan remembers), since.go (what is otherwise), targets.go.
package since
