package planner

import (
	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

// beyond is how long after the last date of the folder the plan may still go on,
// for what is under way and late.
const beyond = 60 * resources.Day

// State states a problem to the engine, which looks ahead until a moment at the least;
// the planning start for no further than the problem itself goes.
func State(p *schedule.Problem, ahead resources.Moment) *Stated {
	pl := &Stated{p: p, poolOf: map[string]int{}, kindOf: map[string]int{}}
	pl.clock = clock{resources.FloorTo(p.From, p.Kitchen.Step), p.Kitchen.Step}
	pl.chains = make([]*chain, len(p.Recipes))
	for i := range p.Recipes {
		pl.chains[i] = chainOf(&p.Recipes[i], &p.Kitchen)
	}
	pl.under = pl.carried()
	pl.countLate()
	pl.noteBehind()
	pl.noteIDs()
	pl.noteOrders()
	for _, u := range pl.under {
		bother, late := pl.endedNowOf(u)
		pl.endedNow, pl.lateNow = pl.endedNow+bother, pl.lateNow+late
	}
	pl.within = resources.Span{From: p.From.Add(-resources.Day), Until: max(pl.lastMoment(), ahead)}
	pl.model = &problem.Model{
		Step:     int(p.Kitchen.Step),
		From:     pl.clock.tick(p.From),
		Horizon:  pl.clock.tick(pl.within.Until),
		FitFloor: packing,
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
func (pl *Stated) lastMoment() resources.Moment {
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
