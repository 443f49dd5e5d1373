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

// dayShare: one part in so many of the work left goes to each day that is looked at.
const dayShare = 4

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
	if p.Earlier == nil || !knownTo(p.Earlier, p, 0) {
		return out
	}
	pl := o.planning(p, o.By)
	q := pl.ask(ctx, len(pl.demands)-1, -1, work, nil)
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
	tables := q.Tables()
	later.Go(func() { out.Ready, out.ReadySure = earliest(ctx, p, o, tables, work/2) })
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

// planning is the model with the order due at a moment. All of them look ahead as far as
// the latest day that is asked about, so that they have in common what is worked out.
func (o Order) planning(p *schedule.Problem, by resources.Moment) *planning {
	latest := dayLater(p, o.By, LaterDays+1)
	o.By = by
	return newPlanningUntil(o.With(p), latest)
}

// ask prepares to ask about a want beside the earlier plan; nil where that plan does not
// stand as it is. See [cp.Inquire] for the want that must be met also, and what is known.
func (pl *planning) ask(ctx context.Context, wanted, also int, work int64, known *cp.Tables) *cp.Inquiry {
	q := cp.Inquire(ctx, pl.model, wanted, also, work, known)
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
	return pl.ask(ctx, 0, -1, FitWork, nil) != nil
}

// earliest finds the first moment by which all of an order can be ready: a day, at the
// asked time of day, on which it fits beside the plan at once, then days before that one
// by one as long as the work lasts, then the moment of the last packing.
func earliest(ctx context.Context, p *schedule.Problem, o Order, known *cp.Tables, work int64) (ready resources.Moment, sure bool) {
	on := func(days int) *planning { return o.planning(p, dayLater(p, o.By, days)) }
	first := 1
	for first < LaterDays {
		pl := on(first)
		if _, ok := cp.Beside(pl.model, len(pl.demands)-1); ok {
			break
		}
		first++
	}
	at := on(first)
	q := at.ask(ctx, len(at.demands)-1, -1, work/dayShare, known)
	if q == nil {
		return 0, false
	}
	if more, _ := q.More(o.Pieces); more < o.Pieces {
		return 0, false
	}
	sure = true
	for days := first - 1; days >= 1 && sure; days-- {
		if work <= 0 {
			sure = false
			break
		}
		pl := on(days)
		sooner := pl.ask(ctx, len(pl.demands)-1, -1, work/dayShare, known)
		if sooner == nil {
			return 0, false
		}
		can, told := sooner.Can(o.Pieces)
		work -= sooner.Spent()
		if can {
			at, q = pl, sooner
		}
		sure = can || told
	}
	tick, told, ok := q.Soonest(o.Pieces, at.clock.tick(o.By.Add(-o.Packed)))
	if !ok {
		return 0, false
	}
	return at.clock.moment(tick), sure && told
}
