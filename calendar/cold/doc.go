// Package cold shows what a plan stands in the cold places: how full they are day by
// day, what stands where at a moment, and whether more boxes have a place.
//
// schedule/coldroom knows these things; here they become texts and pictures. [Table] is
// how full each shelf is by day, [Map] draws shelves with plain characters, [Picture] as
// an SVG, [PartPicture] one of them, [Answer] and [AnswerPicture] tell of boxes that were asked for, and [Show]
// gives a moment as plain values for whoever draws a page.
//
// Callers may rely on this: the same problem, plan and options give the same bytes; a
// batch has the same letter on every map of a moment, whichever part is shown; every box
// of the plan is on the map or is said to be missing from it; no line is wider than the
// width.
//
// Reading order: page.go (what is shown), table.go (each shelf by day), map.go and
// draw.go (what stands where at a moment), csv.go (the table for a
// spreadsheet), answer.go (whether more boxes have a place),
// picture.go, small.go (one part alone), shown.go.
package cold
