package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ripeby/config"
	"ripeby/schedule"
)

func (p *program) checkCommand() *cobra.Command {
	var from string
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
	outFlag(f)
	demo := demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, _ []string) error {
		s, err := p.settings(cmd.Flags(), *demo)
		if err != nil {
			return err
		}
		return p.check(s, kitchen{folder: s.folder, demo: *demo}, from)
	})
	return cmd
}

// check is ripeby check.
func (p *program) check(s *settings, k kitchen, from string) error {
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
	understood{problem, earlier, p.out, p.tzSource.edition(problem.Kitchen.TimeZone)}.write()
	p.tellEarlier(out, earlier, problem)
	if said != nil {
		p.mindFaults(said.Cut)
		tellRecord(p.out, said)
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

// tellRecord says how much was said of what happened.
func tellRecord(w io.Writer, r *config.Record) {
	all := r.Book.All()
	switch last := all.Latest(); len(all) {
	case 0:
	case 1:
		line(w, "Record      1 entry, of "+moment(last.At, r.Zone))
	default:
		line(w, fmt.Sprintf("Record      %d entries, the last of %s", len(all), moment(last.At, r.Zone)))
	}
}

// tellEarlier says which plan the next one carries on.
func (p *program) tellEarlier(out output, earlier *schedule.Plan, problem *schedule.Problem) {
	fmt.Fprintln(p.out)
	if earlier == nil {
		line(p.out, "Plan        none yet in "+out.dir)
		return
	}
	line(p.out, fmt.Sprintf("Plan        %s, made from %s: %s", out.planPath(),
		moment(earlier.From, problem.Kitchen.Zone), schedule.Counted(len(earlier.Batches), "batch")))
}
