// Package week shows one week's work as the table that hangs on the wall.
//
// [Table] writes an ISO week for a terminal, as Markdown or as CSV: a row for each piece
// of work, each round, each order and collection of milk and each target that leaves; under them how full the cold places
// are, the milk to order and to collect, what is missing, what to watch and the cautions.
// All forms have their rows, cells and notes from the same places and differ in layout
// alone. What a page shows of the same work, in the same words, is given as plain values
// for whoever draws it: the week ([Show]), jobs and what leaves ([ShowJobs]), all batches
// ([ShowBatches]) and one batch's sheet ([ShowSheet]).
//
// Callers may rely on this: the same problem, plan and options give the same bytes; no
// line is wider than the width, and no name, however odd, adds to a page; columns of the
// CSV are only ever added, at the end.
//
// Reading order: table.go (the week and its forms), rows.go (what stands in it), cells.go
// (a row in words), needs.go (what goes in), measures.go (what is written down), milk.go, changes.go (of the clocks), notes.go (what stands under the
// table), then one file a form: terminal.go, markdown.go, csv.go; and for pages facts.go,
// shown.go (the week), lines.go and fold.go (a line each, and what is over folded), jobs.go, batches.go, sheet.go.
package week
