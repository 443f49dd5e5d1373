package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/judge"
	"ripeby/schedule/planfile"
	"ripeby/schedule/planner"
)

// planOptions are the options of ripeby plan.
type planOptions struct {
	from  string
	json  bool
	fresh bool
	none  bool // it is meant that nothing is wanted
	demo  bool

	settled string
}

func (p *program) planCommand() *cobra.Command {
	var opt planOptions
	cmd := &cobra.Command{
		Use:   "plan",
		Short: "Make the plan, its calendar and its week table",
		Long: `Reads the kitchen folder, makes the plan and writes four files:

  plan.json   the plan itself; it remembers batch numbers and what has begun
  tasks.ics   the calendar
  week.txt    every week's table
  plan.svg    a drawing of the batches

They go into the folder plan in the kitchen folder, or where --out says. The
plan.json that is there already is read first: batches keep their numbers, and
what should have begun by now counts as begun. --fresh leaves it out of account.

Into the kitchen's own folder plan it goes with a file of each batch that has begun,
in record/batches: what was made stays, for ripeby trace.

With --json the plan is printed as plan.json and nothing is written, unless --out
is given on the command line.

On a terminal a line shows how far the planning is. Ctrl-C ends it with the best
plan found so far, which then says what is not proved; a second Ctrl-C quits.

` + exitTable,
		Example: `  ripeby plan --demo
  ripeby plan -C my-kitchen
  ripeby plan -C my-kitchen --from "2027-03-01 06:00"
  ripeby plan -C my-kitchen --json > plan.json
  ripeby plan -C my-kitchen --work 2000000`,
		Args: p.noArguments,
	}
	f := cmd.Flags()
	folderFlags(f)
	f.StringVar(&opt.from, "from", "", "plan from this `MOMENT`, such as \"2027-03-01 06:00\" in the kitchen's time\n(default: now; with --demo the demo's own)")
	f.BoolVar(&opt.json, "json", false, "print plan.json and nothing else")
	f.BoolVar(&opt.fresh, "fresh", false, "leave the earlier plan out of account")
	f.BoolVar(&opt.none, "no-targets", false, "plan though targets.yaml wants nothing any more: what has not begun is taken out")
	f.StringVar(&opt.settled, "settled", "", "move nothing without need that is planned for so long from now: a `LENGTH` such as \"1 d\", or \"0 h\"\nto move whatever makes the plan better (default: the kitchen's own)")
	f.Int64("work", 0, fmt.Sprintf("stop searching after `N` units of work, which gives the same plan on every machine\n(more than ten batches get more than the default %d)", cp.DefaultBudget))
	outFlag(f)
	tableFlags(f)
	demo := demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, _ []string) error {
		opt.demo = *demo
		s, err := p.settings(cmd.Flags(), opt.demo)
		if err != nil {
			return err
		}
		return p.plan(cmd.Context(), s, opt)
	})
	return cmd
}

// plan is ripeby plan, step by step as doc.go tells them.
func (p *program) plan(ctx context.Context, s *settings, opt planOptions) error {
	from := kitchen{folder: s.folder, demo: opt.demo}
	problem, err := from.load(opt.from, p.now())
	if err != nil {
		return err
	}
	if opt.settled != "" {
		if problem.Kitchen.Settled, err = resources.ParseMinutes(opt.settled); err != nil {
			return wrong("--settled: %v", err)
		}
	}
	out, keep := output{s.out}, !opt.json || s.outGiven
	var mine *turn
	if keep {
		if err := out.probe(); err != nil {
			return err
		}
		if mine, err = out.takeTurn(); err != nil {
			return err
		}
		defer func() { mine.end() }()
	}
	if !opt.fresh {
		if problem.Earlier, err = out.earlier(); err != nil {
			return err
		}
		if e := problem.Earlier; e != nil && e.From > problem.From {
			return wrong("the plan in %s was made from %s on; plan from then or later, or leave it out of account with --fresh",
				out.dir, moment(e.From, problem.Kitchen.Zone))
		}
		if err := emptied(problem); err != nil && !opt.none {
			return err
		}
		p.mindOtherKitchen(out, problem)
	}
	where, err := from.stands(problem, problem.Earlier)
	if err != nil {
		return err
	}
	problem = where.Problem
	if s.work == 0 {
		s.work = planner.WorkFor(problem)
	}
	plan, err := p.makePlan(ctx, where, s.work)
	if err != nil {
		return err
	}
	if faults := p.judge(problem, plan); len(faults) > 0 {
		p.reportFault(faults)
		return other("the plan does not hold, so nothing was written")
	}
	if plan.Outcome == schedule.Short {
		p.code = exitShort
	}
	saves := ""
	if !opt.json {
		if saves = savesIfFree(ctx, problem, plan, s.work); saves != "" {
			saves += ": ripeby plan --settled \"0 h\" takes it."
		}
	}
	d := delivery{saves: saves, out: out, turn: mine, keep: keep, json: opt.json, look: p.look(s), stopped: ctx.Err() != nil, work: s.work}
	if !opt.demo {
		d.folder = s.folder
	}
	if keep && !opt.json {
		if d.batches, err = from.batchesKept(out, where.Position, plan, p.say); err != nil {
			return err
		}
	}
	return p.deliver(problem, plan, d)
}

