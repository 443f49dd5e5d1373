package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"ripeby/calendar/list"
	"ripeby/config/fault"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/chance"
	"ripeby/schedule/record/trace"
)

// listOptions are the options of ripeby list.
type listOptions struct {
	html, csv, json bool
	note            string // the business that a delivery note is for; "" where the target says
	demo            bool
}

func (p *program) listCommand() *cobra.Command {
	var opt listOptions
	cmd := &cobra.Command{
		Use:   "list TARGET [DATE]",
		Short: "Say what to take along to a target, or write its delivery note",
		Long: `Says what to take along: of which cheese and lot, how many pieces, out of which place,
shelf and box, and until when they keep by the recipe; with blanks for what was taken,
what came back and when it was sold out. The plan is the one that "ripeby plan" has kept.

A target that repeats is named with its date; without one the next is meant.

With --note it is the delivery note for one of the businesses of kitchen.yaml, and so it
is without where the target has the name of one: a description, the quantity, name and
address of who sends and who receives, the lot, the day. It has what the record says
that went there, else what the plan has for the target.

With --html either is a page to print, with --csv a table for a spreadsheet, with --json
for a program. What is not known yet is a blank; a field without a value in the table.

` + exitTable,
		Example: `  ripeby list "Saturday stall" -C my-kitchen
  ripeby list "Saturday stall" 2027-03-13 --html > list.html
  ripeby list "Friday round" --note "Corner shop" --html > note.html
  ripeby list "Saturday stall" --csv > list.csv`,
		ValidArgsFunction: p.completeList,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) < 1 || len(args) > 2 {
				return fmt.Errorf("%s wants a target, and the date of one that repeats; such as: ripeby list \"Saturday stall\" 2027-03-13", cmd.CommandPath())
			}
			return nil
		},
	}
	f := cmd.Flags()
	folderFlags(f)
	f.BoolVar(&opt.html, "html", false, "write a page to print")
	f.BoolVar(&opt.csv, "csv", false, "print it as CSV, for a spreadsheet")
	f.BoolVar(&opt.json, "json", false, "print it as JSON and nothing else")
	cmd.MarkFlagsMutuallyExclusive("html", "csv", "json")
	f.StringVar(&opt.note, "note", "", "write the delivery note for this `BUSINESS`")
	outFlag(f)
	tableFlags(f)
	demo := demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		opt.demo = *demo
		s, err := p.settings(cmd.Flags(), opt.demo)
		if err != nil {
			return err
		}
		return p.list(s, strings.Join(args, " "), opt)
	})
	return cmd
}

// printed is what either page can be written as.
type printed interface {
	Write(w io.Writer, width int, colour bool) error
	HTML(w io.Writer) error
	CSV(w io.Writer) error
}

// list is ripeby list.
func (p *program) list(s *settings, name string, opt listOptions) error {
	problem, plan, err := p.asPlanned(s, opt.demo)
	if err != nil {
		return err
	}
	t, ok := list.Find(plan, name, resources.MomentOf(p.now()))
	if !ok {
		return noTarget(plan, name)
	}
	page, err := p.takenAlong(s, problem, plan, t, opt)
	switch {
	case err != nil:
		return err
	case opt.html:
		return page.HTML(p.out)
	case opt.csv:
		return page.CSV(p.out)
	case opt.json:
		if note, ok := page.(*list.Note); ok {
			return noteAsJSON(p.out, note)
		}
		return listAsJSON(p.out, page.(*list.Shown), problem.Kitchen.Zone)
	}
	l := p.look(s)
	return page.Write(p.out, l.width, l.colour)
}

// Note is the page from which the delivery note of what goes to a business for a target is printed.
func (w *watched) Note(problem *schedule.Problem, plan *schedule.Plan, t list.Target, to resources.Business, back string) ([]byte, error) {
	handed, err := w.p.handed(w.from.folder, w.from.demo, t, to.Name)
	if err != nil {
		return nil, w.told(err)
	}
	note, err := list.NoteOf(problem, plan, t, to, handed)
	if err != nil {
		return nil, w.told(err)
	}
	var page bytes.Buffer
	note.Back = back
	err = note.HTML(&page)
	return page.Bytes(), err
}

