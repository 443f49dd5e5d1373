package calendar

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// writeWeekMarkdown writes the sheet with pipe tables, one a day.
func writeWeekMarkdown(w io.Writer, s *weekSheet) error {
	var buf bytes.Buffer
	pen := &weekPen{zone: s.zone, most: nameMost, escape: markdownText}
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
		fmt.Fprintf(&buf, "\n### %s\n\n", dayName(d.date))
		for _, c := range d.changes {
			fmt.Fprintf(&buf, "**%s**\n\n", c.text())
		}
		var rows [][]string
		for i := range d.rows {
			rows = append(rows, pen.cells(&d.rows[i], d.date))
		}
		if err := markdownTable(&buf, weekHeads, rows); err != nil {
			return err
		}
	}
	if s.anySharp() {
		fmt.Fprintf(&buf, "\n%s\n", SharpNote)
	}
	if len(s.fills) > 0 {
		buf.WriteString("\n### Cold places, at the fullest moment of each day\n\n")
		if err := markdownTable(&buf, pen.fillHeads(s.fills), pen.fillRows(s)); err != nil {
			return err
		}
	}
	for _, section := range s.sections(pen) {
		fmt.Fprintf(&buf, "\n### %s\n\n", section.title)
		for _, l := range section.lines {
			fmt.Fprintf(&buf, "- %s\n", l)
		}
	}
	if pen.cut {
		fmt.Fprintf(&buf, "\n%s\n", cutNote)
	}
	_, err := io.WriteString(w, unglue(buf.String()))
	return err
}

// markdownTable writes rows that hold no line break and no bare pipe.
func markdownTable(w io.Writer, heads []string, rows [][]string) error {
	if len(rows) == 0 {
		return nil
	}
	t := tablewriter.NewTable(w,
		tablewriter.WithRenderer(renderer.NewMarkdown()),
		tablewriter.WithEastAsian(tw.Off),
		tablewriter.WithHeaderAutoFormat(tw.Off),
		tablewriter.WithHeaderAutoWrap(tw.WrapNone), tablewriter.WithRowAutoWrap(tw.WrapNone),
		tablewriter.WithHeaderAlignment(tw.AlignLeft), tablewriter.WithRowAlignment(tw.AlignLeft))
	t.Header(heads)
	for _, r := range rows {
		if err := t.Append(r); err != nil {
			return err
		}
	}
	return t.Render()
}

// markdownText makes a printable text mean itself in GitHub-flavoured Markdown,
// inside a table too: nothing in it becomes markup, a link, a mention or HTML.
func markdownText(s string) string {
	var b strings.Builder
	digits := true // only digits so far: a point would begin a list
	for i, r := range s {
		switch {
		case strings.ContainsRune("\\`*_{}[]<>#|~&!@$^", r),
			r == ':' && strings.HasPrefix(s[i:], "://"),
			r == '.' && i >= 3 && strings.EqualFold(s[i-3:i], "www"),
			i == 0 && strings.ContainsRune("-+=", r),
			digits && i > 0 && (r == '.' || r == ')'):
			b.WriteByte('\\')
		}
		digits = digits && '0' <= r && r <= '9'
		b.WriteRune(r)
	}
	return b.String()
}
