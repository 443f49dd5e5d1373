package keys

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Sample writes the keys of a mapping as a maker would write them, each with an example, and after
// a # how it is written, what holds where it is left out, and what it means. The notes begin in one
// column; lines are at most width characters long, where words allow it.
func Sample(m *Mapping, width int) string {
	var lines []line
	sample(&lines, m, "", "")
	column := 0
	for _, l := range lines {
		if n := utf8.RuneCountInString(l.written); n > column && n <= width*2/5 {
			column = n
		}
	}
	var b strings.Builder
	for _, l := range lines {
		l.into(&b, column+2, width)
	}
	return b.String()
}

// line is one key with its example, and what is noted beside it.
type line struct{ written, note string }

// sample lists the keys of a mapping. The first one stands behind the dash of a list's entry.
func sample(lines *[]line, m *Mapping, first, rest string) {
	for i, k := range m.all() {
		before := rest
		if i == 0 {
			before = first
		}
		switch {
		case k.In == nil:
			*lines = append(*lines, line{before + k.Name + ": " + k.Example, k.note()})
		case k.Example != "": // its keys are one way of writing it
			*lines = append(*lines, line{before + k.Name + ": " + k.Example, k.note()})
			for _, in := range k.In.Keys {
				*lines = append(*lines, line{rest + "  # " + in.Name + ": " + in.Example, in.note()})
			}
		default:
			*lines = append(*lines, line{before + k.Name + ":", k.note()})
			if k.Listed {
				sample(lines, k.In, rest+"  - ", rest+"    ")
			} else {
				sample(lines, k.In, rest+"  ", rest+"  ")
			}
		}
	}
}

// note is what is told of a key in one line.
func (k *Key) note() string {
	return fmt.Sprintf("%s; %s. %s", k.As, k.absent(), sentence(k.Says))
}

// absent says what holds where the key is left out.
func (k *Key) absent() string {
	switch {
	case k.Needed():
		return "needed"
	case k.Default != "":
		return "left out: " + k.Default
	}
	return "left out: " + k.Else
}

// sentence begins with a capital and ends with a point.
func sentence(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return strings.ToUpper(string(r)) + text[n:] + "."
}

// into writes the line, its note from a column on, in as many lines as it needs.
func (l line) into(b *strings.Builder, column, width int) {
	at := utf8.RuneCountInString(l.written)
	b.WriteString(l.written)
	if at+2 > column {
		b.WriteString("\n")
		at = 0
	}
	for _, part := range broken(l.note, max(20, width-column-2)) {
		b.WriteString(strings.Repeat(" ", column-at) + "# " + part + "\n")
		at = 0
	}
}

// broken cuts a text into lines of at most so many characters, a longer word excepted.
func broken(text string, most int) (parts []string) {
	at := ""
	for _, word := range strings.Fields(text) {
		switch {
		case at == "":
			at = word
		case utf8.RuneCountInString(at)+1+utf8.RuneCountInString(word) > most:
			parts, at = append(parts, at), word
		default:
			at += " " + word
		}
	}
	return append(parts, at)
}
