package planner

import (
	"context"

	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// Options steer [Plan].
type Options struct {
	Budget   int64          // counted work of the engine; 0 for [WorkFor]
	Progress func(Progress) // called now and then; nil for never
	Plain    bool           // without reasons: what is short and what is otherwise is not explained
}

// Progress is how far planning has come.
type Progress struct {
	Score, Bound  schedule.Score
	Found         bool           // a plan has been found; Score holds
	Proving       schedule.Level // the part being proved now
	Spent, Budget int64          // counted work
}

// Plan makes the best plan it finds within the budget and says how good it is
// known to be. When ctx ends early it gives the best found so far, with nothing
// claimed as proved. That targets are short is a result, not an error.
func Plan(ctx context.Context, p *schedule.Problem, opt Options) (*schedule.Plan, error) {
	pl := State(p, p.From)
	budget := opt.Budget
	if budget <= 0 {
		budget = WorkFor(p)
	}
	engine := cp.Options{Budget: budget, Plain: opt.Plain}
	if opt.Progress != nil {
		engine.Progress = func(best, bound problem.Cost, spent int64) {
			score, limit := pl.scoreOf(best), pl.scoreOf(bound)
			opt.Progress(Progress{Score: score, Bound: limit, Found: true,
				Proving: proving(schedule.LevelOf(score, limit)), Spent: spent, Budget: budget})
		}
	}
	engine.Budget = max(budget-pl.takeNew(ctx, budget), budget/2, 1) // to state a model may count for more than there is
	result := cp.Solve(ctx, pl.model, engine)
	plan := pl.Decode(result)
	schedule.CountMoves(plan, p.Earlier)
	return plan, nil
}

// proving is the part after the last one proved.
func proving(level schedule.Level) schedule.Level {
	order := schedule.Levels()
	for i := range order[:len(order)-1] {
		if order[i] == level {
			return order[i+1]
		}
	}
	return schedule.LevelAll
}

// A longer season has more to search: beyond fewBatches every batch adds workPerBatch, up to
// manyBatches, which can still be proved the best in every part. A season that is longer yet has
// twice workForMore for each of as many, and workForMore for each further batch, which is what its
// own stretch of time needs to be improved; never less than the shorter one.
const (
	fewBatches   = 10
	workPerBatch = 24_000_000
	manyBatches  = 30
	workForMore  = 6_000_000
)

// WorkFor is the counted work of one [Plan] where the caller sets none: the engine's
// default, and more where the targets want more than ten batches.
func WorkFor(p *schedule.Problem) int64 {
	batches := 0
	for i := range p.Recipes {
		r := &p.Recipes[i]
		sizes := needs.Sizes(r)
		if len(sizes) == 0 {
			continue
		}
		wanted := 0
		for t := range p.Targets {
			for _, w := range p.Targets[t].Wants {
				if w.Cheese == r.Name && w.Price > 0 {
					wanted += w.Pieces
				}
			}
		}
		most := sizes[len(sizes)-1].Pieces - r.Spare
		batches += (wanted + most - 1) / most
	}
	prove := int64(min(batches, manyBatches)-fewBatches) * workPerBatch
	improve := int64(min(batches, manyBatches)-fewBatches+batches-fewBatches) * workForMore
	return max(cp.DefaultBudget, prove, improve)
}