// noTarget says that the plan knows no such target, and which is nearest.
func noTarget(plan *schedule.Plan, name string) error {
	var names []string
	for _, t := range list.Targets(plan) {
		names = append(names, schedule.Undated(t.Name), t.Name)
	}
	text := fmt.Sprintf("the plan has no target %q", fault.Clip(name))
	if near := fault.Nearest(name, names); near != "" {
		return wrong("%s; did you mean %q?", text, near)
	}
	if names = once(names); len(names) > 0 {
		return wrong("%s; it has %s", text, schedule.Listed(names[:min(len(names), 5)]))
	}
	return wrong("%s, nor any other", text)
}

// takenAlong is the list of a target, or its delivery note.
func (p *program) takenAlong(s *settings, problem *schedule.Problem, plan *schedule.Plan, t list.Target, opt listOptions) (printed, error) {
	var names []string
	for _, b := range problem.Kitchen.Businesses {
		names = append(names, b.Name)
	}
	to := opt.note
	if base := schedule.Undated(t.Name); to == "" && slices.Contains(names, base) {
		to = base
	}
	if to == "" {
		return p.toTake(s, problem, plan, t, opt.demo)
	}
	at := slices.Index(names, to)
	if at < 0 {
		return nil, noBusiness(to, names)
	}
	handed, err := p.handed(s.folder, opt.demo, t, to)
	if err != nil {
		return nil, err
	}
	return list.NoteOf(problem, plan, t, problem.Kitchen.Businesses[at], handed)
}

// toTake is the list of a target, with what the kitchen's record says beside it. The example kitchen has none.
func (p *program) toTake(s *settings, problem *schedule.Problem, plan *schedule.Plan, t list.Target, demo bool) (printed, error) {
	shown, err := list.Show(problem, plan, t)
	if err != nil || demo {
		return shown, err
	}
	known, err := p.archive(s.folder)
	if err != nil {
		return nil, err
	}
	shown.Bring(problem, t, p.bring(known, problem, plan))
	if problem.Scatters() {
		opt := chance.Options{Times: chance.DefaultTimes, Seed: chance.DefaultSeed, LostRate: known.LossRate(),
			Helps: func(w *chance.Want) bool { return w.Target == t.Name && w.By == t.By }}
		shown.Chances(problem, t, chance.Of(problem, plan, opt).Wants)
	}
	return shown, nil
}

// noBusiness says that the kitchen knows no such business.
func noBusiness(name string, names []string) error {
	text := fmt.Sprintf("--note: kitchen.yaml lists no business %q", fault.Clip(name))
	if near := fault.Nearest(name, names); near != "" {
		return wrong("%s; did you mean %q?", text, near)
	}
	return wrong("%s; it is listed as: businesses: [{name: %q, address: \"…\"}]", text, fault.Clip(name))
}

// handed is what somebody said that went to a business for a target. The example kitchen has no record.
func (p *program) handed(folder string, demo bool, t list.Target, to string) (out []list.Handed, err error) {
	if demo {
		return nil, nil
	}
	known, err := p.archive(folder)
	if err != nil {
		return nil, err
	}
	answers, err := known.Ask([]string{t.Name})
	var unknown *trace.Unknown
	if errors.As(err, &unknown) {
		return nil, nil
	}
	if err != nil {
		return nil, other("%w", err)
	}
	for _, a := range answers {
		if a.Kind != trace.OfTarget {
			continue
		}
		for _, x := range a.Passed {
			if x.To != to || x.Known != trace.Said || x.Pieces == 0 {
				continue
			}
			h := list.Handed{Cheese: x.Batch.Cheese, Lot: x.Batch.Lot, Pieces: x.Pieces, At: x.Took.At}
			if kept := known.Kept(x.Batch); kept != nil {
				h.UseBy = kept.UseBy
			}
			out = append(out, h)
		}
	}
	return out, nil
}

// completeList completes the targets of the plan that is kept.
func (p *program) completeList(cmd *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	s, err := p.settings(cmd.Flags(), false)
	if err != nil || len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	_, plan, err := p.asPlanned(s, false)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var names []cobra.Completion
	for _, t := range list.Targets(plan) {
		if strings.HasPrefix(t.Name, begun) && !slices.Contains(names, t.Name) {
			names = append(names, t.Name)
		}
	}
	return names, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
}
