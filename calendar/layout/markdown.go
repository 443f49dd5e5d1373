package layout

import (
	"io"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// MarkdownTable writes rows that hold no line break and no bare pipe.
func MarkdownTable(w io.Writer, heads []string, rows [][]string) error {
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

// MarkdownText makes a printable text mean itself in GitHub-flavoured Markdown,
// inside a table too: nothing in it becomes markup, a link, a mention or HTML.
func MarkdownText(s string) string {
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
