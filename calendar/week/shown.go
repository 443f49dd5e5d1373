package week

import (
	"strings"

	"ripeby/calendar/layout"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Shown is a week table as a page shows it.
type Shown struct {
	Title, Period string
	First         resources.Date // the Monday
	Summary       string         // "" for a week without work
	Nothing       []string       // what there is to say of an empty week
	Heads         []string       // of the rows of days
	Days          []DayShown     // those with something to show
	Sharp         string         // what "sharp" means; "" where nothing is
	Cold          layout.Table   // what the cold places hold; no rows where there are none
	Lists         []List
}

// DayShown is one day of a week.
type DayShown struct {
	Date    resources.Date
	Name    string
	Changes []string // of the clocks
	Rows    []RowShown
	Lines   []LineShown // the same, a line for each moment
}

// RowShown is one row of a day.
type RowShown struct {
	Cells  []string // as Heads
	Batch  string   // the id of the batch that the row is of, as the plan has it; "" for none
	Detail bool     // a part of the row above
	Alarm  bool     // pieces are missing
}

// Show gives the ISO week that a day lies in, as [Table] writes it.
func Show(p *schedule.Problem, plan *schedule.Plan, of resources.Date) (*Shown, error) {
	n, err := wholeNames(p)
	if err != nil {
		return nil, err
	}
	s := gather(p, plan, n.Zone).week(of)
	w := &Shown{Title: s.title(n), Period: s.period(n), First: s.first, Summary: s.summary(n), Heads: workHeads}
	if s.empty() {
		w.Nothing = s.nothing(n)
	}
	for i := range s.days {
		d := &s.days[i]
		day := DayShown{Date: d.date, Name: words.Day(d.date)}
		for _, c := range d.changes {
			day.Changes = append(day.Changes, c.text())
		}
		for k := range d.rows {
			day.Rows = append(day.Rows, showRow(n, plan, &d.rows[k], d.date))
		}
		day.Lines = linesOf(n, plan, d.rows, d.date)
		if len(day.Rows)+len(day.Changes) > 0 {
			w.Days = append(w.Days, day)
		}
	}
	if s.anySharp() {
		w.Sharp = words.SharpNote
	}
	if len(s.fills) > 0 {
		w.Cold = layout.Table{Heads: n.fillHeads(s.fills), Rows: n.fillRows(s)}
	}
	for _, section := range s.sections(n) {
		w.Lists = append(w.Lists, List{section.title, section.lines, section.title == missingTitle || section.title == watchTitle})
	}
	return w, nil
}

func showRow(n *cellPen, plan *schedule.Plan, r *row, day resources.Date) RowShown {
	row := RowShown{Cells: n.cells(r, day), Batch: batchOf(plan, r), Alarm: r.kind == rowMissing,
		Detail: r.kind == rowShare || r.kind == rowMissing || r.kind == rowCare}
	if row.Detail {
		row.Cells[colWhat] = strings.TrimPrefix(row.Cells[colWhat], "- ") // Detail says so
	}
	if r.kind == rowAnytime {
		row.Cells[colWhen] = "any time" // a page shows other days than today, and may be read on another
	}
	return row
}
