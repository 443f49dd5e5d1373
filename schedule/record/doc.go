// Package record holds what a kitchen said back: entries, in the order in which they
// were written, and which of them hold. It is plain types and no more: no files, no YAML,
// no planner. config/recordfile reads and writes the lines.
//
// An [Entry] says of exactly one [Subject], at one moment, one or more facts. A fact that
// may be left out and whose zero means something is a [Said]; of texts, lists and truths
// the zero is what nobody says. A [Book] has the entries of all months. What is struck
// stays in it and is passed over by what asks what holds.
//
//	41  began make        ┐ the first written of a stage holds, a second is told
//	42  pieces 14         ┐ the later `at` holds, of equals the later written
//	43  pieces 13         ┘
//	44  strikes 43          so that 42 holds again
//
// Reading order: said.go, entry.go, facts.go (what each subject may be said to have),
// same.go (when two entries are one), book.go (all entries, which are struck), holds.go
// (which hold), inturn.go (of which batch the pieces were that left); then what is said is
// checked before it is written: known.go (what it may refer to), check.go, order.go (of
// stages, and counts).
package record
