package main

import (
	"context"
	"errors"
	"os"
	"strings"
	"time"

	"ripeby/calendar/feed"
	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/chance"
	"ripeby/schedule/planner"
)

// watched is the kitchen that ripeby serve watches. It has the plan made as ripeby
// plan makes it, but prints nothing.
type watched struct {
	p     *program
	from  kitchen
	out   output
	work  int64 // 0: the planner's own
	print printer
	seen  string // print of the kept plan at the last look
}

func newWatched(p *program, s *settings, k kitchen) *watched {
	return &watched{p: p, from: k, out: output{s.out}, work: s.work, print: printer{fsys: os.DirFS(s.folder), now: p.now}}
}

// Print tells one content of the kitchen folder from another. The demo's never
// changes.
func (w *watched) Print() string {
	if w.from.demo {
		return "demo"
	}
	return w.print.of()
}

// PlanPrint tells one content of the kept plan from another.
func (w *watched) PlanPrint() string {
	w.seen = w.out.planPrint()
	return w.seen
}

// Kept reads the plan that is kept, with the kitchen as of its start. A folder that
// cannot be read any more leaves what the plan itself says of the kitchen.
func (w *watched) Kept() (*feed.Made, error) {
	print := w.out.planPrint()
	plan, err := w.out.earlier()
	if plan == nil || err != nil {
		return nil, w.told(err)
	}
	problem, err := w.from.showing(plan, w.p.now())
	reads := err == nil
	if !reads {
		if problem, err = kitchenOf(plan); err != nil {
			return nil, err
		}
	}
	return w.beside(&feed.Made{Problem: problem, Plan: plan, Print: print, Fresh: reads && w.fresh()}), nil
}

// timesServed is how many times a plan that is served is counted through: fewer than by ripeby chance, for it is done with every plan.
const timesServed = 500

// beside tells with a plan what is known beside it: what the kitchen's own sales say of its wants, and how often
// these are met. What cannot be read is left out; the example has no record.
func (w *watched) beside(made *feed.Made) *feed.Made {
	opt := chance.Options{Times: timesServed, Seed: chance.DefaultSeed} // what would help takes longer, and is ripeby chance's
	if !w.from.demo {
		known, err := w.p.archive(w.from.folder)
		if err != nil {
			w.p.say("what was sold and lost cannot be told: " + err.Error())
		} else {
			made.Bring = w.p.bring(known, made.Problem, made.Plan)
			opt.LostRate = known.LossRate()
		}
	}
	if made.Problem.Scatters() {
		made.Chances = chance.Of(made.Problem, made.Plan, opt).Wants
	}
	return made
}

// fresh reports whether nothing that the plan is made from is younger than it. A clock of
// the file system that ticks every few milliseconds gives a folder and the first plan in it
// the same time.
func (w *watched) fresh() bool {
	if w.from.demo {
		return true
	}
	info, err := os.Stat(w.out.planPath())
	return err == nil && !info.ModTime().Before(youngest(w.print.fsys))
}

// kitchenOf is as much of a kitchen as a plan tells: its name, its time zone and
// who works in it.
func kitchenOf(plan *schedule.Plan) (*schedule.Problem, error) {
	zone, err := time.LoadLocation(plan.TimeZone)
	if err != nil {
		return nil, wrong("the plan's time zone %q is not known: %w", plan.TimeZone, err)
	}
	k := resources.Kitchen{Name: plan.Kitchen, TimeZone: plan.TimeZone, Zone: zone}
	add := func(who string) {
		if who != "" && k.PersonNumber(who) < 0 {
			k.People = append(k.People, resources.Person{Name: who})
		}
	}
	for _, b := range plan.Batches {
		for _, t := range b.Stages {
			add(t.Who)
		}
	}
	for _, r := range plan.Rounds {
		add(r.Who)
	}
	return &schedule.Problem{Kitchen: k, From: plan.From}, nil
}

// toldError is an error in the words of a page.
type toldError struct {
	error
	text string
}

