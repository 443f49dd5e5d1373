package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"

	"ripeby/calendar/words"
)

// Px is a pixel; a length is a number of tenths of one.
const Px = 10

// Pen writes the elements of a picture one after another.
type Pen struct{ drawn bytes.Buffer }

// Raw writes what is well-formed already, as fmt.Printf does.
func (d *Pen) Raw(format string, parts ...any) { fmt.Fprintf(&d.drawn, format, parts...) }

// Pixels writes a length in pixels.
func Pixels(n int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	if n%Px == 0 {
		return fmt.Sprintf("%s%d", sign, n/Px)
	}
	return fmt.Sprintf("%s%d.%d", sign, n/Px, n%Px)
}

// Escape makes a text harmless and writes it as XML.
func Escape(s string) string {
	var b strings.Builder
	// A strings.Builder does not fail, and printable leaves nothing that XML forbids.
	_ = xml.EscapeText(&b, []byte(words.Printable(s)))
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

// TextWidth is about how wide a text is.
func TextWidth(class, s string) int { return words.Wide(words.Printable(s)) * letterWidth(class) }

// Text writes a line of text with its baseline at y. The anchor is "" for the
// start, "m" for the middle, "e" for the end.
func (d *Pen) Text(x, y int, class, anchor, s string) {
	if anchor != "" {
		class += " " + anchor
	}
	d.Raw("<text x=\"%s\" y=\"%s\" class=\"%s\">%s</text>\n", Pixels(x), Pixels(y), class, Escape(s))
}

// Fitted is a text cut to a width. The whole of it stands in a title nearby.
func Fitted(class, s string, width int) string {
	short, _ := words.Short(words.Printable(s), max(width/letterWidth(class), 6))
	return short
}

// Rect writes a rectangle of a class; fill is a pattern's name or "".
func (d *Pen) Rect(x, y, w, h int, class, fill string) {
	if fill != "" {
		fill = fmt.Sprintf(" fill=\"url(#%s)\"", fill)
	}
	if class != "" {
		class = fmt.Sprintf(" class=\"%s\"", class)
	}
	d.Raw("<rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"%s%s/>\n",
		Pixels(x), Pixels(y), Pixels(w), Pixels(h), class, fill)
}

// Line writes a straight line.
func (d *Pen) Line(x1, y1, x2, y2 int, class string) {
	d.Raw("<path d=\"M%s %sL%s %s\" class=\"%s\"/>\n", Pixels(x1), Pixels(y1), Pixels(x2), Pixels(y2), class)
}

// Title writes what a pointer over the group tells.
func (d *Pen) Title(s string) { d.Raw("<title>%s</title>\n", Escape(s)) }

// Page puts the head, the style and the patterns around what was drawn: a picture of so
// many tenths of a pixel, with as many colours.
func (d *Pen) Page(title, description string, width, height, colours int) []byte {
	var out bytes.Buffer
	w, h := Pixels(width), Pixels(height)
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 %s %s" role="img" aria-labelledby="t d">`+"\n",
		w, h, w, h)
	fmt.Fprintf(&out, "<title id=\"t\">%s</title>\n", Escape(title))
	fmt.Fprintf(&out, "<desc id=\"d\">%s</desc>\n", Escape(description))
	out.WriteString(styleSheet(colours))
	out.WriteString(patternList())
	fmt.Fprintf(&out, "<rect class=\"bg\" width=\"%s\" height=\"%s\"/>\n", w, h)
	out.Write(d.drawn.Bytes())
	out.WriteString("</svg>\n")
	return out.Bytes()
}
