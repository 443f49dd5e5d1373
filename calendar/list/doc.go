// Package list says what to take along to a target: of which cheese and lot, how many pieces, out of
// which place, shelf and box, and until when they keep; with blanks for what was taken, what came back
// and when it was sold out. What goes to another business has a delivery note, with what a consignment
// of food of animal origin is asked to tell ([Note]).
//
// A lot stands here only where it has been given (a batch gets it when its make is known to have begun):
// else there is a blank, for an id would be copied onto a label.
//
// Reading order: find.go (which target is meant), share.go (which pieces it has, and where they stand),
// list.go (what is shown), receiver.go (which business a note is for), note.go (the delivery note),
// terminal.go, html.go and csv.go (both in a terminal, as a page and for a spreadsheet).
package list
