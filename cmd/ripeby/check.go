package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"ripeby/calendar/spreadsheet"
	"ripeby/config"
	"ripeby/schedule"
)

func (p *program) checkCommand() *cobra.Command {
	var from string
	var csv bool
	cmd := &cobra.Command{
		Use:   "check",
		Short: "Read a kitchen folder and print what was understood, or every error",
		Long: `Reads the kitchen folder, and the plan that is kept, and prints what ripeby
understood: the kitchen, its kit and hours, each cheese with how long it takes,
each target with its date, what is under way, and how much was said of what really
happened (ripeby record). If anything is wrong, every error is printed with its file,
line and column. Nothing is written.

` + exitTable,
		Example: `  ripeby check
  ripeby check -C my-kitchen
  ripeby check -C my-kitchen --from "2027-03-01 06:00"
  ripeby check --demo`,
		Args: p.noArguments,
	}
	f := cmd.Flags()
	folderFlags(f)
	f.StringVar(&from, "from", "", "as of this `MOMENT` (default: now; with --demo the demo's own)")
	f.BoolVar(&csv, "csv", false, "print what was understood as CSV, for a spreadsheet")
	outFlag(f)
	demo := demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, _ []string) error {
		s, err := p.settings(cmd.Flags(), *demo)
		if err != nil {
			return err
		}
		return p.check(s, kitchen{folder: s.folder, demo: *demo}, from, csv)
	})
	return cmd
}

// checkColumns are those of what was understood as a table. Columns are only ever added, at the end.
var checkColumns = []string{"what", "text"}

// check is ripeby check.
func (p *program) check(s *settings, k kitchen, from string, csv bool) error {
	problem, err := k.load(from, p.now())
	if err != nil {
		return err
	}
	var said *config.Record
	if !k.demo {
		if said, err = loadRecord(k.folder); err != nil {
			return err
		}
	}
	out := output{s.out}
	earlier, err := out.earlier()
	if err != nil {
		return err
	}
	u := understood{problem: problem, earlier: earlier, edition: p.tzSource.edition(problem.Kitchen.TimeZone)}
	if csv {
		return p.checkCSV(u, out, said)
	}
	u.entered = func(heading, text string, first bool) {
		if !first {
			heading = ""
		}
		line(p.out, fmt.Sprintf("%-11s %s", heading, text))
	}
	u.write()
	fmt.Fprintln(p.out)
	u.entry(0, "Plan", earlierText(out, earlier, problem))
	if said != nil {
		p.mindFaults(said.Cut)
		if text := recordText(said); text != "" {
			u.entry(0, "Record", text)
		}
	}
	for i, n := range problem.Warnings {
		if i == 0 {
			line(p.out, "\nWarnings")
		}
		line(p.out, "  "+n.Text)
	}
	fmt.Fprintln(p.out, "\nThe folder is in order.")
	return nil
}

// checkCSV prints what was understood for a spreadsheet, a row for each line, with what it is about.
func (p *program) checkCSV(u understood, out output, said *config.Record) error {
	var rows [][]string
	u.entered = func(heading, text string, _ bool) {
		rows = append(rows, []string{heading, strings.TrimSpace(text)})
	}
	u.write()
	u.entry(0, "Plan", earlierText(out, u.earlier, u.problem))
	if said != nil {
		p.mindFaults(said.Cut)
		if text := recordText(said); text != "" {
			u.entry(0, "Record", text)
		}
	}
	for i, n := range u.problem.Warnings {
		u.entry(i, "Warnings", n.Text)
	}
	return spreadsheet.Write(p.out, checkColumns, rows)
}

// recordText says how much was said of what happened; "" for nothing.
func recordText(r *config.Record) string {
	all := r.Book.All()
	switch last := all.Latest(); len(all) {
	case 0:
		return ""
	case 1:
		return "1 entry, of " + moment(last.At, r.Zone)
	default:
		return fmt.Sprintf("%d entries, the last of %s", len(all), moment(last.At, r.Zone))
	}
}

// earlierText says which plan the next one carries on.
func earlierText(out output, earlier *schedule.Plan, problem *schedule.Problem) string {
	if earlier == nil {
		return "none yet in " + out.dir
	}
	return fmt.Sprintf("%s, made from %s: %s", out.planPath(), moment(earlier.From, problem.Kitchen.Zone), schedule.Counted(len(earlier.Batches), "batch"))
}
