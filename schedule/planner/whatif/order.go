package whatif

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// Order is more that somebody asks for.
type Order struct {
	Target string // what it is called in the plan
	Cheese string
	Pieces int
	By     resources.Moment
	Packed resources.Minutes // ready so long before By
	Price  resources.Money
}

// With is a problem with the order among its targets, promised.
func (o *Order) With(p *schedule.Problem) *schedule.Problem {
	out := *p
	out.Targets = append(append([]schedule.Target(nil), p.Targets...), schedule.Target{Name: o.Target, By: o.By, Packed: o.Packed,
		Wants: []schedule.Want{{Cheese: o.Cheese, Pieces: o.Pieces, Price: o.Price, Promised: true}}})
	return &out
}

// stated is the problem with the order, due at a moment, stated to the engine. All of them
// look ahead as far as the latest day that is asked about, so that they have in common what
// is worked out.
func (o Order) stated(p *schedule.Problem, by resources.Moment) *planner.Stated {
	latest := dayLater(p, o.By, LaterDays+1)
	o.By = by
	return planner.State(o.With(p), latest)
}

// last is the last want, which is the order's.
func last(st *planner.Stated) int { return len(st.Wants()) - 1 }
