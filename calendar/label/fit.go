package label

import (
	"fmt"

	"ripeby/calendar/qr"
	"ripeby/calendar/words"
	"ripeby/resources"
)

// The measures of a label in millimetres.
const (
	largest  = 4.0  // letters
	smallest = 1.75 // letters, whose small ones are then 0.9 mm high
	heading  = 1.3  // the name is so much larger
	leading  = 1.2  // a line is so much higher than its letters
	border   = 1.5  // kept free at each edge
	module   = 0.4  // of a code, a dark or light square: what cameras read from an arm's length
	besides  = 1.0  // between text and code
)

// Setting is how a label is set: the size of its letters and the side of its code in millimetres.
type Setting struct{ Letters, Code float64 }

// TooMuch says that what is to stand on a label does not fit.
type TooMuch struct {
	Label *Label
	Size  resources.Area
}

// Error gives the way out.
func (e *TooMuch) Error() string {
	return fmt.Sprintf("what is to stand on the label of %s does not fit on %s in letters of %.2f mm; leave lines out (label: lines: [name, lot, use_by] in kitchen.yaml), shorten a text, or take a larger label",
		words.Printable(e.Label.Lot.Cheese), resources.FormatArea(e.Size), smallest)
}

// fit finds the largest letters in which all lines have room. The error is a [*TooMuch].
func (l *Label) fit(size resources.Area) (Setting, error) {
	var s Setting
	if l.Code != "" {
		side, err := qr.Side(l.Code)
		if err != nil {
			return s, err
		}
		s.Code = float64(side) * module
	}
	wide, high := float64(size.Width)/1000-2*border, float64(size.Height)/1000-2*border
	if s.Code > 0 {
		if wide -= s.Code + besides; s.Code > high {
			return s, &TooMuch{l, size}
		}
	}
	for s.Letters = largest; s.Letters >= smallest-0.001; s.Letters -= 0.05 {
		if l.height(s.Letters, wide) <= high {
			return s, nil
		}
	}
	return s, &TooMuch{l, size}
}

// height is how high the lines are, in letters of a size and so wide a room; more than any label
// where a letter would not fit.
func (l *Label) height(letters, wide float64) float64 {
	sum := 0.0
	for _, line := range l.Lines {
		size := letters
		if line.Kind == resources.LineName {
			size *= heading
		}
		if wide < 4*size {
			return 1e9
		}
		sum += float64(rows(line, wide/size)) * size * leading
	}
	return sum
}

// rows is how many rows a line takes in a room so many letters wide.
func rows(line Line, room float64) int {
	bold := 1.0
	if line.Parts[0].Bold {
		bold = 1.1
	}
	return words.Rows(line.Text(), room, bold)
}
