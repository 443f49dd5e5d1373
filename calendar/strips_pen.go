package calendar

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"
)

// svgPen writes the elements of a picture one after another.
type svgPen struct{ buf bytes.Buffer }

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

// letterWidth is how wide one column of text of a class is taken to be. Readers'
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
func (d *svgPen) text(x, y int, class, anchor, s string) {
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
func (d *svgPen) rect(x, y, w, h int, class, fill string) {
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
func (d *svgPen) line(x1, y1, x2, y2 int, class string) {
	fmt.Fprintf(&d.buf, "<path d=\"M%s %sL%s %s\" class=\"%s\"/>\n", tenths(x1), tenths(y1), tenths(x2), tenths(y2), class)
}

// title writes what a pointer over the group tells.
func (d *svgPen) title(s string) { fmt.Fprintf(&d.buf, "<title>%s</title>\n", svgText(s)) }

// svgPage puts the head, the style and the patterns around what was drawn: a page of
// so many tenths of a pixel, with as many colours of places.
func svgPage(title, description string, width, height, places int, drawn []byte) []byte {
	var out bytes.Buffer
	w, h := tenths(width), tenths(height)
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 %s %s" role="img" aria-labelledby="t d">`+"\n",
		w, h, w, h)
	fmt.Fprintf(&out, "<title id=\"t\">%s</title>\n", svgText(title))
	fmt.Fprintf(&out, "<desc id=\"d\">%s</desc>\n", svgText(description))
	out.WriteString(stripsStyle(places))
	out.WriteString(stripsPatterns())
	fmt.Fprintf(&out, "<rect class=\"bg\" width=\"%s\" height=\"%s\"/>\n", w, h)
	out.Write(drawn)
	out.WriteString("</svg>\n")
	return out.Bytes()
}

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
