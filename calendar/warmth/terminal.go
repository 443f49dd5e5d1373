package warmth

import (
	"io"

	"ripeby/calendar/layout"
	"ripeby/calendar/words"
)

// Write writes what is known of places on a page of so many columns, for a terminal.
func Write(w io.Writer, all []Shown, width int, colour bool) error {
	g := layout.NewPage(width, colour)
	for i, s := range all {
		if i > 0 {
			g.Gap()
		}
		g.Heading(s.Title)
		for _, text := range s.Says {
			g.Para("- ", text)
		}
		g.Gap()
		if widths, ok := g.Columns(s.Days.Heads, s.Days.Rows, floors()); ok {
			if err := g.Table(s.Days.Heads, s.Days.Rows, widths); err != nil {
				return err
			}
			continue
		}
		for _, row := range s.Days.Rows {
			for k := 1; k < len(row); k++ {
				if row[k] != "" {
					row[k] = s.Days.Heads[k] + " " + row[k]
				}
			}
			g.Para("- ", words.Join(", ", row...))
		}
	}
	if len(all) == 0 {
		g.Para("", "No thermometer told anything in these seven days, and nobody measured a temperature of a place. ripeby serve --addresses says where a thermometer posts what it reads.")
		return g.Finish(w)
	}
	g.Gap()
	g.Para("", Caution)
	return g.Finish(w)
}

// floors are the fewest columns of each cell.
func floors() []int { return []int{10, 7, 8, 8, 8, 7} }
