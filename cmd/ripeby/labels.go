package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"ripeby/calendar/label"
	"ripeby/config/fault"
	"ripeby/schedule"
)

// labelOptions are the options of ripeby labels, as written.
type labelOptions struct {
	start, count int
	outline      bool
}

func (p *program) labelsCommand() *cobra.Command {
	var opt labelOptions
	cmd := &cobra.Command{
		Use:   "labels LOT|ID|TARGET",
		Short: "Make the labels of a batch, or of what goes to a target, to print from a browser",
		Long: `Writes a page to standard output, from which a browser prints labels at true size:
in the size and on the sheet that label in kitchen.yaml says, with what label in the
recipe says, the lot, and the date of the packing plus keeps, which is your own
estimate. ripeby keys kitchen and ripeby keys recipe tell how they are written.

Of a batch there are as many labels as pieces were first counted with its packing or
after it, else as many as were made less what is gone. Of a target each batch that
gives to it has as many as it gives. A batch has no label before it has a lot. What
begun.yaml has in stock with a lot is labelled likewise, packed when it says.

Which lines a law asks for is yours to know. Nothing is written or changed.

Exit codes:
  0  the labels are on standard output
  1  anything else, such as a file that cannot be read
  2  the folder or the command line is wrong, there is no such batch, it has no lot
     yet, or what is to stand on a label does not fit`,
		Example: `  ripeby labels AB-270312-1 -C my-kitchen > labels.html
  ripeby labels AB-270312-1 --start 5 --count 9 > labels.html
  ripeby labels "Saturday stall" --outline > labels.html`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("%s wants one lot, id or target; such as: ripeby labels AB-270312-1", cmd.CommandPath())
			}
			return nil
		},
		ValidArgsFunction: p.completeTrace,
	}
	f := cmd.Flags()
	folderFlags(f)
	outFlag(f)
	f.IntVar(&opt.start, "start", 1, "begin at this `CELL` of the first sheet, 1 being at the top left, counted along the rows")
	f.IntVar(&opt.count, "count", 0, "print so many `LABELS` of each batch (default: as many as there are pieces)")
	f.BoolVar(&opt.outline, "outline", false, "print a thin line round each label, to see whether the cells lie right")
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		if cmd.Flags().Changed("count") && (opt.count < 1 || opt.count > label.MostLabels) {
			return wrong("--count is %d; want a whole number from 1 to %d", opt.count, label.MostLabels)
		}
		if opt.start < 1 {
			return wrong("--start is %d; want the number of a cell, 1 for the first", opt.start)
		}
		s, err := p.settings(cmd.Flags(), false)
		if err != nil {
			return err
		}
		return p.labels(s, args[0], opt)
	})
	return cmd
}

// labels is ripeby labels.
func (p *program) labels(s *settings, word string, opt labelOptions) error {
	problem, plan, err := p.asPlanned(s, false)
	if err != nil {
		return err
	}
	page, err := p.labelPage(s.folder, problem, plan, word, opt.count, label.Options{Start: opt.start, Outline: opt.outline})
	if err == nil {
		_, err = p.out.Write(page)
	}
	return err
}

// labelPage is the page of the labels that a word asks for; so many of each batch, where count is not 0.
func (p *program) labelPage(folder string, problem *schedule.Problem, plan *schedule.Plan, word string, count int, opt label.Options) ([]byte, error) {
	known, err := p.archive(folder)
	if err != nil {
		return nil, err
	}
	lots, err := labelled{known: known, problem: problem, plan: plan, now: p.now(), say: p.say}.find(word)
	if err != nil {
		return nil, err
	}
	for i := range lots {
		if count > 0 {
			lots[i].Labels = count
		}
	}
	page, err := label.Page(problem, lots, opt)
	if err != nil {
		return nil, wrong("%s: %w", fault.Clip(word), err)
	}
	return page, nil
}

// Labels is the page from which the labels of a batch are printed.
func (w *watched) Labels(id string, opt label.Options) ([]byte, error) {
	if w.from.demo {
		return nil, wrong("of the demo kitchen nothing is kept that was made")
	}
	plan, err := w.out.earlier()
	if plan == nil || err != nil {
		return nil, wrong("the plan cannot be read just now")
	}
	problem, err := w.from.showing(plan, w.p.now())
	if err != nil {
		return nil, wrong("the kitchen folder cannot be read just now")
	}
	page, err := w.p.labelPage(w.from.folder, problem, plan, id, 0, opt)
	return page, w.told(err)
}
