package list

import (
	"fmt"
	"io"
	"strconv"

	"ripeby/calendar/layout"
	"ripeby/calendar/words"
)

// Blank is a place to write on, where something is not known yet.
const Blank = "______"

// Write writes the list for a terminal of so many columns.
func (s *Shown) Write(w io.Writer, width int, colour bool) error {
	g := layout.NewPage(width, colour)
	g.Heading(s.Target + ", " + s.When)
	if len(s.Cheeses) == 0 {
		g.Para("", "The plan has nothing for it.")
	}
	for i := range s.Cheeses {
		c := &s.Cheeses[i]
		g.Gap()
		g.Heading(c.Name + ": " + c.Says())
		var rows [][]string
		for _, r := range c.Rows {
			rows = append(rows, []string{strconv.Itoa(r.Pieces), orBlank(r.Lot), r.From, r.Until})
		}
		if err := table(&g, []string{"Pieces", "Lot", "Out of", "Keeps until"}, rows, []int{6, 11, 20, 11}); err != nil {
			return err
		}
		for _, text := range []string{c.Chance, c.Sold} {
			if text != "" {
				g.Para("", text)
			}
		}
		g.Para("", "took "+Blank+"   came back "+Blank+"   sold out at "+Blank)
	}
	return finish(&g, w, s.Notes)
}

// Write writes the delivery note for a terminal of so many columns.
func (d *Note) Write(w io.Writer, width int, colour bool) error {
	g := layout.NewPage(width, colour)
	g.Heading("Delivery note, " + d.Dispatched)
	g.Gap()
	for _, f := range []struct{ head, text string }{
		{"Number", Blank}, {"From", d.From.Name + ", " + orBlank(d.From.Address)}, {"  owner", Blank}, {"To", d.To.Name + ", " + orBlank(d.To.Address)}, {"  owner", Blank},
		{"For", d.For}, {"Lots given at", orBlank(d.From.Address)},
	} {
		g.Para(fmt.Sprintf("%-15s", f.head), f.text)
	}
	g.Gap()
	var rows [][]string
	for _, l := range d.Lines {
		rows = append(rows, []string{l.What, l.Quantity, orBlank(l.Lot), l.Until})
	}
	if len(rows) == 0 {
		g.Para("", "Nothing goes there by the plan, and nobody said that anything did.")
	} else if err := table(&g, []string{"What", "Quantity", "Lot", "Keeps until"}, rows, []int{8, 12, 11, 11}); err != nil {
		return err
	}
	return finish(&g, w, append(d.Lacking, d.Notes...))
}

// table writes a table, or where its columns do not fit each row in lines of its own.
func table(g *layout.Page, heads []string, rows [][]string, floors []int) error {
	if len(rows) == 0 {
		return nil
	}
	if widths, fit := g.Columns(heads, rows, floors); fit {
		return g.Table(heads, rows, widths)
	}
	for _, r := range rows {
		for i, cell := range r {
			if cell != "" {
				g.Para("  ", heads[i]+": "+cell)
			}
		}
	}
	return nil
}

func orBlank(s string) string { return map[bool]string{true: Blank, false: s}[s == ""] }

func finish(g *layout.Page, w io.Writer, notes []string) error {
	g.Gap()
	for _, n := range notes {
		g.Para("- ", words.Unglue(n))
	}
	return g.Finish(w)
}
