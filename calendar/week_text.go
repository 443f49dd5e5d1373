package calendar

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"
	"github.com/olekukonko/tablewriter/pkg/twwidth"

	"ripeby/resources"
)

// nameMost is how many columns of a name a week table shows. A longer one loses
// its middle, and the table says so; CSV and plan.json hold it whole.
const nameMost = 48

// glue stands between a number and its unit where they must not be torn apart.
// It reaches pages only, which need it for the same.
const glue = "\u00a0"

// printable makes a name harmless to show: control characters, marks that change
// the direction of writing, characters without a look of their own and broken
// UTF-8 are replaced by something that can be seen. Joiners stay where letters
// need them; between pictures they are dropped, since readers disagree on how
// wide the joined picture is.
func printable(s string) string {
	var b strings.Builder
	letter := false // a joiner may stand here
	for i, r := range s {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(s[i:], "\ufffd"):
			b.WriteRune('\ufffd')
		case r < 0x20:
			b.WriteRune('\u2400' + r) // the picture of the control
		case r == 0x7f:
			b.WriteRune('\u2421')
		case r == '\u200c' || r == '\u200d':
			if letter {
				b.WriteRune(r)
			}
		case r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Cc, r) ||
			unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r):
			fmt.Fprintf(&b, "<U+%04X>", r)
		case unicode.Is(unicode.Zs, r):
			b.WriteByte(' ')
		case !unicode.IsPrint(r):
			fmt.Fprintf(&b, "<U+%04X>", r)
		default:
			b.WriteRune(r)
		}
		letter = unicode.IsLetter(r) || (letter && unicode.IsMark(r))
	}
	return b.String()
}

// weekWide is how many columns a text takes: the more of what the table library
// and the terminal width library say, so that neither has to cut it. Widths do
// not depend on the locale.
func weekWide(s string) int {
	return max(weekCondition().StringWidth(s), twwidth.WidthWithOptions(s, twwidth.Options{}))
}

func weekCondition() *runewidth.Condition {
	return &runewidth.Condition{StrictEmojiNeutral: true}
}

// shortName cuts the middle out of a text that is wider than most columns, and
// reports whether it did. Beginnings and ends are what tells names apart.
func shortName(s string, most int) (string, bool) {
	if weekWide(s) <= most {
		return s, false
	}
	const dots = "..."
	cond := weekCondition()
	tail := most / 3
	head := most - tail - len(dots)
	start := fitting(s, head)
	return start + dots + cond.TruncateLeft(s, cond.StringWidth(s)-tail, ""), true
}

// fitting is the longest beginning of whole characters that is at most width
// columns wide, but at least one character.
func fitting(s string, width int) string {
	cond := weekCondition()
	for n := width; n > 0; n-- {
		if part := cond.Truncate(s, n, ""); part != "" && weekWide(part) <= width {
			return part
		}
	}
	_, n := utf8.DecodeRuneInString(s)
	return s[:n]
}

// wrapText breaks a text into lines of at most width columns, at spaces where it
// can, inside a word where it must.
func wrapText(s string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Split(s, " ") {
		if word == "" {
			continue
		}
		if line != "" && weekWide(line)+1+weekWide(word) <= width {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for weekWide(word) > width {
			part := fitting(word, width)
			if part == word {
				break
			}
			lines = append(lines, part)
			word = word[len(part):]
		}
		line = word
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	for i := range lines {
		lines[i] = unglue(lines[i])
	}
	return lines
}

func unglue(s string) string { return strings.ReplaceAll(s, glue, " ") }

// lengthText writes a length of time, as in "1 h 20 min".
func lengthText(m resources.Minutes) string { return glueUnits(resources.FormatMinutes(m)) }

// litresText writes a volume, as in "7.5 L".
func litresText(v resources.Millilitres) string { return glueUnits(resources.FormatVolume(v)) }

// degreesText writes a temperature, as in "4 °C".
func degreesText(t resources.MilliCelsius) string { return glueUnits(resources.ShowTemperature(t)) }

// glueUnits keeps each number and the word after it on one line.
func glueUnits(s string) string {
	b := []byte(s)
	var out strings.Builder
	for i, c := range b {
		if c == ' ' && i > 0 && b[i-1] >= '0' && b[i-1] <= '9' {
			out.WriteString(glue)
			continue
		}
		out.WriteByte(c)
	}
	return out.String()
}

// countText writes a number of things, as in "1 box", "16 pieces".
func countText(n int, one, many string) string {
	if n == 1 {
		return "1" + glue + one
	}
	return fmt.Sprintf("%d%s%s", n, glue, many)
}
