package main

import (
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"ripeby/calendar/week"
	"ripeby/resources"
	"ripeby/schedule"
)

// weekOptions are the options of ripeby week.
type weekOptions struct {
	of     string
	format string
	demo   bool
}

func (p *program) weekCommand() *cobra.Command {
	var opt weekOptions
	cmd := &cobra.Command{
		Use:   "week",
		Short: "Print one week's table of a plan that has been made",
		Long: `Prints one week of the plan: each piece of work by day and time, what the cold
places hold, and the milk to order and to collect. The plan is the one that
"ripeby plan" has kept; it is not made again.

Without --of it is the present week, or the plan's first week with something to
do when the plan is not about the present.

` + exitTable,
		Example: `  ripeby week -C my-kitchen
  ripeby week -C my-kitchen --of 2027-03-20
  ripeby week -C my-kitchen --of 2027-W12
  ripeby week -C my-kitchen --format markdown > week.md
  ripeby week --demo --format csv`,
		Args: p.noArguments,
	}
	f := cmd.Flags()
	folderFlags(f)
	f.StringVar(&opt.of, "of", "", "any `DATE` of the week, such as 2027-03-20, or the week as 2027-W12")
	f.StringVar(&opt.format, "format", string(week.Terminal), "print in this `FORM`: terminal, markdown or csv")
	outFlag(f)
	tableFlags(f)
	demo := demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, _ []string) error {
		opt.demo = *demo
		s, err := p.settings(cmd.Flags(), opt.demo)
		if err != nil {
			return err
		}
		return p.week(s, opt)
	})
	return cmd
}

// week is ripeby week.
func (p *program) week(s *settings, opt weekOptions) error {
	of, err := parseDay(opt.of)
	if err != nil {
		return err
	}
	problem, plan, err := p.asPlanned(s, opt.demo)
	if err != nil {
		return err
	}
	if of == (resources.Date{}) {
		of = presentWeek(plan, problem.Kitchen.Zone, p.now())
	}
	l := p.look(s)
	err = week.Table(p.out, problem, plan, week.Options{Of: of,
		Format: week.Format(opt.format), Width: l.width, Colour: l.colour})
	var format *week.FormatError
	if errors.As(err, &format) {
		return wrong("--format: %w", err)
	}
	return err
}

// parseDay reads a day; "" is no day.
func parseDay(text string) (resources.Date, error) {
	if text == "" {
		return resources.Date{}, nil
	}
	if day, ok := mondayOfISO(text); ok {
		return day, nil
	}
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return resources.Date{}, wrong("--of is %q; want a day such as 2027-03-20, or a week such as 2027-W12", text)
	}
	y, m, d := t.Date()
	return resources.Date{Year: y, Month: m, Day: d}, nil
}

// mondayOfISO reads a week as the table writes it, "2027-W12"; not ok for anything
// else, a 53rd week of a year that has 52 among it. 4 January lies in the first
// week (ISO 8601).
func mondayOfISO(text string) (resources.Date, bool) {
	var year, week int
	if n, err := fmt.Sscanf(text, "%4d-W%2d", &year, &week); n != 2 || err != nil || len(text) != len("2027-W12") {
		return resources.Date{}, false
	}
	day := resources.Date{Year: year, Month: time.January, Day: 4}.Monday().AddDays(7 * (week - 1))
	y, w := day.ISOWeek()
	return day, y == year && w == week
}

// presentWeek is the week of now when it lies between the plan's first and last
// weeks, else the plan's first.
func presentWeek(plan *schedule.Plan, zone *time.Location, now time.Time) resources.Date {
	weeks := weeksOf(plan, zone)
	first, last := weeks[0], weeks[len(weeks)-1]
	present := mondayOf(resources.MomentOf(now).DateIn(zone))
	if before(present, first) || before(last, present) {
		return first
	}
	return present
}

// before compares days.
func before(a, b resources.Date) bool {
	if a.Year != b.Year {
		return a.Year < b.Year
	}
	return a.Month < b.Month || a.Month == b.Month && a.Day < b.Day
}
