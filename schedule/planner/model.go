package planner

import (
	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

// clock turns moments into the engine's ticks: minutes from a grid moment.
type clock struct {
	origin resources.Moment
	step   resources.Minutes
}

func (c clock) tick(m resources.Moment) int   { return int(m - c.origin) }
func (c clock) moment(t int) resources.Moment { return c.origin + resources.Moment(t) }

// planning is one call of [Plan]: the problem, the model made of it, and which
// number of the one means which thing of the other.
type planning struct {
	p       *schedule.Problem
	clock   clock
	within  resources.Span // all that the plan can touch
	model   *problem.Model
	under   []*underWay
	poolOf  map[string]int // pot, station, mould and box names
	kindOf  map[string]int // box names
	chains  []*chain       // of each recipe
	modes   [][]size       // of each recipe: what each engine mode means
	demands []want
	intakes []collected
	stocks  []int // engine stock -> entry of Problem.Stock
	warn    []schedule.Warning

	endedNow int64 // bother of begun holds that ended at the planning start itself
}

// want names one want of one target.
type want struct{ target, want int }

// beyond is how long after the last date of the folder the plan may still go on,
// for what is under way and late.
const beyond = 60 * resources.Day

func newPlanning(p *schedule.Problem) *planning { return newPlanningUntil(p, p.From) }

// newPlanningUntil is a planning that looks ahead until a moment at the least.
func newPlanningUntil(p *schedule.Problem, ahead resources.Moment) *planning {
	pl := &planning{p: p, poolOf: map[string]int{}, kindOf: map[string]int{}}
	pl.clock = clock{resources.FloorTo(p.From, p.Kitchen.Step), p.Kitchen.Step}
	pl.chains = make([]*chain, len(p.Recipes))
	for i := range p.Recipes {
		pl.chains[i] = chainOf(&p.Recipes[i], &p.Kitchen)
	}
	pl.under = pl.carried()
	pl.noteBehind()
	pl.noteIDs()
	pl.noteOrders()
	for _, u := range pl.under {
		pl.endedNow += pl.botherEndedNow(u)
	}
	pl.within = resources.Span{From: p.From.Add(-resources.Day), Until: max(pl.lastMoment(), ahead)}
	pl.model = &problem.Model{
		Step:    int(p.Kitchen.Step),
		From:    pl.clock.tick(p.From),
		Horizon: pl.clock.tick(pl.within.Until),
		Packing: packing,
	}
	pl.addPeople()
	pl.addKit()
	pl.addCold()
	pl.addRecipes()
	pl.addMilk()
	pl.addTargets()
	pl.addStock()
	pl.addUnderWay()
	pl.addHints()
	return pl
}

// lastMoment is past everything that a plan of the problem can hold.
func (pl *planning) lastMoment() resources.Moment {
	last := pl.p.From
	for i := range pl.p.Targets {
		last = max(last, pl.p.Targets[i].By)
	}
	for i := range pl.p.Stock {
		if r := pl.p.Recipe(pl.p.Stock[i].Cheese); r != nil {
			last = max(last, pl.p.Stock[i].Packed.Add(r.Keeps))
		}
	}
	for _, u := range pl.under {
		end := last
		if k := len(u.starts); k > 0 {
			end = max(end, u.starts[k-1])
		}
		for i := range u.recipe.Stages {
			if h := u.recipe.Stages[i].Hold; h != nil {
				end = end.Add(h.Most)
			}
		}
		last = max(last, end.Add(u.recipe.Keeps))
	}
	if len(pl.under) > 0 {
		last = last.Add(beyond)
	}
	return last.Add(resources.Day)
}

// packing asks the shelf geometry.
func packing(floor problem.Rect, fixed []problem.Placed, boxes []problem.Rect) ([]problem.Placed, bool) {
	stand := make([]shelf.Placed, len(fixed))
	for i, f := range fixed {
		stand[i] = shelf.Placed{X: f.X, Y: f.Y, W: f.W, D: f.D}
	}
	put := make([]shelf.Rect, len(boxes))
	for i, b := range boxes {
		put[i] = shelf.Rect{W: b.W, D: b.D}
	}
	places, answer, _ := shelf.Fit(shelf.Rect{W: floor.W, D: floor.D}, stand, put, shelf.DefaultBudget)
	if answer != shelf.Yes {
		return nil, false
	}
	out := make([]problem.Placed, len(places))
	for i, f := range places {
		out[i] = problem.Placed{X: f.X, Y: f.Y, W: f.W, D: f.D}
	}
	return out, true
}
