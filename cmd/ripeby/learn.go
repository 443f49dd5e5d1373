package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"ripeby/schedule"
	"ripeby/schedule/learn"
)

// learnOptions are the options of ripeby learn.
type learnOptions struct {
	cheese string // "" for every one
	write  bool
	only   string // "times" or "yield"; "" for both
	csv    bool
	json   bool
}

// What alone may be written.
const (
	onlyTimes = "times"
	onlyYield = "yield"
)

func (p *program) learnCommand() *cobra.Command {
	var opt learnOptions
	cmd := &cobra.Command{
		Use:   "learn [CHEESE]",
		Short: "Say what your own record tells of set times, yields, work and weight",
		Long: `For each cheese, from the record and from what was kept of its batches:

  how many times as long a hold takes in your kitchen as its recipe says, from looks:
  the last time that it was not ready yet, and when the next work began. The recipe
  says after how long it is ready, and in how warm a room:
    hold: {least: 14 h, most: 24 h, ready: 17 h, goes_by: {temperature: 21 °C}}
  how many pieces come from the milk, and how many nine in ten batches give at least;
  how long work takes, where somebody said when it began and when it was done;
  what a cheese loses in weight between two stages at which it was weighed.

Planned times are never taken for what happened, and nothing is told of under three
batches. All of it is time, weight and number, and none of it is safety: what a slow
set means is yours to judge.

Nothing is used before it stands in the recipe. --write puts the set times and the
yields there, changes nothing else in the file, and says what it changed; or it
writes nothing at all, and says how to write it by hand.

Exit codes:
  0  what is known is told, and written where that was asked
  1  anything else, such as a file that cannot be read
  2  the folder or the command line is wrong, or a recipe cannot be written into`,
		Example: `  ripeby learn -C my-kitchen
  ripeby learn "Ash button"
  ripeby learn "Ash button" --write
  ripeby learn "Ash button" --write --only times
  ripeby learn --csv > learned.csv`,
		ValidArgsFunction: p.completeCheese,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return fmt.Errorf("%s takes one cheese at most, in quotation marks where its name has a space; got %d words", cmd.CommandPath(), len(args))
			}
			return nil
		},
	}
	f := cmd.Flags()
	folderFlags(f)
	f.BoolVar(&opt.write, "write", false, "write set times and yields into the recipes")
	f.StringVar(&opt.only, "only", "", "with --write: `WHAT` alone is written, times or yield")
	f.BoolVar(&opt.csv, "csv", false, "print the table as CSV, for a spreadsheet")
	f.BoolVar(&opt.json, "json", false, "print the answer as JSON and nothing else")
	outFlag(f)
	f.Int("width", 0, fmt.Sprintf("make lines this many `COLUMNS` wide (default: the terminal, else %d)", standardWidth))
	cmd.MarkFlagsMutuallyExclusive("csv", "json")
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		if len(args) == 1 {
			opt.cheese = args[0]
		}
		switch {
		case opt.only != "" && !opt.write:
			return wrong("--only belongs to --write")
		case opt.only != "" && opt.only != onlyTimes && opt.only != onlyYield:
			return wrong("--only is %s or %s, not %q", onlyTimes, onlyYield, opt.only)
		}
		s, err := p.settings(cmd.Flags(), false)
		if err != nil {
			return err
		}
		return p.learn(s, opt)
	})
	return cmd
}

// learn is ripeby learn.
func (p *program) learn(s *settings, opt learnOptions) error {
	plan, err := output{s.out}.earlier()
	if err != nil {
		return err
	}
	k := kitchen{folder: s.folder}
	problem, err := k.load(p.startWith(plan), p.now())
	if err != nil {
		return err
	}
	if opt.cheese != "" && problem.Recipe(opt.cheese) == nil {
		return wrong("there is no cheese %q in recipes; there are %s", opt.cheese, cheeses(problem))
	}
	known, err := p.archiveWith(s.folder, plan)
	if err != nil {
		return err
	}
	made := known.Made()
	a := learnAnswer{width: p.look(s).width, asked: opt.write, as: k.as()}
	for i := range problem.Recipes {
		if r := &problem.Recipes[i]; opt.cheese == "" || r.Name == opt.cheese {
			a.cheeses = append(a.cheeses, learn.Of(&problem.Kitchen, r, made))
		}
	}
	if opt.write {
		if a.written, err = writeLearned(s.folder, problem, a.cheeses, opt.only); err != nil {
			return err
		}
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

// completeCheese completes the name of a cheese.
func (p *program) completeCheese(cmd *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	s, err := p.settings(cmd.Flags(), false)
	if err != nil || len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	problem, err := kitchen{folder: s.folder}.load("", p.now())
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var names []cobra.Completion
	for i := range problem.Recipes {
		if name := problem.Recipes[i].Name; strings.HasPrefix(name, begun) {
			names = append(names, name)
		}
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}

// notKept are the batches of a plan of which nothing was kept, as that has them: they may have begun since,
// and been spoken of.
func notKept(plan *schedule.Plan, kept []schedule.KeptBatch) (out []schedule.KeptBatch) {
	if plan == nil {
		return nil
	}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		if slices.ContainsFunc(kept, func(k schedule.KeptBatch) bool { return k.ID == b.ID }) {
			continue
		}
		k := schedule.KeptBatch{ID: b.ID, Lot: b.Lot, Cheese: b.Cheese, Litres: b.Litres, Pieces: b.Pieces, Spare: b.Spare}
		for _, t := range b.Stages {
			k.Stages = append(k.Stages, schedule.KeptStage{Stage: t.Stage, Start: t.Start, Work: t.Work, Who: t.Who, Ends: t.Ends, At: t.At, Planned: t.Start})
		}
		out = append(out, k)
	}
	return out
}
