// Package svg writes pictures: a pen for the elements of an SVG, and the page, style and
// patterns around them.
//
// All lengths are whole tenths of a pixel ([Px]), so that every machine writes the same
// bytes. A text is made harmless and escaped on its way in, and only [Pen.Raw] writes
// what its caller answers for. A picture stands alone, with no script and nothing from
// elsewhere, follows the reader's light or dark scheme, and has a title and a
// description for those who do not see it.
//
// Classes of text are h (the heading), b (bold), n (plain), s (small) and k (small, over
// something drawn); those of shapes are in the style sheet.
//
// Reading order: pen.go, style.go (colours, patterns, the style sheet).
package svg
