package layout

import (
	"bytes"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"

	"ripeby/calendar/words"
)

// Table is a table as plain values; the first cell of each row is its name.
type Table struct {
	Heads []string
	Rows  [][]string
}

// Columns shares the width out among the columns of a table: every column as wide as
// its widest cell, the widest cut down first where there is not enough, but none below
// its floor. It reports false when the floors do not fit. One blank stands between
// columns, or two where there is room.
func (g *Page) Columns(heads []string, rows [][]string, floors []int) ([]int, bool) {
	widths := make([]int, len(heads))
	for _, r := range append([][]string{heads}, rows...) {
		for i, c := range r {
			widths[i] = max(widths[i], words.Wide(c))
		}
	}
	sum := len(heads) - 1
	for _, n := range widths {
		sum += n
	}
	for ; sum > g.width; sum-- {
		widest := -1
		for i := range widths {
			if widths[i] > floors[i] && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return nil, false
		}
		widths[widest]--
	}
	for i := 0; i+1 < len(widths); i++ {
		widths[i]++ // the blank after it
		if sum+len(heads)-1 <= g.width {
			widths[i]++
		}
	}
	return widths, true
}

// Table writes rows under heads, either of which may be nil, in columns of the
// widths. Cells are wrapped here and not by the library, which would cut what it
// cannot break.
func (g *Page) Table(heads []string, rows [][]string, widths []int) error {
	var buf bytes.Buffer
	columns := tw.NewMapper[int, int]()
	for i, n := range widths {
		columns.Set(i, n)
	}
	t := tablewriter.NewTable(&buf,
		tablewriter.WithRenderer(renderer.NewBlueprint(plainRendition())),
		tablewriter.WithEastAsian(tw.Off),
		tablewriter.WithHeaderAutoFormat(tw.Off),
		tablewriter.WithHeaderAutoWrap(tw.WrapNone), tablewriter.WithRowAutoWrap(tw.WrapNone),
		tablewriter.WithHeaderAlignment(tw.AlignLeft), tablewriter.WithRowAlignment(tw.AlignLeft),
		tablewriter.WithColumnWidths(columns),
		tablewriter.WithPadding(tw.Padding{Overwrite: true}))
	if heads != nil {
		t.Header(g.wrapped(heads, widths))
	}
	for _, r := range rows {
		if err := t.Append(g.wrapped(r, widths)); err != nil {
			return err
		}
	}
	if err := t.Render(); err != nil {
		return err
	}
	for line := range strings.Lines(buf.String()) {
		line = strings.TrimRight(line, " \n")
		if heads != nil && rows == nil {
			line = g.Bold(line)
		}
		g.Line(g.Stressed(line))
	}
	return nil
}

// wrapped breaks each cell into the lines of its column, which ends in blanks
// except for the last one.
func (g *Page) wrapped(cells []string, widths []int) []string {
	out := make([]string, len(cells))
	for i, c := range cells {
		n := widths[i]
		if i+1 < len(widths) {
			n--
		}
		out[i] = strings.Join(words.Wrap(c, n), "\n")
	}
	return out
}

// plainRendition has no lines and no borders: columns are told apart by blanks,
// which no terminal shows wrongly.
func plainRendition() tw.Rendition {
	return tw.Rendition{
		Borders: tw.BorderNone,
		Symbols: tw.NewSymbols(tw.StyleNone),
		Settings: tw.Settings{
			Separators: tw.Separators{BetweenColumns: tw.Off, BetweenRows: tw.Off, ShowHeader: tw.Off},
			Lines:      tw.Lines{ShowTop: tw.Off, ShowBottom: tw.Off, ShowHeaderLine: tw.Off, ShowFooterLine: tw.Off},
		},
	}
}
