package main

import (
	"cmp"
	"context"
	"fmt"
	"path/filepath"
	"strconv"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
)

// fitsOptions are the options of ripeby fits.
type fitsOptions struct {
	cheese string
	pieces int
	by     string
	packed string
	price  string
	name   string
	accept bool
	from   string
	json   bool
	csv    bool
	demo   bool
}

// fitsHelp is the long help of ripeby fits.
const fitsHelp = `Asks the plan that "ripeby plan" has kept whether so many pieces more of a cheese
can be ready by a moment. There are three answers:

  they fit, and nothing that is planned moves
  they fit if some tasks move, which are listed; nothing that has begun moves,
    and every other target gets as much as it did; of what was told for the settled
    days as little moves as can, and how much is said
  they do not fit: why not, how many would, and when all of them could be ready

With --cold it shows the room in the cold places instead, as "ripeby cold" does, and
takes the same options.

Nothing is written or changed, unless --accept is given and they fit: then the
order is written into targets.yaml as a promise, everything else in it left as it
is, and the next "ripeby plan" plans it.

Exit codes:
  0  they fit, or would if tasks moved
  1  anything else
  2  the folder, the plan or the command line is wrong
  3  they do not fit, or it could not be told`

func (p *program) fitsCommand() *cobra.Command {
	var opt fitsOptions
	var room coldOptions
	inCold := false
	cmd := &cobra.Command{
		Use:   "fits CHEESE PIECES --by MOMENT",
		Short: "Say whether one more order can be met",
		Long:  fitsHelp,
		Example: `  ripeby fits "Alder drum" 24 --by "2027-03-27 07:00"
  ripeby fits -C my-kitchen "Spoon curd" 8 --by 2027-03-27T07:00:00Z --json
  ripeby fits "Alder drum" 24 --by "2027-03-27 07:00" --accept --name "Lambing supper"
  ripeby fits --cold --box "40 x 30 x 14 cm" --at 2027-03-20 --until 2027-03-24`,
		Args: func(cmd *cobra.Command, args []string) error {
			if inCold {
				if len(args) > 0 {
					return fmt.Errorf("%s --cold takes no cheese and no number of pieces, got %q", cmd.CommandPath(), args[0])
				}
				return nil
			}
			if len(args) != 2 {
				return fmt.Errorf("%s takes a cheese and a number of pieces, such as: %s \"Alder drum\" 24 --by \"2027-03-27 07:00\"", cmd.CommandPath(), cmd.CommandPath())
			}
			return nil
		},
	}
	f := cmd.Flags()
	folderFlags(f)
	f.StringVar(&opt.by, "by", "", "the `MOMENT` at which they leave the kitchen, or a day for its noon")
	f.StringVar(&opt.packed, "packed", "", "packed so `LONG` before, such as \"10 h\"")
	f.StringVar(&opt.from, "from", "", "plan from this `MOMENT` (default: now, or the plan's own start when that lies ahead)")
	f.BoolVar(&inCold, "cold", false, "show the room in the cold places")
	coldFlags(f, &room)
	f.Lookup("csv").Usage = "print the answer as CSV, a line for each thing that is told; with --cold as \"ripeby cold\" does"
	f.BoolVar(&opt.accept, "accept", false, "if they fit, write the order into targets.yaml")
	f.StringVar(&opt.name, "name", "", "what the order is `CALLED` there (default: order and its date)")
	f.StringVar(&opt.price, "price", "", "the `PRICE` of a piece there, such as 6.50 (default 1)")
	f.BoolVar(&opt.json, "json", false, "print the answer as JSON and nothing else")
	cmd.MarkFlagsMutuallyExclusive("csv", "json")
	f.Int64("work", 0, fmt.Sprintf("stop asking after `N` units of work (default %d for each %d batches of the plan)", whatif.FitWork, whatif.FitBatches))
	outFlag(f)
	tableFlags(f)
	demo := demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		if err := oneQuestion(cmd.Flags(), inCold); err != nil {
			return err
		}
		if room.demo = *demo; inCold {
			s, err := p.settings(cmd.Flags(), room.demo)
			if err != nil {
				return err
			}
			return p.cold(s, cmd.Flags(), room)
		}
		opt.demo, opt.cheese, opt.csv = *demo, args[0], room.csv
		n, err := strconv.Atoi(args[1])
		if err != nil || n < 1 || n > mostPieces {
			return wrong("%q is not a number of pieces; want a whole number from 1 to %d", args[1], mostPieces)
		}
		opt.pieces = n
		s, err := p.settings(cmd.Flags(), opt.demo)
		if err != nil {
			return err
		}
		return p.fits(cmd.Context(), s, opt)
	})
	return cmd
}

// oneQuestion sees that options about an order and options about room are not mixed.
func oneQuestion(flags *pflag.FlagSet, cold bool) error {
	for _, name := range []string{"by", "packed", "from", "accept", "name", "price", "json", "work"} {
		if cold && flags.Changed(name) {
			return wrong("--%s is about an order, and --cold about room; give one of them", name)
		}
	}
	for _, name := range []string{"at", "shelf", "box", "count", "until", "svg"} {
		if !cold && flags.Changed(name) {
			return wrong("--%s belongs to --cold", name)
		}
	}
	return nil
}

