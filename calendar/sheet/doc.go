// Package sheet makes the batch sheet: all that one batch is to be and was, for the kitchen's wall, for the
// file, and for somebody who never saw the program.
//
//	plan ─────────────────────┐
//	what was kept and said ───┴─► Shown ─► a terminal (all of it)
//	                                └─► Paper: what one page of A4 has room for ─► a page to print
//
// What somebody said is filled in, what nobody said and is over is marked as assumed, and what is to come has a
// line to write on. What was struck does not count, and of a lost batch nothing is shown as still to come. A lot
// stands here only where it has been given, for an id would be copied onto a label.
//
// On paper letters get smaller, down to a limit, before anything is left out; what is left out is said, with how
// much of it there is and where it stands.
//
// It is pure: it knows no files and no clock, and no two calls differ.
//
// Reading order: sheet.go (what is known, and what is shown), stages.go (planned beside real), goesin.go,
// measures.go and looks.go (what stands with a stage), facts.go (milk, pieces, weight, date), after.go (care, notes,
// cautions, where it goes), paper.go (what a page has room for), cut.go (what is left out), terminal.go, html.go.
package sheet
