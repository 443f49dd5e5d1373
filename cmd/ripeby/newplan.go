package main

import (
	"context"

	"ripeby/calendar/note"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// newPlan makes the plan that is to be put in force in place of the problem's earlier
// one: with the numbers by which a subscriber's calendar knows what has changed, which
// are no affair of planning and which an answer to a question does not need.
func newPlan(ctx context.Context, problem *schedule.Problem, opt planner.Options) (*schedule.Plan, error) {
	plan, err := planner.Plan(ctx, problem, opt)
	if err != nil {
		return nil, err
	}
	note.Revise(plan, problem.Earlier, problem.Kitchen.Zone)
	return plan, nil
}
