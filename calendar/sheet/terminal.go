package sheet

import (
	"fmt"
	"io"
	"strings"

	"ripeby/calendar/layout"
	"ripeby/calendar/words"
)

// Blank is a place to write on in a terminal, and tick is a box there.
const (
	Blank = "______"
	tick  = "[ ] "
)

// Write writes the sheet for a terminal of so many columns: all of it, for there is no end of the page.
func (s *Shown) Write(w io.Writer, width int, colour bool) error {
	g := layout.NewPage(width, colour)
	g.Heading(s.Cheese + ", " + s.lotText())
	g.Para("", words.Join(", ", s.Kitchen, s.numberText()))
	for _, text := range s.Stands {
		g.Para("", text)
	}
	g.Gap()
	for _, f := range s.Facts {
		g.Para(fmt.Sprintf("%-9s", f.Label), joined(f.Items))
	}
	for i := range s.Stages {
		t := &s.Stages[i]
		g.Gap()
		g.Heading(t.Name)
		g.Para("  By the plan  ", words.Unglue(strings.Join(t.Planned, "; ")))
		g.Para("  Really       ", joined(t.Really))
		for _, item := range t.What {
			g.Para("  - ", item.text())
		}
	}
	for _, c := range s.Care {
		g.Gap()
		g.Heading("Care: " + c.Do)
		g.Para("  ", joined(c.Days))
	}
	list(&g, "Where it goes", s.For)
	g.Gap()
	g.Heading("Notes")
	for _, n := range s.Notes {
		g.Para("- ", n.When+": "+n.Text)
	}
	g.Line(Blank + Blank + Blank + Blank)
	list(&g, "Cautions", s.Cautions)
	g.Gap()
	for _, text := range s.Ends {
		g.Para("", text)
	}
	return g.Finish(w)
}

func list(g *layout.Page, title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	g.Gap()
	g.Heading(title)
	for _, text := range lines {
		g.Para("- ", text)
	}
}

// lotText is the lot, or that there is none yet.
func (s *Shown) lotText() string {
	if s.Lot == "" {
		return "lot " + Blank
	}
	return "lot " + s.Lot
}

// numberText is what the plan calls the batch; "" where that is its lot.
func (s *Shown) numberText() string {
	if s.Number == "" {
		return ""
	}
	return "number in the plan: " + s.Number
}

// text is an item in one line.
func (i Item) text() string {
	text := strings.Join(i.Parts, Blank)
	if i.Box {
		text = tick + text
	}
	return text
}

func joined(items []Item) string {
	var all []string
	for _, i := range items {
		all = append(all, i.text())
	}
	return strings.Join(all, "; ")
}
