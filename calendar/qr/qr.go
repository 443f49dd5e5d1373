// Package qr draws addresses as QR codes (ISO/IEC 18004), for a terminal and for a page.
package qr

import (
	"fmt"
	"html/template"
	"strings"

	goqr "github.com/piglig/go-qr"
)

// quiet is how many empty modules a code needs around it (ISO/IEC 18004, 6.3.8).
const quiet = 4

// square is a text as a square of dark and light modules. It mends up to 15 % of
// damage, as much as a screen needs.
type square struct{ code *goqr.QrCode }

func newSquare(text string) (square, error) {
	code, err := goqr.EncodeText(text, goqr.Medium)
	if err != nil {
		return square{}, fmt.Errorf("drawing an address as a QR code: %w", err)
	}
	return square{code}, nil
}

// dark reports on a module, the empty border included.
func (q square) dark(x, y int) bool {
	x, y = x-quiet, y-quiet
	return x >= 0 && y >= 0 && x < q.code.Size() && y < q.code.Size() && q.code.Module(x, y)
}

// side is how many modules a side has with its border.
func (q square) side() int { return q.code.Size() + 2*quiet }

// Terminal draws a text as a QR code for a terminal, two modules a character. With
// colour it is black on white whatever the terminal's own colours are; without, it
// is right for a dark terminal, and most cameras read it the other way round too.
func Terminal(text string, colour bool) (string, error) {
	q, err := newSquare(text)
	if err != nil {
		return "", err
	}
	// The blocks are the light modules: they are in the terminal's writing colour.
	blocks := map[[2]bool]string{{true, true}: " ", {true, false}: "▄", {false, true}: "▀", {false, false}: "█"}
	var b strings.Builder
	for y := 0; y < q.side(); y += 2 {
		if colour {
			b.WriteString("\x1b[38;5;231;48;5;16m")
		}
		for x := range q.side() {
			b.WriteString(blocks[[2]bool{q.dark(x, y), y+1 >= q.side() || q.dark(x, y+1)}])
		}
		if colour {
			b.WriteString("\x1b[0m")
		}
		b.WriteByte('\n')
	}
	return b.String(), nil
}

// Page draws a text as a QR code for a page. It needs no style: black on white is
// what a camera reads.
func Page(text, label string) (template.HTML, error) {
	q, err := newSquare(text)
	if err != nil {
		return "", err
	}
	return template.HTML(fmt.Sprintf(`<svg class="qr" role="img" aria-label="%s" viewBox="0 0 %d %d" shape-rendering="crispEdges">`+
		`<rect width="100%%" height="100%%" fill="#fff"/><path fill="#000" d="%s"/></svg>`,
		template.HTMLEscapeString(label), q.side(), q.side(), q.path())), nil
}

// Side is how many modules a side of the code of a text has, its empty border included.
func Side(text string) (int, error) {
	q, err := newSquare(text)
	if err != nil {
		return 0, err
	}
	return q.side(), nil
}

// Symbol draws a text as a symbol of a page, which is placed as often as wanted with
// <use href="#id">; its side is as many units as [Side] says.
func Symbol(text, id string) (template.HTML, error) {
	q, err := newSquare(text)
	if err != nil {
		return "", err
	}
	return template.HTML(fmt.Sprintf(`<symbol id="%s" viewBox="0 0 %d %d"><path fill="#000" shape-rendering="crispEdges" d="%s"/></symbol>`,
		template.HTMLEscapeString(id), q.side(), q.side(), q.path())), nil
}

// path goes round every dark module.
func (q square) path() string {
	var path strings.Builder
	for y := range q.side() {
		for x := range q.side() {
			if q.dark(x, y) {
				fmt.Fprintf(&path, "M%d %dh1v1h-1z", x, y)
			}
		}
	}
	return path.String()
}
