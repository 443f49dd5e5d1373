package calendar

import (
	"errors"
	"fmt"
	"io"
	"time"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// WeekFormat names a way of writing a week table.
type WeekFormat string

// The ways of writing a week table.
const (
	WeekTerminal WeekFormat = "terminal" // aligned columns, or stacked lines where these do not fit
	WeekMarkdown WeekFormat = "markdown" // GitHub-flavoured pipe tables, one row a line, never wrapped
	WeekCSV      WeekFormat = "csv"      // RFC 4180, one record a row, every kind of row in one table
)

// WeekOptions says which week is shown, and how. The zero value shows the week
// of the plan's start for a terminal of 80 columns without colour.
type WeekOptions struct {
	Of     resources.Date // any day of the ISO week; zero for the week of the plan's start
	Format WeekFormat     // "" for WeekTerminal
	Width  int            // columns, of WeekTerminal only; 0 for layout.Width
	Colour bool           // only for a terminal; nothing is guessed from the writer
}

// WeekFormatError says that a format was asked for that there is none of.
type WeekFormatError struct{ Got WeekFormat }

// Error names the format that was asked for and those that there are.
func (e *WeekFormatError) Error() string {
	return fmt.Sprintf("week table: format %q is not known; use %s, %s or %s",
		string(e.Got), WeekTerminal, WeekMarkdown, WeekCSV)
}

// errWeekNothing is returned where there is no plan to show.
var errWeekNothing = errors.New("week table: no problem or no plan given")

// Week writes the table of one ISO week: one row a piece of work, a round, or a
// target that leaves; under it what the cold places hold, the milk to order and
// to collect, what is missing, and the cautions that apply. The same problem,
// plan and options give the same bytes. It returns a [WeekFormatError] for an
// unknown format, and errors of the writer.
func Week(w io.Writer, p *schedule.Problem, plan *schedule.Plan, opt WeekOptions) error {
	if p == nil || plan == nil {
		return errWeekNothing
	}
	zone, err := words.Zone(p)
	if err != nil {
		return fmt.Errorf("week table: %w", err)
	}
	sheet := newWeekSheet(p, plan, zone, opt.Of)
	switch opt.Format {
	case WeekTerminal, "":
		return writeWeekTerminal(w, sheet, opt)
	case WeekMarkdown:
		return writeWeekMarkdown(w, sheet)
	case WeekCSV:
		return writeWeekCSV(w, sheet)
	}
	return &WeekFormatError{opt.Format}
}

// weekSheet is everything that one week's table shows, before it is laid out.
type weekSheet struct {
	problem *schedule.Problem
	plan    *schedule.Plan
	zone    *time.Location
	first   resources.Date // the Monday
	span    resources.Span // from Monday's first moment to the next Monday's
	days    [7]weekDay
	next    *weekRow // the first row after the week, nil for none
	last    *weekRow // the last row before the week, nil for none
	fills   []coldroom.Fill
	milk    []milkLine
	notes   weekNotes
}

// weekDay is one day of the week and its rows in the order of their moments.
type weekDay struct {
	date    resources.Date
	span    resources.Span
	changes []clockChange
	rows    []weekRow
}

// newWeekSheet gathers the week that the day lies in.
func newWeekSheet(p *schedule.Problem, plan *schedule.Plan, zone *time.Location, of resources.Date) *weekSheet {
	if of == (resources.Date{}) {
		of = plan.From.DateIn(zone)
	}
	s := &weekSheet{problem: p, plan: plan, zone: zone, first: of.Monday()}
	for i := range s.days {
		d := s.first.AddDays(i)
		span := d.Span(zone)
		s.days[i] = weekDay{date: d, span: span, changes: changesWithin(span, zone)}
	}
	s.span = resources.Span{From: s.days[0].span.From, Until: s.days[6].span.Until}
	s.place(weekRows(p, plan, zone))
	s.fills = coldroom.Fills(p, plan)
	s.milk = milkWithin(p, plan, zone, s.span)
	s.notes = s.gatherNotes()
	return s
}

// place puts each row on its day and remembers those next to the week.
// Rows come sorted by their moments.
func (s *weekSheet) place(rows []weekRow) {
	for i := range rows {
		r := rows[i]
		if r.at < s.span.From {
			s.last = &rows[i]
		}
		if r.at >= s.span.Until && s.next == nil {
			s.next = &rows[i]
		}
		for d := range s.days {
			if s.days[d].span.From <= r.at && r.at < s.days[d].span.Until {
				s.days[d].rows = append(s.days[d].rows, r)
			}
		}
	}
}

// empty reports whether nothing at all is to be done in the week.
func (s *weekSheet) empty() bool {
	for _, d := range s.days {
		if len(d.rows) > 0 {
			return false
		}
	}
	return true
}

// anySharp reports whether something in the week is critical.
func (s *weekSheet) anySharp() bool {
	for _, d := range s.days {
		for i := range d.rows {
			if d.rows[i].critical {
				return true
			}
		}
	}
	return false
}
