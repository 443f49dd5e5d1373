package planner

import (
	"context"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
)

// Slipped is a plan with one stage of one batch moved as far as it may slip.
type Slipped struct {
	Batch, Stage int
	Until        bool // to the latest start, else to the earliest
	Plan         *schedule.Plan
}

// PlanWithSlips makes a plan, and for each stage that may slip the plan in which that
// batch is placed again with the stage moved so far; their scores are left to the judge.
func PlanWithSlips(p *schedule.Problem, budget int64) (*schedule.Plan, []Slipped) {
	pl := State(p, p.From)
	result := cp.Solve(context.Background(), pl.model, cp.Options{Budget: budget})
	plan := pl.Decode(result)
	schedule.CountMoves(plan, p.Earlier)
	var out []Slipped
	for i := range result.Jobs {
		c := pl.chainOf(&result.Jobs[i])
		for a, both := range result.Jobs[i].Shown {
			for until, j := range both {
				if j == nil {
					continue
				}
				moved := *result
				moved.Jobs = slices.Clone(result.Jobs)
				moved.Jobs[i] = *j
				moved.Jobs[i].Soonest, moved.Jobs[i].Slips = j.Starts, j.Starts
				again := State(p, p.From)
				slipped := again.Decode(&moved)
				schedule.CountMoves(slipped, p.Earlier)
				out = append(out, Slipped{i, c.acts[a].first, until == 1, slipped})
			}
		}
	}
	return plan, out
}

// At is the moment to which the stage slipped.
func (s *Slipped) At() resources.Moment { return s.Plan.Batches[s.Batch].Stages[s.Stage].Start }

// PlanWithSlipsCut makes a plan as if the work allowed for slips had been too little.
func PlanWithSlipsCut(p *schedule.Problem, budget int64) *schedule.Plan {
	pl := State(p, p.From)
	result := cp.Solve(context.Background(), pl.model, cp.Options{Budget: budget})
	for i := range result.Jobs {
		j := &result.Jobs[i]
		j.Soonest, j.Slips, j.SlipsCut = j.Starts, j.Starts, true
	}
	plan := pl.Decode(result)
	schedule.CountMoves(plan, p.Earlier)
	return plan
}
