package whatif

import (
	"context"
	"time"

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

// longerDays is an hour more of a person's at each end of every day that has hours.
func longerDays(p *schedule.Problem, person int) []Change {
	who := &p.Kitchen.People[person]
	if len(who.Hours) == 0 {
		return nil
	}
	var out []Change
	for _, end := range []string{"earlier", "later"} {
		with := copied(p)
		w := &with.Kitchen.People[person]
		w.Hours = append([]resources.Hours(nil), who.Hours...)
		for day := range 7 {
			only := resources.Weekdays(0).With(time.Weekday(day))
			first, last, some := edges(who.Hours, only)
			switch {
			case !some:
			case end == "earlier" && first >= 60:
				w.Hours = append(w.Hours, resources.Hours{Days: only, From: first - 60, Until: first})
			case end == "later" && last <= 23*60:
				w.Hours = append(w.Hours, resources.Hours{Days: only, From: last, Until: last + 60})
			}
		}
		out = append(out, Change{Kind: ChangeHours, Also: -1, With: with, Text: who.Name + " an hour " + end + " every day"})
	}
	return out
}

// edges are the first and the last moment of somebody's hours on a day of the week.
func edges(list []resources.Hours, day resources.Weekdays) (first, last resources.Clock, some bool) {
	for _, h := range list {
		if h.Days&day == 0 {
			continue
		}
		until := h.Until
		if until <= h.From {
			until = 24 * 60
		}
		if !some || h.From < first {
			first = h.From
		}
		if !some || until > last {
			last = until
		}
		some = true
	}
	return first, last, some
}
