// Package layout lays out plain text: headings, paragraphs and tables on a page of so
// many columns, and tables of Markdown.
//
// A [Page] is filled from the top and written once, at the end. No line of it is wider
// than the page: paragraphs and cells are wrapped, inside a word where there is no other
// way, and a table whose columns do not fit is refused ([Page.Columns]) so that its
// caller can stack the cells instead. Colour adds to a page and never changes its text.
//
// It is the one place that knows the table library: tables come out of it the same
// whatever the terminal or the locale.
//
// Reading order: page.go (lines and colour), columns.go (tables in aligned columns),
// markdown.go (pipe tables, and text that means itself in Markdown).
package layout
