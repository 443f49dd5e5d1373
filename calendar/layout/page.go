package layout

import (
	"bytes"
	"io"
	"strings"

	"ripeby/calendar/words"
)

// Width is how many columns a page has, Narrowest how many at least: with less, units
// would be torn from their numbers.
const (
	Width     = 80
	Narrowest = 30
)

// Page is a page of plain text under construction. Nothing is guessed from the
// writer that it is for.
type Page struct {
	text  bytes.Buffer
	width int
	paint bool
}

// NewPage begins a page of so many columns, 0 for Width and none below Narrowest; in
// colour only where it is asked for.
func NewPage(width int, colour bool) Page {
	if width == 0 {
		width = Width
	}
	return Page{width: max(width, Narrowest), paint: colour}
}

// Width is how many columns the page has.
func (g *Page) Width() int { return g.width }

// Finish writes the page.
func (g *Page) Finish(w io.Writer) error {
	_, err := w.Write(g.text.Bytes())
	return err
}

// Line writes a line as it is.
func (g *Page) Line(s string) { g.text.WriteString(s + "\n") }

// Gap leaves a line empty.
func (g *Page) Gap() { g.Line("") }

// Heading writes a bold line, wrapped.
func (g *Page) Heading(s string) {
	for _, l := range words.Wrap(s, g.width) {
		g.Line(g.Bold(l))
	}
}

// Colours are the terminal's own: bold for headings, and its yellow for what
// must not be overlooked, which is said in words too.
const (
	ansiBold   = "\x1b[1m"
	ansiYellow = "\x1b[33m"
	ansiOff    = "\x1b[0m"
)

// Bold has a line stand out, where there is colour.
func (g *Page) Bold(s string) string {
	if !g.paint || s == "" {
		return s
	}
	return ansiBold + s + ansiOff
}

// Stressed colours the words that must not be overlooked, after wrapping, so that
// widths do not change.
func (g *Page) Stressed(s string) string {
	if !g.paint {
		return s
	}
	for _, word := range []string{words.Sharp, words.Missing, words.TooFull} {
		s = strings.ReplaceAll(s, word, ansiYellow+word+ansiOff)
	}
	return s
}

// Para writes wrapped lines, the first after the mark, the others indented as
// far. Nothing to say writes nothing.
func (g *Page) Para(mark, s string) {
	if s == "" {
		return
	}
	for _, l := range words.Wrap(s, g.width-len(mark)) {
		g.Line(strings.TrimRight(mark+l, " "))
		mark = strings.Repeat(" ", len(mark))
	}
}
