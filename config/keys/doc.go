// Package keys is the table of all keys that a maker may write into a kitchen folder: how the value
// of each is written, what holds where it is left out, an example, and what it means.
//
// The reader of the folder (package config) goes by it: which keys there are, which are needed, and
// what is taken where one is left out. So does what ripeby keys prints, which therefore cannot go
// stale. What a value has to be beyond its kind, the reader says.
//
// Read in this order: key.go (what a key is), kitchen.go, recipe.go, targets.go and begun.go (the
// tables, in the order in which makers write them; that of the record stands with its reader, in
// package recordfile), kinds.go (how values are written), sample.go, markdown.go and table.go (the three
// ways in which the table is shown), page.go (several files together).
package keys
