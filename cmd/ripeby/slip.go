package main

import (
	"github.com/spf13/cobra"

	"ripeby/schedule"
)

// slipOptions are the options of ripeby slip.
type slipOptions struct {
	batch string
	from  string
	csv   bool
	json  bool
	demo  bool
}

func (p *program) slipCommand() *cobra.Command {
	var opt slipOptions
	cmd := &cobra.Command{
		Use:   "slip",
		Short: "Say how early and how late each stage may begin",
		Long: `For every batch of the plan that "ripeby plan" has kept: each stage, when it
begins and who does it, and the earliest and the latest that it may begin with every
other batch as planned, the batch's earlier stages as planned, and its later ones
free to move.

What is marked sharp is critical: it may begin no later, or what the batch is for
cannot be had, however short the waits after it are made. The sharp stages of a
batch, in order, are its critical path from make to market. Waits are on it at
their shortest: a stage before a wait that could be shorter has that much room.

Each moment holds for its stage alone. When one has moved, plan again.

Nothing is written or changed.

` + exitTable,
		Example: `  ripeby slip -C my-kitchen
  ripeby slip -C my-kitchen --batch WH-270224-1
  ripeby slip -C my-kitchen --csv > slip.csv
  ripeby slip -C my-kitchen --json`,
		Args: p.noArguments,
	}
	f := cmd.Flags()
	folderFlags(f)
	f.StringVar(&opt.batch, "batch", "", "only the batch of this `ID`")
	f.StringVar(&opt.from, "from", "", "take what begins before this `MOMENT` for begun (default: now, or the plan's own start when that lies ahead)")
	f.BoolVar(&opt.csv, "csv", false, "print the table as CSV, a line for each stage")
	f.BoolVar(&opt.json, "json", false, "print the answer as JSON and nothing else")
	outFlag(f)
	tableFlags(f)
	demo := demoFlag(f)
	cmd.MarkFlagsMutuallyExclusive("csv", "json")
	cmd.RunE = p.begin(func(cmd *cobra.Command, _ []string) error {
		opt.demo = *demo
		s, err := p.settings(cmd.Flags(), opt.demo)
		if err != nil {
			return err
		}
		return p.slip(s, opt)
	})
	return cmd
}

// slip is ripeby slip.
func (p *program) slip(s *settings, opt slipOptions) error {
	problem, err := p.inForce(s, opt.demo, opt.from)
	if err != nil {
		return err
	}
	a := slipAnswer{zone: problem.Kitchen.Zone, from: problem.From, width: p.look(s).width}
	for i := range problem.Earlier.Batches {
		b := &problem.Earlier.Batches[i]
		switch {
		case opt.batch == b.ID, opt.batch == "" && !a.begun(&b.Stages[len(b.Stages)-1]):
			a.batches = append(a.batches, b)
		}
	}
	if opt.batch != "" && len(a.batches) == 0 {
		return wrong("there is no batch %q in the plan in %s; its batches are %s", opt.batch, s.out, batchIDs(problem.Earlier))
	}
	switch {
	case opt.csv:
		return a.csv(p.out)
	case opt.json:
		return a.json(p.out)
	}
	a.write(p.out)
	return nil
}

// batchIDs lists the batches of a plan.
func batchIDs(plan *schedule.Plan) string {
	var ids []string
	for i := range plan.Batches {
		ids = append(ids, plan.Batches[i].ID)
	}
	if len(ids) == 0 {
		return "none"
	}
	return schedule.Listed(ids)
}
