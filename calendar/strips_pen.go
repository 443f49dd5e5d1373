package calendar

import (
	"encoding/xml"
	"fmt"
	"strings"
)

// tenths writes a length in pixels.
func tenths(n int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	if n%px == 0 {
		return fmt.Sprintf("%s%d", sign, n/px)
	}
	return fmt.Sprintf("%s%d.%d", sign, n/px, n%px)
}

// svgText makes a text harmless and writes it as XML.
func svgText(s string) string {
	var b strings.Builder
	// A strings.Builder does not fail, and printable leaves nothing that XML forbids.
	_ = xml.EscapeText(&b, []byte(printable(s)))
	return b.String()
}

// letter is how wide one column of text of a class is taken to be. Readers'
// fonts differ, so it is on the wide side.
func letterWidth(class string) int {
	switch class {
	case "h":
		return 9 * px
	case "b", "n":
		return 7 * px
	}
	return 6 * px
}

// textWidth is about how wide a text is.
func textWidth(class, s string) int { return weekWide(printable(s)) * letterWidth(class) }

// text writes a line of text with its baseline at y. The anchor is "" for the
// start, "m" for the middle, "e" for the end.
func (d *stripsPicture) text(x, y int, class, anchor, s string) {
	if anchor != "" {
		class += " " + anchor
	}
	fmt.Fprintf(&d.buf, "<text x=\"%s\" y=\"%s\" class=\"%s\">%s</text>\n", tenths(x), tenths(y), class, svgText(s))
}

// fitted is a text cut to a width. The whole of it stands in a title nearby.
func fitted(class, s string, width int) string {
	short, _ := shortName(printable(s), max(width/letterWidth(class), 6))
	return short
}

// rect writes a rectangle of a class; fill is a pattern's name or "".
func (d *stripsPicture) rect(x, y, w, h int, class, fill string) {
	if fill != "" {
		fill = fmt.Sprintf(" fill=\"url(#%s)\"", fill)
	}
	if class != "" {
		class = fmt.Sprintf(" class=\"%s\"", class)
	}
	fmt.Fprintf(&d.buf, "<rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"%s%s/>\n",
		tenths(x), tenths(y), tenths(w), tenths(h), class, fill)
}

// line writes a straight line.
func (d *stripsPicture) line(x1, y1, x2, y2 int, class string) {
	fmt.Fprintf(&d.buf, "<path d=\"M%s %sL%s %s\" class=\"%s\"/>\n", tenths(x1), tenths(y1), tenths(x2), tenths(y2), class)
}

// title writes what a pointer over the group tells.
func (d *stripsPicture) title(s string) { fmt.Fprintf(&d.buf, "<title>%s</title>\n", svgText(s)) }

// packing puts things side by side into as few rows as one pass finds.
type packing struct{ ends []int }

// row is the first row that is free from left on, taken until right.
func (p *packing) row(left, right int) int {
	for i, end := range p.ends {
		if end <= left {
			p.ends[i] = right
			return i
		}
	}
	p.ends = append(p.ends, right)
	return len(p.ends) - 1
}
