package main

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"ripeby/calendar/sheet"
	"ripeby/config/fault"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

func (p *program) sheetCommand() *cobra.Command {
	var html bool
	var demo *bool
	cmd := &cobra.Command{
		Use:   "sheet LOT|ID",
		Short: "Write the batch sheet: what is to be done, what was done, and blanks",
		Long: `Writes all of one batch on a sheet that explains itself: milk, and what goes in, of which
packet; each stage by the plan and as it really was; kit and places, what was measured
and found, care, pieces, weights, notes, where it goes, the date as your own estimate
and the usual cautions. What was said is filled in, what nobody said and is over is
marked as assumed, and what is to come has a blank. What was taken back does not count.

With --html it is one page of A4 to print from a browser. Letters get smaller where
there is much, and what one page has no room for is left out and named; a terminal
shows all of it.

A batch that is in no plan any more is answered from what was kept of it
(record/batches) and from the record. Nothing is written or changed.

Exit codes:
  0  the sheet is on standard output
  1  anything else, such as a file that cannot be read
  2  the command line is wrong, or there is no such batch`,
		Example: `  ripeby sheet AB-270312-1 -C my-kitchen
  ripeby sheet AB-270312-1 --html > sheet.html`,
		ValidArgsFunction: p.completeSheet,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("%s wants one lot or id; such as: ripeby sheet AB-270312-1", cmd.CommandPath())
			}
			return nil
		},
	}
	f := cmd.Flags()
	folderFlags(f)
	f.BoolVar(&html, "html", false, "write one page of A4 to print")
	outFlag(f)
	tableFlags(f)
	demo = demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		s, err := p.settings(cmd.Flags(), *demo)
		if err != nil {
			return err
		}
		shown, err := p.sheetOf(kitchen{folder: s.folder, demo: *demo}, output{s.out}, args[0])
		if err != nil {
			return err
		}
		if html {
			return shown.HTML(p.out, "")
		}
		l := p.look(s)
		return shown.Write(p.out, l.width, l.colour)
	})
	return cmd
}

// sheetOf is the sheet of a batch, by its lot or id. A plan or a folder that cannot be read is told, and the rest is
// answered from.
func (p *program) sheetOf(k kitchen, out output, word string) (*sheet.Shown, error) {
	plan, err := out.earlier()
	if err != nil {
		p.say("mind that the plan cannot be read: " + err.Error())
		plan = nil
	}
	known := trace.New(nil, record.NewBook(nil), time.UTC) // the example kitchen has no record
	if !k.demo {
		if known, err = p.archive(k.folder); err != nil {
			return nil, err
		}
	}
	what := sheet.Known{Plan: plan, Planned: plannedAs(plan, word), Zone: known.Zone(), Struck: func(e *record.Entry) bool { return known.StruckBy(e) != nil }, Round: known.Round}
	if what.Told, err = toldOf(known, what.Planned, word); err != nil {
		return nil, other("%w", err)
	}
	if what.Planned == nil && what.Told == nil {
		return nil, noSheet(known, plan, word)
	}
	if err := p.inKitchen(&what, k); err != nil {
		return nil, err
	}
	if what.Planned != nil && what.Planned.Milk != nil {
		what.Milk = collectionOf(known, what.Planned.Milk)
	}
	return sheet.Of(what)
}

// collectionOf is what was said of the milk that the plan has a batch draw on; nil where nothing was. Milk that is
// collected at 24:00 is that of the day which ends then.
func collectionOf(known *trace.Archive, of *schedule.Draw) *trace.Collection {
	answers, err := known.Ask([]string{of.Supply, of.Collect.Add(-1).DateIn(known.Zone()).String()})
	if err != nil {
		return nil // nobody spoke of it
	}
	for _, a := range answers {
		if a.Kind == trace.OfMilk && len(a.Collections) > 0 {
			return a.Collections[0]
		}
	}
	return nil
}

// plannedAs is a batch of the plan by any of its names, one too that is packed and of which nothing is left; nil for
// none.
func plannedAs(plan *schedule.Plan, word string) *schedule.Batch {
	if b := plan.Named(word); b != nil || plan == nil {
		return b
	}
	return (&schedule.Plan{Batches: plan.Past}).Named(word)
}

// toldOf is what was kept and said of a batch; nil where nothing was.
func toldOf(known *trace.Archive, planned *schedule.Batch, word string) (*trace.Batch, error) {
	if planned != nil {
		word = planned.ID
	}
	answers, err := known.Ask([]string{word})
	var unknown *trace.Unknown
	if errors.As(err, &unknown) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	for _, a := range answers {
		if a.Kind == trace.OfBatch && len(a.Batches) > 0 {
			return a.Batches[0], nil
		}
	}
	return nil, nil
}

// inKitchen adds the kitchen as its folder has it now; where that cannot be read, as much of it as the plan or what was
// kept of the batch tells.
func (p *program) inKitchen(what *sheet.Known, k kitchen) error {
	var problem *schedule.Problem
	var err error
	if what.Plan != nil {
		problem, err = k.showing(what.Plan, p.now())
	} else {
		problem, err = k.load("", p.now())
	}
	switch {
	case err == nil:
		what.Problem, what.Kitchen, what.Zone = problem, problem.Kitchen.Name, problem.Kitchen.Zone
	case what.Plan != nil:
		p.say("mind that the kitchen's folder cannot be read, so the sheet has no cautions:\n" + err.Error())
		known, err := kitchenOf(what.Plan)
		if err != nil {
			return err
		}
		what.Kitchen, what.Zone = known.Kitchen.Name, known.Kitchen.Zone
	default:
		p.say("mind that the kitchen's folder cannot be read, so the sheet has no cautions:\n" + err.Error())
		if what.Told != nil && what.Told.Kept != nil {
			what.Kitchen = what.Told.Kept.Kitchen
		}
	}
	return nil
}

// noSheet says that there is no such batch, and which is nearest.
func noSheet(known *trace.Archive, plan *schedule.Plan, word string) error {
	names := known.Names()
	if plan != nil {
		for i := range plan.Batches {
			names = append(names, plan.Batches[i].Names()...)
		}
	}
	text := fmt.Sprintf("there is no batch %q in the plan or in the record", fault.Clip(word))
	if near := fault.Nearest(word, names); near != "" {
		return wrong("%s; did you mean %q?", text, near)
	}
	if len(names) == 0 {
		return wrong("%s, nor any other; make a plan with: ripeby plan", text)
	}
	return wrong("%s; there is %s", text, schedule.Listed(once(names)[:min(len(once(names)), 5)]))
}

// completeSheet completes the batches of the plan, then those that were kept, the ones made last first.
func (p *program) completeSheet(cmd *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	s, err := p.settings(cmd.Flags(), false)
	if err != nil || len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	kept, how := p.completeTrace(cmd, args, begun)
	plan, err := output{s.out}.earlier()
	if plan == nil || err != nil {
		return kept, how
	}
	var names []cobra.Completion
	for i := range plan.Batches {
		for _, name := range plan.Batches[i].Names() {
			if strings.HasPrefix(name, begun) && !slices.Contains(kept, name) {
				names = append(names, name)
			}
		}
	}
	return append(names, kept...), cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
}

// Sheet is the page from which the batch sheet of a batch is printed; it leads back.
func (w *watched) Sheet(id, back string) ([]byte, error) {
	shown, err := w.p.sheetOf(w.from, w.out, id)
	if err != nil {
		return nil, w.told(err)
	}
	var b bytes.Buffer
	err = shown.HTML(&b, back)
	return b.Bytes(), w.told(err)
}
