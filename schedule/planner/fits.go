package planner

import (
	"context"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
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

// FitOutcome is what becomes of an order beside the plan in force.
type FitOutcome int

// The answers, the most welcome first.
const (
	FitsAsItIs  FitOutcome = iota // with nothing moved
	FitsIfMoved                   // with some tasks moved, none of them begun
	FitsNot                       // proved
	FitsUnknown                   // not found, and not proved impossible, in the work allowed
	FitsNoPlan                    // there is no plan in force, or the folder is no longer what it was made from
)

// Fit is the answer to an order. Plan holds it where it fits, and is nil elsewhere.
type Fit struct {
	Outcome  FitOutcome
	Plan     *schedule.Plan
	Because  string // why not; "" where it fits
	Most     int    // pieces that could be ready by then; where it does not fit
	MostSure bool   // no more could be
}

// fitWork is the counted work that one order may take by default.
const fitWork = 20_000_000

// Fits asks whether an order can be met beside the plan that the problem carries as its
// earlier one: with nothing moved, with tasks moved that have not begun, or not, and why.
// Every other want gets no less than that plan gives it.
func Fits(ctx context.Context, p *schedule.Problem, o Order, work int64) (*Fit, error) {
	if work <= 0 {
		work = fitWork
	}
	if p.Earlier == nil {
		return &Fit{Outcome: FitsNoPlan}, nil
	}
	asked := *p
	asked.Targets = append(append([]schedule.Target(nil), p.Targets...), schedule.Target{Name: o.Target, By: o.By, Packed: o.Packed,
		Wants: []schedule.Want{{Cheese: o.Cheese, Pieces: o.Pieces, Price: o.Price, Promised: true}}})
	pl := newPlanning(&asked)
	demand := len(pl.demands) - 1
	q := cp.Inquire(pl.model, demand, work, func() bool { return ctx.Err() != nil })
	if q == nil || !q.Stands() {
		return &Fit{Outcome: FitsNoPlan}, nil
	}
	fit, known := q.Fits(o.Pieces)
	if fit != nil {
		out := &Fit{Outcome: FitsAsItIs, Plan: pl.decode(fit.Result)}
		if fit.Moved > 0 {
			out.Outcome = FitsIfMoved
		}
		schedule.Revise(out.Plan, p.Earlier, p.Kitchen.Zone)
		return out, nil
	}
	out := &Fit{Outcome: FitsUnknown}
	if known {
		out.Outcome = FitsNot
	}
	out.Most, out.MostSure = q.Most(o.Pieces - 1)
	return out, nil
}
