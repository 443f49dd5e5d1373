package main

import (
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// keptPlan is the plan that "ripeby plan" has kept for a kitchen.
func (p *program) keptPlan(s *settings, k kitchen) (*schedule.Plan, error) {
	plan, err := output{s.out}.earlier()
	if err == nil && plan == nil {
		err = wrong("there is no plan in %s yet; make it with: ripeby plan%s", s.out, k.as())
	}
	return plan, err
}

// asPlanned reads the kitchen and its kept plan, as of the plan's own start, so that the
// same targets lie ahead.
func (p *program) asPlanned(s *settings, demo bool) (*schedule.Problem, *schedule.Plan, error) {
	k := kitchen{folder: s.folder, demo: demo}
	plan, err := p.keptPlan(s, k)
	if err != nil {
		return nil, nil, err
	}
	problem, err := k.showing(plan, p.now())
	return problem, plan, err
}

// inForce reads the kitchen with the plan that is in force for it. The planning start
// is now; a plan that begins later is asked about from its own start.
func (p *program) inForce(s *settings, demo bool, from string) (*schedule.Problem, error) {
	k := kitchen{folder: s.folder, demo: demo}
	plan, err := p.keptPlan(s, k)
	if err != nil {
		return nil, err
	}
	if from == "" {
		from = p.startWith(plan)
	}
	problem, err := k.load(from, p.now())
	if err != nil {
		return nil, err
	}
	where, err := k.stands(problem, plan)
	if err != nil {
		return nil, err
	}
	return where.Problem, nil
}

// vouch has the judge hear the plan that an answer rests on.
func (p *program) vouch(problem *schedule.Problem, plan *schedule.Plan) error {
	faults := p.judge(problem, plan)
	if len(faults) == 0 {
		return nil
	}
	p.reportFault(faults)
	return other("the answer does not hold, so it is not given")
}

// startWith is the planning start beside a plan, nil for none: "" for now, or the plan's own where
// it begins later, since its targets lie ahead of that.
func (p *program) startWith(plan *schedule.Plan) string {
	if plan == nil || plan.From <= resources.MomentOf(p.now()) {
		return ""
	}
	return startOf(plan)
}

// startOf is a plan's start, as the folder's reader takes it.
func startOf(plan *schedule.Plan) string { return plan.From.In(time.UTC).Format(time.RFC3339) }

// notInForce says that the kept plan is not what the folder gives.
func (p *program) notInForce(s *settings, demo bool) error {
	return wrong("the plan in %s is not what this folder gives any more, so nothing can be said of it; make it again with: ripeby plan%s",
		s.out, kitchen{folder: s.folder, demo: demo}.as())
}