// Error gives those words.
func (t toldError) Error() string { return t.text }

// Unwrap gives the error itself.
func (t toldError) Unwrap() error { return t.error }

// told is an error as phones may read it: it names the plan's files, not where on this
// machine they are.
func (w *watched) told(err error) error {
	if err == nil {
		return nil
	}
	hidden := strings.NewReplacer(w.out.dir+string(os.PathSeparator), "", "kept in "+w.out.dir+":", "kept in its folder:")
	return toldError{err, hidden.Replace(err.Error())}
}

// Plan makes the plan anew and keeps it. A plan that was cut short is not kept:
// unlike the maker of ripeby plan, nobody has asked for it.
func (w *watched) Plan(ctx context.Context) (*feed.Made, error) {
	made, err := w.remade(ctx, remaking{seen: &w.seen})
	return made, w.told(err)
}

// remaking is how a plan is made anew.
type remaking struct {
	seen     *string                // print of the plan that is to be there still; nil for any
	free     bool                   // whatever makes it better moves
	progress func(planner.Progress) // nil for nobody
}

func (w *watched) remade(ctx context.Context, how remaking) (*feed.Made, error) {
	mine, err := w.out.takeTurn()
	if errors.Is(err, errBusy) {
		return nil, feed.ErrBusy
	}
	if err != nil {
		return nil, err
	}
	defer func() { mine.end() }()
	if how.seen != nil && w.out.planPrint() != *how.seen {
		return nil, feed.ErrBusy // another run has kept a plan since the look: that is looked at first
	}
	earlier, err := w.out.earlier()
	if err != nil {
		return nil, err
	}
	problem, err := w.from.load(w.start(earlier), w.p.now())
	if err != nil {
		return nil, folderFault(err)
	}
	if how.free {
		problem.Kitchen.Settled = 0
	}
	problem.Earlier = earlier
	if err := emptied(problem); err != nil {
		return nil, &feed.FolderFault{Lines: strings.Split(err.Error(), "\n")}
	}
	where, err := w.from.stands(problem, earlier)
	if err != nil {
		return nil, folderFault(err)
	}
	problem = where.Problem
	work := w.work
	if work == 0 {
		work = planner.WorkFor(problem)
	}
	plan, err := newPlan(ctx, where, planner.Options{Budget: work, Progress: how.progress})
	if ctx.Err() != nil {
		return nil, context.Canceled
	}
	if err != nil {
		return nil, other("no plan could be made: %w", err)
	}
	if faults := w.p.judge(problem, plan); len(faults) > 0 {
		return nil, other("this is a fault of ripeby, not of your kitchen folder: the new plan breaks its own rules (%s); ripeby plan tells what to report", faults[0].String())
	}
	pages, err := pagesOf(problem, plan)
	if err != nil {
		return nil, err
	}
	if err := mine.toWrite(); err != nil {
		return nil, err
	}
	batches, err := w.from.batchesKept(w.out, where.Position, plan, w.p.say)
	if err != nil {
		return nil, err
	}
	if err := w.out.write(pages, batches, w.p.now()); err != nil {
		return nil, err
	}
	problem.Earlier = nil // nobody asks for it any more
	return w.beside(&feed.Made{Problem: problem, Plan: plan, Print: w.out.planPrint(), Fresh: true}), nil
}

// start is the planning start: now, but for a plan that begins later its own.
func (w *watched) start(earlier *schedule.Plan) string {
	if w.from.demo {
		return ""
	}
	return w.p.startWith(earlier)
}

// folderFault is what the page tells of a folder that cannot be planned. It names
// the files of the folder, not where the folder is.
func folderFault(err error) error {
	var faults config.Faults
	if errors.As(err, &faults) {
		return &feed.FolderFault{Lines: strings.Split(faults.Error(), "\n")}
	}
	return &feed.FolderFault{Lines: []string{"the kitchen folder is not there, or cannot be read"}}
}
