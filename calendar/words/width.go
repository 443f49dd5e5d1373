package words

import (
	"strings"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"
	"github.com/olekukonko/tablewriter/pkg/twwidth"
)

// Wide is how many columns a text takes: the more of what the table library
// and the terminal width library say, so that neither has to cut it. Widths do
// not depend on the locale.
func Wide(s string) int {
	return max(widths().StringWidth(s), twwidth.WidthWithOptions(s, twwidth.Options{}))
}

func widths() *runewidth.Condition {
	return &runewidth.Condition{StrictEmojiNeutral: true}
}

// Short cuts the middle out of a text that is wider than most columns, and
// reports whether it did. Beginnings and ends are what tells names apart.
func Short(s string, most int) (string, bool) {
	if Wide(s) <= most {
		return s, false
	}
	const dots = "..."
	cond := widths()
	tail := most / 3
	head := most - tail - len(dots)
	start := fitting(s, head)
	return start + dots + cond.TruncateLeft(s, cond.StringWidth(s)-tail, ""), true
}

// fitting is the longest beginning of whole characters that is at most width
// columns wide, but at least one character.
func fitting(s string, width int) string {
	cond := widths()
	for n := width; n > 0; n-- {
		if part := cond.Truncate(s, n, ""); part != "" && Wide(part) <= width {
			return part
		}
	}
	_, n := utf8.DecodeRuneInString(s)
	return s[:n]
}

// Wrap breaks a text into lines of at most width columns, at spaces where it
// can, inside a word where it must.
func Wrap(s string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Split(s, " ") {
		if word == "" {
			continue
		}
		if line != "" && Wide(line)+1+Wide(word) <= width {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for Wide(word) > width {
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
		lines[i] = Unglue(lines[i])
	}
	return lines
}
