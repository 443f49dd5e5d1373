package planner

import (
	"context"
	"sync"

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

// With is a problem with the order among its targets, promised.
func (o *Order) With(p *schedule.Problem) *schedule.Problem {
	out := *p
	out.Targets = append(append([]schedule.Target(nil), p.Targets...), schedule.Target{Name: o.Target, By: o.By, Packed: o.Packed,
		Wants: []schedule.Want{{Cheese: o.Cheese, Pieces: o.Pieces, Price: o.Price, Promised: true}}})
	return &out
}

// FitOutcome is what becomes of an order beside the plan in force.
type FitOutcome int

// The answers, the most welcome first.
const (
	FitsAsItIs  FitOutcome = iota // with nothing moved
	FitsIfMoved                   // with some batches moved, in nothing that has begun
	FitsNot                       // proved
	FitsUnknown                   // not found, and not proved impossible, in the work allowed
	FitsNoPlan                    // there is no plan in force, or the folder is no longer what it was made from
)

// Fit is the answer to an order.
type Fit struct {
	Outcome   FitOutcome
	Plan      *schedule.Plan   // with the order; nil where it does not fit
	Because   string           // why not; "" where it fits
	Most      int              // pieces that could be ready by then all the same
	MostSure  bool             // and no more
	Ready     resources.Moment // the earliest that all of them could be ready; 0 for not found
	ReadySure bool             // and no earlier
}

// FitWork is the counted work that one order may take where the caller sets none.
const FitWork = 30_000_000

// earliestShare: one part in so many of an order's work goes to each day that is looked at.
const earliestShare = 8

// LaterDays is how far after the asked moment an earliest one is looked for.
const LaterDays = 28

// Fits asks whether an order can be met beside the plan that the problem carries as its
// earlier one: with nothing moved, with batches moved as far as they have not begun, or
// not, and why. Every other want gets no less than that plan gives it.
func Fits(ctx context.Context, p *schedule.Problem, o Order, work int64) *Fit {
	if work <= 0 {
		work = FitWork
	}
	out := &Fit{Outcome: FitsNoPlan}
	pl, q := inquire(ctx, o.With(p), work)
	if q == nil {
		return out
	}
	fit, known := q.Fits(o.Pieces)
	if fit != nil {
		out.Outcome = FitsAsItIs
		if fit.Moved > 0 {
			out.Outcome = FitsIfMoved
		}
		out.Plan = pl.decodeFor(fit.Result)
		return out
	}
	out.Outcome = FitsUnknown
	if known {
		out.Outcome = FitsNot
	}
	var later sync.WaitGroup // by statements of its own, so the answers do not depend on it
	later.Go(func() { out.Ready, out.ReadySure = earliest(ctx, p, o, work) })
	defer later.Wait()
	most, sure := q.Most(o.Pieces - 1)
	if sure && most < o.Pieces-1 {
		out.Outcome = FitsNot
	}
	out.Most, out.MostSure = most, sure && out.Outcome == FitsNot
	if out.Outcome == FitsNot {
		reason := q.Why(most + 1)
		plan := &schedule.Plan{Targets: pl.wantResults(&cp.Result{Short: q.Short()})}
		plan.Targets[len(plan.Targets)-1].Met = most
		if reason.Kind != cp.ReasonOpen {
			out.Because = pl.because(&reason, plan)
		}
	}
	return out
}

// inquire prepares to ask about a problem's last want beside its earlier plan; nil where
// that plan is not in force.
func inquire(ctx context.Context, p *schedule.Problem, work int64) (*planning, *cp.Inquiry) {
	if p.Earlier == nil || !knownTo(p.Earlier, p, 1) {
		return nil, nil
	}
	pl := newPlanning(p)
	return pl, pl.ask(ctx, len(pl.demands)-1, -1, work)
}

// ask prepares to ask about a want beside the earlier plan; nil where that plan does not
// stand as it is. See [cp.Inquire] for the want that must be met also.
func (pl *planning) ask(ctx context.Context, wanted, also int, work int64) *cp.Inquiry {
	q := cp.Inquire(ctx, pl.model, wanted, also, work)
	if q == nil || !q.Stands() {
		return nil
	}
	return q
}

// knownTo reports whether a plan knew of all that a problem wants, but for its last few
// targets: else it has promised nothing of the rest, and would give it away again.
func knownTo(plan *schedule.Plan, p *schedule.Problem, but int) bool {
	type key struct {
		target string
		by     resources.Moment
		want   int
		cheese string
		pieces int
	}
	known := map[key]bool{}
	for _, w := range plan.Targets {
		known[key{w.Target, w.By, w.Want, w.Cheese, w.Wanted}] = true
	}
	for t := range p.Targets[:len(p.Targets)-but] {
		target := &p.Targets[t]
		for i, w := range target.Wants {
			if !known[key{target.Name, target.By, i, w.Cheese, w.Pieces}] {
				return false
			}
		}
	}
	return true
}

// InForce reports whether the plan that a problem carries as its earlier one is still what
// the problem gives: it knows of all that is wanted, and keeps all rules.
func InForce(ctx context.Context, p *schedule.Problem) bool {
	if p.Earlier == nil || !knownTo(p.Earlier, p, 0) {
		return false
	}
	pl := newPlanning(p)
	if len(pl.demands) == 0 {
		return true
	}
	return pl.ask(ctx, 0, -1, FitWork) != nil
}

// earliest finds the first moment by which all of an order can be ready: the first day,
// by halves, on which it fits at the asked time of day, then the moment of the last
// packing.
func earliest(ctx context.Context, p *schedule.Problem, o Order, work int64) (ready resources.Moment, sure bool) {
	zone := p.Kitchen.Zone
	asked := o.By.In(zone)
	clock := resources.Clock(asked.Hour()*60 + asked.Minute())
	on := func(days int) (*planning, *cp.Inquiry) {
		later := o
		later.By = o.By.DateIn(zone).AddDays(days).At(clock, zone)
		return inquire(ctx, later.With(p), work/earliestShare)
	}
	lo, hi, sure := 0, 1, true // it does not fit after lo days
	var pl *planning
	var q *cp.Inquiry
	for {
		if pl, q = on(hi); q == nil {
			return 0, false
		}
		can, known := q.Can(o.Pieces)
		if can {
			break
		}
		if sure = sure && known; hi >= LaterDays {
			return 0, sure
		}
		lo, hi = hi, min(2*hi, LaterDays)
	}
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		pm, qm := on(mid)
		if qm == nil {
			return 0, false
		}
		can, known := qm.Can(o.Pieces)
		if can {
			hi, pl, q = mid, pm, qm
			continue
		}
		lo, sure = mid, sure && known
	}
	tick, known, ok := q.Soonest(o.Pieces, pl.clock.tick(o.By.Add(-o.Packed)))
	if !ok {
		return 0, false
	}
	return pl.clock.moment(tick), sure && known
}