// mostPieces is more than anybody orders: a slip of the finger.
const mostPieces = 100_000

// fits is ripeby fits.
func (p *program) fits(ctx context.Context, s *settings, opt fitsOptions) error {
	if opt.accept && opt.demo {
		return wrong("--accept writes into a kitchen folder, and --demo has none")
	}
	problem, err := p.inForce(s, opt.demo, opt.from)
	if err != nil {
		return err
	}
	order, err := orderOf(problem, opt)
	if err != nil {
		return err
	}
	a := fitAnswer{problem: problem, order: order, width: p.look(s).width, work: cmp.Or(s.work, whatif.FitWorkFor(problem)), as: kitchen{folder: s.folder, demo: opt.demo}.as()}
	show := newProgress(p.err, p.now, p.env)
	fit := whatif.Fits(ctx, problem, *order, whatif.FitOptions{Work: s.work, Soon: func(f *whatif.Fit) { show.say(a.soonText(f)) }})
	show.clear()
	if fit.Plan != nil {
		if err := p.vouch(order.With(problem), fit.Plan); err != nil {
			return err
		}
	}
	a.fit, a.moves = fit, movesOf(problem, fit)
	switch fit.Outcome {
	case whatif.FitsNoPlan:
		return p.notInForce(s, opt.demo)
	case whatif.FitsNot, whatif.FitsUnknown:
		p.code = exitShort
	}
	if opt.accept {
		if a.refused = fit.Plan == nil; !a.refused {
			if a.taken, err = takeOrder(s.folder, problem, order, writtenBy(opt.by, order.By, problem.Kitchen.Zone)); err != nil {
				return err
			}
		}
	}
	switch {
	case opt.json:
		return a.json(p.out)
	case opt.csv:
		return a.csv(p.out)
	}
	a.write(p.out)
	return nil
}

// takeOrder writes an order into targets.yaml, and gives the name it has there.
func takeOrder(folder string, problem *schedule.Problem, o *whatif.Order, by string) (string, error) {
	file := filepath.Join(folder, "targets.yaml")
	text, err := config.ReadRegular(file, config.MaxFileBytes)
	if err != nil {
		return "", other("%s cannot be read: %w", file, config.WithoutPath(err))
	}
	added, err := config.AddTarget(text, problem, promised(o, by))
	if err != nil {
		return "", &failure{exitWrong, fmt.Errorf("the order was not written: %w", err)}
	}
	if err := config.WriteTargets(folder, text, added); err != nil {
		return "", other("the order was not written: %w", err)
	}
	return o.Target, nil
}

// leavesBy reads when an order leaves: a moment, or a day, for its noon.
func leavesBy(text string, zone *time.Location) (resources.Moment, error) {
	if day, err := resources.ParseDate(text); err == nil {
		return day.At(12*60, zone), nil
	}
	return resources.ParseMoment(text, zone)
}

// writtenBy is when an order leaves as targets.yaml has it: as it was given, a day with its noon.
func writtenBy(text string, by resources.Moment, zone *time.Location) string {
	if _, err := resources.ParseDate(text); err == nil {
		return resources.FormatMoment(by, zone)
	}
	return text
}

// orderOf reads an order.
func orderOf(problem *schedule.Problem, opt fitsOptions) (*whatif.Order, error) {
	zone := problem.Kitchen.Zone
	if problem.Recipe(opt.cheese) == nil {
		return nil, wrong("there is no cheese %q in recipes; there are %s", opt.cheese, cheeses(problem))
	}
	if opt.by == "" {
		return nil, wrong("say by when they must be ready, such as --by \"2027-03-27 07:00\"")
	}
	by, err := leavesBy(opt.by, zone)
	if err != nil {
		return nil, wrong("--by: %w", err)
	}
	if by < problem.From {
		return nil, wrong("--by is %s, which is before the planning start, %s", moment(by, zone), moment(problem.From, zone))
	}
	o := &whatif.Order{Target: opt.name, Cheese: opt.cheese, Pieces: opt.pieces, By: by, Price: 100}
	if o.Target == "" {
		o.Target = "order " + by.DateIn(zone).String()
	}
	for i := range problem.Targets {
		if problem.Targets[i].Name == o.Target {
			return nil, wrong("there is a target %q already; give the order another --name", o.Target)
		}
	}
	if opt.price != "" {
		if o.Price, err = resources.ParseMoney(opt.price); err != nil {
			return nil, wrong("--price: %w", err)
		}
	}
	if opt.packed != "" {
		if o.Packed, err = resources.ParseMinutes(opt.packed); err != nil {
			return nil, wrong("--packed: %w", err)
		}
	}
	return o, nil
}

// cheeses lists the cheeses that there are recipes for.
func cheeses(problem *schedule.Problem) string {
	var names []string
	for i := range problem.Recipes {
		names = append(names, problem.Recipes[i].Name)
	}
	return schedule.Listed(names)
}

// movesOf are the stages that an answer moves.
func movesOf(problem *schedule.Problem, fit *whatif.Fit) []schedule.Move {
	if fit.Plan == nil {
		return nil
	}
	return schedule.Moves(problem.Earlier, fit.Plan)
}
