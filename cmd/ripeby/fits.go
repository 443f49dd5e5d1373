package main

import (
	"context"
	"fmt"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// fitsOptions are the options of ripeby fits.
type fitsOptions struct {
	cheese string
	pieces int
	by     string
	packed string
	from   string
	json   bool
	demo   bool
}

func (p *program) fitsCommand() *cobra.Command {
	var opt fitsOptions
	cmd := &cobra.Command{
		Use:   "fits CHEESE PIECES --by MOMENT",
		Short: "Say whether one more order can be met",
		Long: `Asks the plan that "ripeby plan" has kept whether so many pieces more of a cheese
can be ready by a moment. There are three answers:

  they fit, and nothing that is planned moves
  they fit if some tasks move, which are listed; nothing that has begun moves,
    and every other target gets as much as it did
  they do not fit: why not, how many would, and when all of them could be ready

Nothing is written or changed.

Exit codes:
  0  they fit, or would if tasks moved
  1  anything else
  2  the folder, the plan or the command line is wrong
  3  they do not fit, or it could not be told`,
		Example: `  ripeby fits "White heart" 24 --by "2027-03-27 07:00"
  ripeby fits -C my-kitchen "Dew curd" 8 --by 2027-03-27T07:00:00Z --json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 2 {
				return fmt.Errorf("%s takes a cheese and a number of pieces, such as: %s \"White heart\" 24 --by \"2027-03-27 07:00\"", cmd.CommandPath(), cmd.CommandPath())
			}
			return nil
		},
	}
	f := cmd.Flags()
	folderFlags(f)
	f.StringVar(&opt.by, "by", "", "the `MOMENT` at which they leave the kitchen")
	f.StringVar(&opt.packed, "packed", "", "packed so `LONG` before, such as \"10 h\"")
	f.StringVar(&opt.from, "from", "", "plan from this `MOMENT` (default: now, or the plan's own start when that lies ahead)")
	f.BoolVar(&opt.json, "json", false, "print the answer as JSON and nothing else")
	f.Int64("work", 0, fmt.Sprintf("stop asking after `N` units of work (default %d)", planner.FitWork))
	outFlag(f)
	tableFlags(f)
	demo := demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		opt.demo, opt.cheese = *demo, args[0]
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

// mostPieces is more than anybody orders: a slip of the finger.
const mostPieces = 100_000

// fits is ripeby fits.
func (p *program) fits(ctx context.Context, s *settings, opt fitsOptions) error {
	problem, err := p.inForce(s, opt.demo, opt.from)
	if err != nil {
		return err
	}
	order, err := orderOf(problem, opt)
	if err != nil {
		return err
	}
	fit := planner.Fits(ctx, problem, *order, s.work)
	if fit.Plan != nil {
		if faults := p.judge(order.With(problem), fit.Plan); len(faults) > 0 {
			p.reportFault(faults)
			return other("the answer does not hold, so it is not given")
		}
	}
	a := fitAnswer{problem: problem, order: order, fit: fit, moves: movesOf(problem, fit), width: p.look(s).width}
	switch fit.Outcome {
	case planner.FitsNoPlan:
		return wrong("the plan in %s is not what this folder gives any more, so nothing can be said of it; make it again with: ripeby plan%s",
			s.out, kitchen{folder: s.folder, demo: opt.demo}.as())
	case planner.FitsNot, planner.FitsUnknown:
		p.code = exitShort
	}
	if opt.json {
		return a.json(p.out)
	}
	return a.write(p.out)
}

// inForce reads the kitchen with the plan that is in force for it. The planning start
// is now; a plan that begins later is asked about from its own start.
func (p *program) inForce(s *settings, demo bool, from string) (*schedule.Problem, error) {
	k, out := kitchen{folder: s.folder, demo: demo}, output{s.out}
	plan, err := out.earlier()
	if err != nil {
		return nil, err
	}
	if plan == nil {
		return nil, wrong("there is no plan in %s yet; make it with: ripeby plan%s", s.out, k.as())
	}
	if from == "" && plan.From > resources.MomentOf(p.now()) {
		from = plan.From.In(time.UTC).Format(time.RFC3339)
	}
	problem, err := k.load(from, p.now())
	if err != nil {
		return nil, err
	}
	problem.Earlier = plan
	return problem, nil
}

// orderOf reads an order.
func orderOf(problem *schedule.Problem, opt fitsOptions) (*planner.Order, error) {
	zone := problem.Kitchen.Zone
	if problem.Recipe(opt.cheese) == nil {
		return nil, wrong("there is no cheese %q in recipes; there are %s", opt.cheese, cheeses(problem))
	}
	if opt.by == "" {
		return nil, wrong("say by when they must be ready, such as --by \"2027-03-27 07:00\"")
	}
	by, err := resources.ParseMoment(opt.by, zone)
	if err != nil {
		return nil, wrong("--by: %w", err)
	}
	if by < problem.From {
		return nil, wrong("--by is %s, which is before the planning start, %s", moment(by, zone), moment(problem.From, zone))
	}
	o := &planner.Order{Target: orderName, Cheese: opt.cheese, Pieces: opt.pieces, By: by, Price: 100}
	if opt.packed != "" {
		if o.Packed, err = resources.ParseMinutes(opt.packed); err != nil {
			return nil, wrong("--packed: %w", err)
		}
	}
	return o, nil
}

// orderName is what an order is called until it is taken.
const orderName = "this order"

// cheeses lists the cheeses that there are recipes for.
func cheeses(problem *schedule.Problem) string {
	var names []string
	for i := range problem.Recipes {
		names = append(names, problem.Recipes[i].Name)
	}
	return listed(names)
}

// movesOf are the stages that an answer moves.
func movesOf(problem *schedule.Problem, fit *planner.Fit) []schedule.Move {
	if fit.Plan == nil {
		return nil
	}
	return schedule.Moves(problem.Earlier, fit.Plan)
}
