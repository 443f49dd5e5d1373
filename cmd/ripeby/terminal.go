package main

import (
	"io"
	"os"
	"strings"
	"unicode"

	"golang.org/x/term"

	"ripeby/calendar/layout"
)

// standardWidth is how wide tables are where there is no terminal.
const standardWidth = 100

// unknownWidth is taken for a terminal that does not tell its width.
const unknownWidth = 80

// terminalWidth gives the width of the terminal behind a stream; it is not ok
// when there is none.
func terminalWidth(stream any) (width int, ok bool) {
	f, isFile := stream.(*os.File)
	if !isFile || !term.IsTerminal(int(f.Fd())) {
		return 0, false
	}
	width, _, err := term.GetSize(int(f.Fd()))
	if err != nil || width <= 0 {
		width = unknownWidth
	}
	return width, true
}

// look is how tables go to standard output.
type look struct {
	width  int
	colour bool
}

// look decides on width and colour of what goes to standard output.
func (p *program) look(s *settings) look {
	width, isTerminal := terminalWidth(p.rawOut)
	l := look{width: standardWidth, colour: s.colour == "always"}
	if isTerminal {
		l.width = width
	}
	if s.width > 0 {
		l.width = s.width
	}
	l.width = max(l.width, layout.Narrowest)
	if s.colour == "auto" {
		l.colour = isTerminal && p.env("NO_COLOR") == "" && p.env("TERM") != "dumb"
	}
	return l
}

// line writes a text that holds names from the folder: what would steer a
// terminal or break the line is shown as a question mark.
func line(w io.Writer, text string) {
	_, _ = io.WriteString(w, plain(text)+"\n") // resultWriter keeps the error
}

// plainLines is plain for a text of several lines.
func plainLines(text string) string {
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = plain(lines[i])
	}
	return strings.Join(lines, "\n")
}

// plain replaces what would steer a terminal.
func plain(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029' {
			return '?'
		}
		return r
	}, text)
}
