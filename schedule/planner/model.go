package planner

import (
	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// beyond is how long after the last date of the folder the plan may still go on,
// for what is under way and late.
const beyond = 60 * resources.Day

// State states a problem to the engine, which looks ahead until a moment at the least;
// the planning start for no further than the problem itself goes.
func State(p *schedule.Problem, ahead resources.Moment) *Stated {
	pl := &Stated{p: p, poolOf: map[string]int{}, kindOf: map[string]int{}}
	pl.alike = alike{map[int][]problem.Lag{}, map[runningKey]problem.Lag{}}
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
	pl.addCarries()
	pl.addTold()
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
	one, all := last, last // as late as any of them can go on, and as late as one after another would
	for _, u := range pl.under {
		one, all = max(one, pl.lastOf(u)), pl.after(u, all)
	}
	if len(pl.under) > 0 {
		last = min(one, all).Add(beyond)
	}
	return last.Add(resources.Day)
}

// after is when a batch under way would be gone that began its holds at a moment.
func (pl *Stated) after(u *underWay, at resources.Moment) resources.Moment {
	if k := len(u.starts); k > 0 {
		at = max(at, u.starts[k-1])
	}
	for i := range u.recipe.Stages {
		if h := u.recipe.Stages[i].Hold; h != nil {
			at = at.Add(max(h.Most, u.chain.holds[i].Most))
		}
	}
	return at.Add(u.recipe.Keeps)
}

// lastOf is when a batch under way is gone at the latest, however late it runs: its next stage begins
// within the patience, or when the hold that runs is over.
func (pl *Stated) lastOf(u *underWay) resources.Moment {
	at, n := pl.p.From.Add(needs.Patience), len(u.starts)
	for i := range u.recipe.Stages {
		work := needs.Work(&u.recipe.Stages[i], u.size(), pl.clock.step)
		switch most := u.chain.holds[i].Most; {
		case i < n-1:
		case i == n-1:
			at = max(at, u.starts[i].Add(pl.workUnderWay(u, i)+most))
		default:
			at = at.Add(work + most)
		}
	}
	return at.Add(u.recipe.Keeps)
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
