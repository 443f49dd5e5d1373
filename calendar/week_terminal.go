package calendar

import (
	"bytes"
	"io"
	"slices"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// weekPage is a terminal page under construction.
type weekPage struct {
	buf   bytes.Buffer
	pen   weekPen
	width int
	paint bool
}

// writeWeekTerminal writes the sheet in aligned columns, or stacked where the
// width has no room for them.
func writeWeekTerminal(w io.Writer, s *weekSheet, opt WeekOptions) error {
	width := opt.Width
	if width == 0 {
		width = WeekWidth
	}
	g := &weekPage{pen: weekPen{zone: s.zone, most: nameMost}, width: max(width, WeekNarrowest), paint: opt.Colour}
	g.heading(s.title(&g.pen))
	g.para("", s.period(&g.pen))
	if sum := s.summary(&g.pen); sum != "" {
		g.para("", sum)
	}
	if err := g.work(s); err != nil {
		return err
	}
	if s.anySharp() {
		g.gap()
		g.para("", SharpNote)
	}
	if err := g.fills(s); err != nil {
		return err
	}
	for _, section := range s.sections(&g.pen) {
		g.gap()
		g.heading(section.title)
		for _, l := range section.lines {
			g.para("- ", l)
		}
	}
	if g.pen.cut {
		g.gap()
		g.para("", cutNote)
	}
	_, err := w.Write(g.buf.Bytes())
	return err
}

func (g *weekPage) gap() { g.buf.WriteByte('\n') }

// heading writes a bold line, wrapped.
func (g *weekPage) heading(s string) {
	for _, l := range wrapText(s, g.width) {
		g.buf.WriteString(g.bold(l) + "\n")
	}
}

// Colours are the terminal's own: bold for headings, and its yellow for what
// must not be overlooked, which is said in words too.
const (
	ansiBold   = "\x1b[1m"
	ansiYellow = "\x1b[33m"
	ansiOff    = "\x1b[0m"
)

func (g *weekPage) bold(s string) string {
	if !g.paint || s == "" {
		return s
	}
	return ansiBold + s + ansiOff
}

// stressed colours the words that must not be overlooked, after wrapping, so that
// widths do not change.
func (g *weekPage) stressed(s string) string {
	if !g.paint {
		return s
	}
	for _, word := range []string{sharp, "MISSING", "TOO FULL"} {
		s = strings.ReplaceAll(s, word, ansiYellow+word+ansiOff)
	}
	return s
}

// para writes wrapped lines, the first after the mark, the others indented as
// far. Nothing to say writes nothing.
func (g *weekPage) para(mark, s string) {
	if s == "" {
		return
	}
	for _, l := range wrapText(s, g.width-len(mark)) {
		g.buf.WriteString(strings.TrimRight(mark+l, " ") + "\n")
		mark = strings.Repeat(" ", len(mark))
	}
}

// work writes the days that have work, or whose clocks change.
func (g *weekPage) work(s *weekSheet) error {
	if s.empty() {
		g.gap()
		for _, l := range s.nothing(&g.pen) {
			g.para("", l)
		}
	}
	var rows [7][][]string
	var all [][]string
	for i, d := range s.days {
		for j := range d.rows {
			rows[i] = append(rows[i], g.pen.cells(&d.rows[j], d.date))
		}
		all = append(all, rows[i]...)
	}
	widths, fit := columnWidths(g.width, weekHeads, all, weekFloors)
	if fit && len(all) > 0 {
		g.gap()
		if err := g.table(weekHeads, nil, widths); err != nil {
			return err
		}
	}
	for i, d := range s.days {
		if len(d.rows) == 0 && len(d.changes) == 0 {
			continue
		}
		g.gap()
		g.heading(strings.ToUpper(dayName(d.date)))
		for _, c := range d.changes {
			g.para("! ", c.text())
		}
		if !fit {
			g.stack(rows[i])
			continue
		}
		if err := g.table(nil, rows[i], widths); err != nil {
			return err
		}
	}
	return nil
}

// stack writes rows as short paragraphs: when, who and how long; what; the rest.
func (g *weekPage) stack(rows [][]string) {
	for _, c := range rows {
		sub := c[colWhen] == ""
		head := joinNonEmpty("  ", c[colWhen], c[colWho], c[colTakes])
		if sub {
			g.para("  ", joinNonEmpty(", ", c[colWhat], c[colTakes]))
		} else {
			g.buf.WriteString(g.bold(strings.Join(wrapText(head, g.width), "\n")) + "\n")
			g.para("  ", c[colWhat])
		}
		g.para("    ", joinNonEmpty(", ", c[colBatch], c[colMuch]))
		g.para("    ", c[colWhere])
		if c[colBy] != "" {
			g.para("    ", "start by "+g.stressed(c[colBy]))
		}
	}
}

func joinNonEmpty(sep string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), sep)
}

// fills writes what the cold places hold.
func (g *weekPage) fills(s *weekSheet) error {
	if len(s.fills) == 0 {
		return nil
	}
	g.gap()
	g.heading("Cold places, at the fullest moment of each day")
	heads, rows := g.pen.fillHeads(s.fills), g.pen.fillRows(s)
	floors := slices.Repeat([]int{fillFloor}, len(heads))
	widths, fit := columnWidths(g.width, heads, rows, floors)
	if fit {
		return g.table(heads, rows, widths)
	}
	for i := range s.fills {
		g.para("", heads[i+1])
		for _, r := range rows {
			g.para("  ", r[0]+": "+r[i+1])
		}
	}
	return nil
}

// Least widths of columns: below these the stacked layout is easier to read.
var weekFloors = []int{5, 6, 13, 11, 9, 6, 12, 9}

// fillFloor holds "Mon 15 Mar" and "12 of 12 boxes" on two lines.
const fillFloor = 10

// columnWidths shares the width out: every column as wide as its widest cell, the
// widest cut down first where there is not enough, but none below its floor. It
// reports false when the floors do not fit. One blank stands between columns, or
// two where there is room.
func columnWidths(width int, heads []string, rows [][]string, floors []int) ([]int, bool) {
	widths := make([]int, len(heads))
	for _, r := range append([][]string{heads}, rows...) {
		for i, c := range r {
			widths[i] = max(widths[i], weekWide(c))
		}
	}
	sum := len(heads) - 1
	for _, n := range widths {
		sum += n
	}
	for ; sum > width; sum-- {
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
		if sum+len(heads)-1 <= width {
			widths[i]++
		}
	}
	return widths, true
}

// table writes rows under heads, either of which may be nil, in columns of the
// widths. Cells are wrapped here and not by the library, which would cut what it
// cannot break.
func (g *weekPage) table(heads []string, rows [][]string, widths []int) error {
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
			line = g.bold(line)
		}
		g.buf.WriteString(g.stressed(line) + "\n")
	}
	return nil
}

// wrapped breaks each cell into the lines of its column, which ends in blanks
// except for the last one.
func (g *weekPage) wrapped(cells []string, widths []int) []string {
	out := make([]string, len(cells))
	for i, c := range cells {
		n := widths[i]
		if i+1 < len(widths) {
			n--
		}
		out[i] = strings.Join(wrapText(c, n), "\n")
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