// mindOtherKitchen says when the earlier plan has the name of another kitchen:
// the kitchen was renamed, or two kitchens keep their plans in one place.
func (p *program) mindOtherKitchen(out output, problem *schedule.Problem) {
	if e := problem.Earlier; e != nil && e.Kitchen != problem.Kitchen.Name {
		fmt.Fprintf(p.err, "ripeby: mind that the earlier plan in %s is of the kitchen %q, and this one is %q;\n"+
			"if they are two kitchens, give each a folder of its own with --out\n", plain(out.dir), e.Kitchen, problem.Kitchen.Name)
	}
}

// makePlan asks the planner and shows its progress.
func (p *program) makePlan(ctx context.Context, where *position, work int64) (*schedule.Plan, error) {
	show := newProgress(p.err, p.now, p.env)
	done := context.AfterFunc(ctx, show.stop)
	defer done()
	callback := show.callback()
	if callback != nil {
		callback(planner.Progress{}) // a large kitchen's first plan takes a moment
	}
	plan, err := newPlan(ctx, where, planner.Options{Budget: work, Progress: callback})
	show.clear()
	switch {
	case err == nil:
		return plan, nil
	case errors.Is(err, context.Canceled):
		return nil, other("stopped before a first plan was found; nothing was written")
	}
	return nil, other("no plan could be made: %w", err)
}

// delivery says where a plan goes.
type delivery struct {
	out     output
	turn    *turn
	keep    bool // write the files
	json    bool // print plan.json and nothing else
	look    look
	stopped bool  // somebody pressed Ctrl-C
	work    int64 // units of work that planning might have taken
	saves   string
	folder  string       // whose record tells what was sold; "" for the example kitchen, which has none
	batches *batchChange // what is to be kept of them; nil for nothing
}

// deliver writes and prints the plan. What cannot be written is printed all the
// same, so that the work is not lost.
func (p *program) deliver(problem *schedule.Problem, plan *schedule.Plan, d delivery) error {
	if d.json && !d.keep {
		text, err := planfile.Encode(plan, problem.Kitchen.Zone)
		if err != nil {
			return err
		}
		_, _ = p.out.Write(text)
		return nil
	}
	pages, err := pagesOf(problem, plan)
	if err != nil {
		return err
	}
	written := d.turn.toWrite()
	if written == nil {
		written = d.out.write(pages, d.batches, p.now())
	}
	if d.json {
		_, _ = p.out.Write(pages[0].text)
		return written
	}
	sum := summary{plan: plan, zone: problem.Kitchen.Zone, width: d.look.width, stopped: d.stopped, work: d.work, saves: d.saves}
	if problem.Earlier != nil {
		settled := problem.Settled()
		sum.settled = &settled
	}
	sum.write(p.out)
	p.sold(d, problem, plan)
	if written == nil {
		line(p.out, "")
		for _, page := range pages {
			line(p.out, "Written: "+d.out.path(page.name))
		}
	}
	line(p.out, "")
	if err := comingWeek(p.out, problem, plan, d.look); err != nil {
		return errors.Join(written, err)
	}
	return written
}

// reportFault tells on standard error that ripeby has made a mistake, and what to
// send so that it can be found.
func (p *program) reportFault(faults []judge.Violation) {
	w := p.err
	fmt.Fprintf(w, "This is a fault of ripeby, not of your kitchen folder: it made a plan that breaks\n"+
		"its own rules in %s. No file was written or changed.\n\n", schedule.Counted(len(faults), "place"))
	for _, v := range faults {
		line(w, "  "+v.String())
	}
	_, _ = io.WriteString(w, "\nPlease report it, with this text and\n"+
		"  - the kitchen folder: kitchen.yaml, recipes, targets.yaml, begun.yaml\n"+
		"  - the earlier plan.json, if there is one\n"+
		"  - the command line with the --from that was meant\n"+
		"  - what \"ripeby version\" prints\n"+
		"Names may be changed before sending, as long as they stay different.\n"+
		"Meanwhile a plan from another --from, with another --work or with --fresh may well\n"+
		"hold; with --fresh, what is under way must stand in begun.yaml.\n\n")
}
