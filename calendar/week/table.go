package week

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

// Format names a way of writing a week table.
type Format string

// The ways of writing a week table.
const (
	Terminal Format = "terminal" // aligned columns, or stacked lines where these do not fit
	Markdown Format = "markdown" // GitHub-flavoured pipe tables, one row a line, never wrapped
	CSV      Format = "csv"      // RFC 4180, one record a row, every kind of row in one table
)

// Options says which week is shown, and how. The zero value shows the week
// of the plan's start for a terminal of 80 columns without colour.
type Options struct {
	Of     resources.Date // any day of the ISO week; zero for the week of the plan's start
	Format Format         // "" for Terminal
	Width  int            // columns, of Terminal only; 0 for layout.Width
	Colour bool           // only for a terminal; nothing is guessed from the writer
}

// FormatError says that a format was asked for that there is none of.
type FormatError struct{ Got Format }

// Error names the format that was asked for and those that there are.
func (e *FormatError) Error() string {
	return fmt.Sprintf("week table: format %q is not known; use %s, %s or %s",
		string(e.Got), Terminal, Markdown, CSV)
}

// errNothing is returned where there is no plan to show.
var errNothing = errors.New("week table: no problem or no plan given")

// Table writes the table of one ISO week: one row a piece of work, a round, milk
// to order or to collect, or a target that leaves; under it what the cold places hold, the milk to order and
// to collect, what is missing, and the cautions that apply. The same problem,
// plan and options give the same bytes. It returns a [FormatError] for an
// unknown format, and errors of the writer.
func Table(w io.Writer, p *schedule.Problem, plan *schedule.Plan, opt Options) error {
	return Tables(w, p, plan, []resources.Date{opt.Of}, opt)
}

// Tables writes the tables of several weeks, each of which a day is given of, one under the other
// as [Table] writes them. What is the whole plan's is gathered once.
func Tables(w io.Writer, p *schedule.Problem, plan *schedule.Plan, days []resources.Date, opt Options) error {
	if p == nil || plan == nil {
		return errNothing
	}
	zone, err := words.Zone(p)
	if err != nil {
		return fmt.Errorf("week table: %w", err)
	}
	whole := gather(p, plan, zone)
	for i, of := range days {
		if i > 0 {
			if _, err := io.WriteString(w, "\n\n"); err != nil {
				return err
			}
		}
		if err := writeTable(w, whole.week(of), opt); err != nil {
			return err
		}
	}
	return nil
}

// writeTable writes a week in its form.
func writeTable(w io.Writer, s *oneWeek, opt Options) error {
	switch opt.Format {
	case Terminal, "":
		return writeTerminal(w, s, opt)
	case Markdown:
		return writeMarkdown(w, s)
	case CSV:
		return writeCSV(w, s)
	}
	return &FormatError{opt.Format}
}

// oneWeek is everything that one week's table shows, before it is laid out.
type oneWeek struct {
	problem *schedule.Problem
	plan    *schedule.Plan
	zone    *time.Location
	first   resources.Date // the Monday
	span    resources.Span // from Monday's first moment to the next Monday's
	days    [7]oneDay
	next    *row // the first row after the week, nil for none
	last    *row // the last row before the week, nil for none
	fills   []coldroom.Fill
	milk    []schedule.MilkJob
	notes   notes
}

// oneDay is one day of the week and its rows in the order of their moments.
type oneDay struct {
	date    resources.Date
	span    resources.Span
	changes []clockChange
	rows    []row
}

// wholePlan is what all weeks of a plan are taken from.
type wholePlan struct {
	problem *schedule.Problem
	plan    *schedule.Plan
	zone    *time.Location
	milk    []schedule.MilkJob
	rows    []row // by their moments
	fills   []coldroom.Fill
}

// gather gathers a plan.
func gather(p *schedule.Problem, plan *schedule.Plan, zone *time.Location) *wholePlan {
	milk := schedule.MilkOf(p, plan)
	return &wholePlan{p, plan, zone, milk, rowsOf(plan, milk, zone), coldroom.Fills(p, plan)}
}

// week is the week that the day lies in.
func (whole *wholePlan) week(of resources.Date) *oneWeek {
	p, plan, zone := whole.problem, whole.plan, whole.zone
	if of == (resources.Date{}) {
		of = plan.From.DateIn(zone)
	}
	s := &oneWeek{problem: p, plan: plan, zone: zone, first: of.Monday()}
	for i := range s.days {
		d := s.first.AddDays(i)
		span := d.Span(zone)
		s.days[i] = oneDay{date: d, span: span, changes: changesWithin(span, zone)}
	}
	s.span = resources.Span{From: s.days[0].span.From, Until: s.days[6].span.Until}
	s.place(whole.rows)
	s.fills = whole.fills
	s.milk = milkWithin(whole.milk, s.span)
	s.notes = s.gatherNotes()
	return s
}

// place puts each row on its day and remembers those next to the week.
// Rows come sorted by their moments.
func (s *oneWeek) place(rows []row) {
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
func (s *oneWeek) empty() bool {
	for _, d := range s.days {
		if len(d.rows) > 0 {
			return false
		}
	}
	return true
}

// anySharp reports whether something in the week is critical.
func (s *oneWeek) anySharp() bool {
	for _, d := range s.days {
		for i := range d.rows {
			if d.rows[i].critical {
				return true
			}
		}
	}
	return false
}
