// Package label makes the labels of what was packed: what stands on one, and the page from which a
// browser prints them at true size.
//
//	recipe, kitchen, what is known of the batch ──► Label ──► type that fits ──► page
//
// It fills in what a kitchen knows and decides nothing that a law does: which lines there are is the
// maker's, and the date is the maker's own estimate. A text that does not fit is refused, never cut.
//
// Reading order: content.go (what stands on a label), gs1.go (codes of a GTIN), weight.go (how much a
// pack may be short), fit.go (letters as large as there is room for), told.go (what is told beside
// the labels), page.go with page.html (sheets and cells),
// address.go (what an address of the kitchen's page asks for).
package label
