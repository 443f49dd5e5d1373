package main

import (
	"context"
	"os"
	"runtime/debug"

	"ripeby/calendar/note"
	"ripeby/schedule"
	"ripeby/schedule/dose"
	"ripeby/schedule/measured"
	"ripeby/schedule/planner"
	"ripeby/schedule/planner/whatif"
)

// A plan that takes more than longWork of counted work is made with less garbage beside what is in use,
// in per cent of it: a year in 130 MiB instead of 160, which takes a thirtieth longer. GOGC says
// otherwise.
const (
	longWork = 300_000_000
	garbage  = 60
)

// newPlan makes the plan that is to be put in force in place of the problem's earlier
// one: with the numbers by which a subscriber's calendar knows what has changed, which
// are no affair of planning and which an answer to a question does not need, with what goes into the
// cheese and is to be written down, and with what made work move, where it stands.
func newPlan(ctx context.Context, where *position, opt planner.Options) (*schedule.Plan, error) {
	problem := where.Problem
	if opt.Budget > longWork && os.Getenv("GOGC") == "" {
		defer debug.SetGCPercent(debug.SetGCPercent(garbage))
	}
	plan, err := planner.Plan(ctx, problem, opt)
	if err != nil {
		return nil, err
	}
	if len(plan.Changes) > 0 {
		list, more := where.causes()
		whatif.NameCauses(ctx, problem, plan, list, more, opt.Budget)
	}
	dose.Fill(problem, plan)
	measured.Fill(problem, plan)
	note.Revise(problem, plan, problem.Earlier)
	return plan, nil
}
