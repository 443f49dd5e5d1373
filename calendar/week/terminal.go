package week

import (
	"io"
	"slices"
	"strings"

	"ripeby/calendar/layout"
	"ripeby/calendar/words"
)

// page is a week under construction.
type page struct {
	layout.Page
	pen cellPen
}

// writeTerminal writes the week in aligned columns, or stacked where the
// width has no room for them.
func writeTerminal(w io.Writer, s *oneWeek, opt Options) error {
	g := &page{layout.NewPage(opt.Width, opt.Colour), cellPen{words.Pen{Zone: s.zone, Most: words.NameMost}}}
	g.Heading(s.title(&g.pen))
	g.Para("", s.period(&g.pen))
	if sum := s.summary(&g.pen); sum != "" {
		g.Para("", sum)
	}
	if err := g.work(s); err != nil {
		return err
	}
	if s.anySharp() {
		g.Gap()
		g.Para("", words.SharpNote)
	}
	if err := g.fills(s); err != nil {
		return err
	}
	for _, section := range s.sections(&g.pen) {
		g.Gap()
		g.Heading(section.title)
		for _, l := range section.lines {
			g.Para("- ", l)
		}
	}
	if g.pen.Cut {
		g.Gap()
		g.Para("", cutNote)
	}
	return g.Finish(w)
}

// work writes the days that have work, or whose clocks change.
func (g *page) work(s *oneWeek) error {
	if s.empty() {
		g.Gap()
		for _, l := range s.nothing(&g.pen) {
			g.Para("", l)
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
	widths, fit := g.Columns(workHeads, all, workFloors)
	if fit && len(all) > 0 {
		g.Gap()
		if err := g.Table(workHeads, nil, widths); err != nil {
			return err
		}
	}
	for i, d := range s.days {
		if len(d.rows) == 0 && len(d.changes) == 0 {
			continue
		}
		g.Gap()
		g.Heading(strings.ToUpper(words.Day(d.date)))
		for _, c := range d.changes {
			g.Para("! ", c.text())
		}
		if !fit {
			g.stack(rows[i])
			continue
		}
		if err := g.Table(nil, rows[i], widths); err != nil {
			return err
		}
	}
	return nil
}

// stack writes rows as short paragraphs: when, who and how long; what; the rest.
func (g *page) stack(rows [][]string) {
	for _, c := range rows {
		sub := c[colWhen] == ""
		head := words.Join("  ", c[colWhen], c[colWho], c[colTakes])
		if sub {
			g.Para("  ", words.Join(", ", c[colWhat], c[colTakes]))
		} else {
			g.Line(g.Bold(strings.Join(words.Wrap(head, g.Width()), "\n")))
			g.Para("  ", c[colWhat])
		}
		g.Para("    ", words.Join(", ", c[colBatch], c[colMuch]))
		g.Para("    ", c[colWhere])
		if c[colBy] != "" {
			g.Para("    ", "start by "+g.Stressed(c[colBy]))
		}
	}
}

// fills writes what the cold places hold.
func (g *page) fills(s *oneWeek) error {
	if len(s.fills) == 0 {
		return nil
	}
	g.Gap()
	g.Heading("Cold places, at the fullest moment of each day")
	heads, rows := g.pen.fillHeads(s.fills), g.pen.fillRows(s)
	floors := slices.Repeat([]int{fillFloor}, len(heads))
	widths, fit := g.Columns(heads, rows, floors)
	if fit {
		return g.Table(heads, rows, widths)
	}
	for i := range s.fills {
		g.Para("", heads[i+1])
		for _, r := range rows {
			g.Para("  ", r[0]+": "+r[i+1])
		}
	}
	return nil
}

// Least widths of columns: below these the stacked layout is easier to read.
var workFloors = []int{5, 6, 13, 11, 9, 6, 12, 9}

// fillFloor holds "Mon 15 Mar" and "12 of 12 boxes" on two lines.
const fillFloor = 10
