package week

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"ripeby/calendar/layout"
	"ripeby/calendar/words"
)

// writeMarkdown writes the week with pipe tables, one a day.
func writeMarkdown(w io.Writer, s *oneWeek) error {
	var buf bytes.Buffer
	pen := &cellPen{words.Pen{Zone: s.zone, Most: words.NameMost, Escape: layout.MarkdownText}}
	fmt.Fprintf(&buf, "## %s\n\n%s\n", s.title(pen), s.period(pen))
	if sum := s.summary(pen); sum != "" {
		fmt.Fprintf(&buf, "\n%s\n", sum)
	}
	if s.empty() {
		fmt.Fprintf(&buf, "\n%s\n", strings.Join(s.nothing(pen), "\n"))
	}
	for _, d := range s.days {
		if len(d.rows) == 0 && len(d.changes) == 0 {
			continue
		}
		fmt.Fprintf(&buf, "\n### %s\n\n", words.Day(d.date))
		for _, c := range d.changes {
			fmt.Fprintf(&buf, "**%s**\n\n", c.text())
		}
		var rows [][]string
		for i := range d.rows {
			rows = append(rows, pen.cells(&d.rows[i], d.date))
		}
		if err := layout.MarkdownTable(&buf, workHeads, rows); err != nil {
			return err
		}
	}
	if s.anySharp() {
		fmt.Fprintf(&buf, "\n%s\n", words.SharpNote)
	}
	if len(s.fills) > 0 {
		buf.WriteString("\n### Cold places, at the fullest moment of each day\n\n")
		if err := layout.MarkdownTable(&buf, pen.fillHeads(s.fills), pen.fillRows(s)); err != nil {
			return err
		}
	}
	for _, section := range s.sections(pen) {
		fmt.Fprintf(&buf, "\n### %s\n\n", section.title)
		for _, l := range section.lines {
			fmt.Fprintf(&buf, "- %s\n", l)
		}
	}
	if pen.Cut {
		fmt.Fprintf(&buf, "\n%s\n", cutNote)
	}
	_, err := io.WriteString(w, words.Unglue(buf.String()))
	return err
}
