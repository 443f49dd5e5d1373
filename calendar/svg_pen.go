package calendar

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"
)

// Px is a pixel. All lengths are whole tenths of one, so that every machine writes the
// same bytes.
const Px = 10

// svgPen writes the elements of a picture one after another.
type svgPen struct{ drawn bytes.Buffer }

// Raw writes what is well-formed already, as fmt.Printf does.
func (d *svgPen) Raw(format string, parts ...any) { fmt.Fprintf(&d.drawn, format, parts...) }

// tenths writes a length in pixels.
func tenths(n int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	if n%Px == 0 {
		return fmt.Sprintf("%s%d", sign, n/Px)
	}
	return fmt.Sprintf("%s%d.%d", sign, n/Px, n%Px)
}

// svgText makes a text harmless and writes it as XML.
func svgText(s string) string {
	var b strings.Builder
	// A strings.Builder does not fail, and printable leaves nothing that XML forbids.
	_ = xml.EscapeText(&b, []byte(Printable(s)))
	return b.String()
}

// letterWidth is how wide one column of text of a class is taken to be. Readers'
// fonts differ, so it is on the wide side.
func letterWidth(class string) int {
	switch class {
	case "h":
		return 9 * Px
	case "b", "n":
		return 7 * Px
	}
	return 6 * Px
}

// textWidth is about how wide a text is.
func textWidth(class, s string) int { return weekWide(Printable(s)) * letterWidth(class) }

// Text writes a line of text with its baseline at y. The anchor is "" for the
// start, "m" for the middle, "e" for the end.
func (d *svgPen) Text(x, y int, class, anchor, s string) {
	if anchor != "" {
		class += " " + anchor
	}
	d.Raw("<text x=\"%s\" y=\"%s\" class=\"%s\">%s</text>\n", tenths(x), tenths(y), class, svgText(s))
}

// fitted is a text cut to a width. The whole of it stands in a title nearby.
func fitted(class, s string, width int) string {
	short, _ := shortName(Printable(s), max(width/letterWidth(class), 6))
	return short
}

// Rect writes a rectangle of a class; fill is a pattern's name or "".
func (d *svgPen) Rect(x, y, w, h int, class, fill string) {
	if fill != "" {
		fill = fmt.Sprintf(" fill=\"url(#%s)\"", fill)
	}
	if class != "" {
		class = fmt.Sprintf(" class=\"%s\"", class)
	}
	d.Raw("<rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"%s%s/>\n",
		tenths(x), tenths(y), tenths(w), tenths(h), class, fill)
}

// Line writes a straight line.
func (d *svgPen) Line(x1, y1, x2, y2 int, class string) {
	d.Raw("<path d=\"M%s %sL%s %s\" class=\"%s\"/>\n", tenths(x1), tenths(y1), tenths(x2), tenths(y2), class)
}

// Title writes what a pointer over the group tells.
func (d *svgPen) Title(s string) { d.Raw("<title>%s</title>\n", svgText(s)) }

// Page puts the head, the style and the patterns around what was drawn: a picture of so
// many tenths of a pixel, with as many colours.
func (d *svgPen) Page(title, description string, width, height, colours int) []byte {
	var out bytes.Buffer
	w, h := tenths(width), tenths(height)
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 %s %s" role="img" aria-labelledby="t d">`+"\n",
		w, h, w, h)
	fmt.Fprintf(&out, "<title id=\"t\">%s</title>\n", svgText(title))
	fmt.Fprintf(&out, "<desc id=\"d\">%s</desc>\n", svgText(description))
	out.WriteString(styleSheet(colours))
	out.WriteString(patternList())
	fmt.Fprintf(&out, "<rect class=\"bg\" width=\"%s\" height=\"%s\"/>\n", w, h)
	out.Write(d.drawn.Bytes())
	out.WriteString("</svg>\n")
	return out.Bytes()
}
