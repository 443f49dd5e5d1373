package main

import (
	"context"
	"math/rand/v2"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/planner"
)

// tellEarlier has every second drawn kitchen planned, and then a want, an hour or a batch of it be otherwise:
// its plan is what was told. It has dice of its own, so that the other kitchens stay as they are.
func tellEarlier(ctx context.Context, p *schedule.Problem, seed uint64, n int) (told bool, err error) {
	r := rand.New(rand.NewPCG(seed, uint64(n)^1<<43))
	if r.IntN(2) == 0 {
		return false, nil
	}
	if p.Earlier, err = planner.Plan(ctx, p, planner.Options{}); err != nil {
		return false, err
	}
	p.Kitchen.Settled = resources.Hour * resources.Minutes([]int{0, 6, 12, 24, 24, 48, 48, 96}[r.IntN(8)])
	for i := range p.Targets {
		p.Targets[i].Wants = slices.Clone(p.Targets[i].Wants)
	}
	t := &p.Targets[r.IntN(len(p.Targets))]
	w := &t.Wants[r.IntN(len(t.Wants))]
	switch r.IntN(5) {
	case 0:
		w.Pieces += 1 + r.IntN(2)
	case 1:
		w.Pieces = max(1, w.Pieces-1-r.IntN(2))
	case 2:
		t.By = t.By.Add(p.Kitchen.Step * resources.Minutes(r.IntN(9)-4))
	case 3:
		x := &p.Kitchen.People[r.IntN(len(p.Kitchen.People))]
		from := p.From.Add(resources.Hour * resources.Minutes(r.IntN(40)))
		x.Away = append(slices.Clone(x.Away), resources.Span{From: from, Until: from.Add(resources.Hour * resources.Minutes(2+r.IntN(8)))})
	case 4:
		if b := p.Earlier.Batches; len(b) > 0 && !b[len(b)-1].Begun {
			p.Lost = []string{b[len(b)-1].ID}
		}
	}
	takeOn(p, seed, n)
	return true, nil
}

// takeOn has somebody take work of every third earlier plan that has not begun, with dice of its own.
func takeOn(p *schedule.Problem, seed uint64, n int) {
	r := rand.New(rand.NewPCG(seed, uint64(n)^1<<44))
	if r.IntN(3) > 0 || len(p.Earlier.Batches) == 0 {
		return
	}
	b := &p.Earlier.Batches[r.IntN(len(p.Earlier.Batches))]
	t := &b.Stages[r.IntN(len(b.Stages))]
	recipe := p.Recipe(b.Cheese)
	if t.Begun || t.Work == 0 || b.Stages[0].Start < p.From || recipe == nil {
		return
	}
	may := needs.Who(&recipe.Stages[recipe.StageNumber(t.Stage)], &p.Kitchen)
	p.TakenOn = []schedule.TakenOn{{Batch: b.ID, Stage: t.Stage, Who: p.Kitchen.People[may[r.IntN(len(may))]].Name}}
}
