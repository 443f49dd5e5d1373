// Package recordfile reads and writes the files of the record: record/2027-03.yaml, one a
// month, one entry a line, in the order of writing.
//
//   - {nr: 41, at: "2027-03-12 08:20", who: "Nell", batch: "AB-270312-1", did: "make"}
//
// Whole lines are added at the end, and nothing in a file is ever changed or taken away. A
// line has one of three ends: it is whole and read; it was cut before its closing brace,
// stays, is told, and counts for nothing; or it is whole and wrong, which is a fault with
// file, line and column, all of them at once.
//
// Texts are taken as they are written, whatever YAML would make of them, and what is
// written has every text in quotation marks, so that every reader of YAML agrees.
//
// Adding takes a lock, reads what is there, writes once, and flushes file and folder before
// it says that something is kept. A write that failed is never gone on with:
//
//	killed or failed     what may be there            what the next one does
//	before the write     nothing                      says it again
//	within the write     nothing, or a line cut       begins a line of its own, says it again
//	before the flush     nothing, a line cut, or all  finds its word (once), and flushes
//	before the answer    all                          finds its word
//
// Reading order: limits.go, table.go and keys.go (the table of keys), scan.go and quoted.go (a line taken
// apart), fields.go, entry.go and facts.go (an entry made of it), month.go (a file and its
// three ends), format.go (a line written), said.go (the same for people), columns.go (for a
// table), compose.go (an entry of single values), files.go (names and their order), append.go
// (adding), say.go (checked first), disk.go (what it asks of a disk), diskos.go with lock_unix.go, lock_windows.go
// and lock_other.go (the machine's own).
package recordfile
