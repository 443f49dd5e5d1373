package whatif

import (
	"context"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// Worth is what one change would buy over the whole plan.
type Worth struct {
	Change
	Pieces      int             // fewer pieces short in the plan that was found
	Money       resources.Money // what they are worth
	Least, Most resources.Money // of the best plans, as far as is proved; equal: exact
}

// WorthWork is the counted work of each plan where the caller sets none.
const WorthWork = 60_000_000

// WhatMoreBuys plans the kitchen again with one more of each thing, and an hour more of
// each person's on every day, and compares the value short with that of the plan in force,
// the problem's earlier one. Kitchens that want for nothing have nothing to gain, and no plan
// is made.
//
// Planned is called after each plan, perhaps by several at once; nil for nobody.
func WhatMoreBuys(ctx context.Context, p *schedule.Problem, work int64, planned func(of int)) []Worth {
	if work <= 0 {
		work = WorthWork
	}
	if p.Earlier == nil || value(p.Earlier.Score) == 0 {
		return nil
	}
	list := OneMore(p)
	for i := range p.Kitchen.People {
		list = append(list, longerDays(p, i)...)
	}
	out := make([]Worth, len(list))
	sideBySide(len(list), func(i int) {
		out[i] = worthOf(ctx, &list[i], p.Earlier, work)
		if planned != nil {
			planned(len(list))
		}
	})
	return out
}

// worthOf plans with a change and compares.
func worthOf(ctx context.Context, c *Change, before *schedule.Plan, work int64) Worth {
	w := Worth{Change: *c}
	plan, err := planner.Plan(ctx, c.With, planner.Options{Budget: work})
	if err != nil {
		w.Most = value(before.Score)
		return w
	}
	w.Pieces = piecesShort(before) - piecesShort(plan)
	w.Money = value(before.Score) - value(plan.Score)
	lowest := func(q *schedule.Plan) resources.Money {
		if q.Proof.Bound.PromisedShort == q.Score.PromisedShort {
			return value(q.Proof.Bound)
		}
		return q.Proof.Bound.PromisedShort
	}
	w.Least = max(lowest(before)-value(plan.Score), 0)
	w.Most = max(value(before.Score)-lowest(plan), w.Least)
	return w
}

// value is what is short, promised or not.
func value(s schedule.Score) resources.Money { return s.PromisedShort + s.Short }

func piecesShort(p *schedule.Plan) int {
	n := 0
	for i := range p.Targets {
		n += p.Targets[i].Short
	}
	return n
}
