package whatif

import (
	"cmp"
	"context"
	"fmt"
	"sync"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/planner"
)

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
	Ready     resources.Moment // the earliest that all of them could be ready on a later day; 0 for not found
	Leaves    resources.Moment // and the first at that time of day at which they could then leave
	ReadySure bool             // and no earlier, to leave at that time of day on any day
}

// FitWork is the counted work that one order may take where the caller sets none, for
// each FitBatches of the plan in force: the longer it is, the more there is to ask about.
const (
	FitWork    = 3_500_000
	FitBatches = 16
)

// FitWorkFor is what that comes to.
func FitWorkFor(p *schedule.Problem) int64 {
	n := 0
	if p.Earlier != nil {
		n = len(p.Earlier.Batches)
	}
	return FitWork * int64(1+n/FitBatches)
}

// FitOptions steer [Fits].
type FitOptions struct {
	Work int64 // counted work; 0 for [FitWorkFor]
	// Soon is told at most once what was found of an order that does not fit at once, while
	// more of it is looked for and proved, and never after the answer; nil for nobody.
	Soon func(*Fit)
}

// Fits asks whether an order can be met beside the plan that the problem carries as its
// earlier one: with nothing moved, with batches moved as far as they have not begun, or
// not, and why. Every other want gets no less than that plan gives it.
func Fits(ctx context.Context, p *schedule.Problem, o Order, opt FitOptions) *Fit {
	work := cmp.Or(max(opt.Work, 0), FitWorkFor(p))
	if p.Earlier == nil || !planner.KnowsAll(p.Earlier, p) {
		return &Fit{Outcome: FitsNoPlan}
	}
	st := o.stated(p, o.By)
	q := ask(ctx, st, last(st), -1, work, nil)
	if q == nil {
		return &Fit{Outcome: FitsNoPlan}
	}
	if fit := q.FitsUnmoved(o.Pieces); fit != nil {
		return &Fit{Outcome: FitsAsItIs, Plan: planFor(st, fit.Result)}
	}
	var later sync.WaitGroup // by statements of its own, so that no answer depends on it
	wanted, callOff := context.WithCancel(ctx)
	e := &earliest{p: p, o: o, known: q.Tables(), work: work / laterShare, soon: make(chan resources.Moment, 1)}
	later.Go(func() { e.find(wanted) })
	defer later.Wait()
	defer callOff()
	fit, known := q.FitsMoved(o.Pieces)
	if fit != nil {
		plan := planFor(st, fit.Result)
		if len(schedule.Moves(p.Earlier, plan)) == 0 { // a batch may have grown
			return &Fit{Outcome: FitsAsItIs, Plan: plan}
		}
		return &Fit{Outcome: FitsIfMoved, Plan: plan}
	}
	out := &Fit{Outcome: FitsUnknown}
	if known {
		out.Outcome = FitsNot
	}
	out.Most, _ = q.More(o.Pieces-1, cp.QuickLook)
	if opt.Soon != nil {
		soon := *out
		later.Go(func() {
			soon.Ready = <-e.soon
			opt.Soon(&soon)
		})
	}
	notFitting(st, q, o.Pieces, known, out)
	later.Wait()
	out.Ready, out.Leaves, out.ReadySure = e.ready, e.leaves(), e.sure && out.Outcome == FitsNot
	return out
}

// notFitting says of an order that no plan was found for how much of it there is one for,
// and what rules out the rest, where that is known. Known tells whether all of it is ruled
// out: then the reason for that comes before the proof that no more than was found fits.
func notFitting(st *planner.Stated, q *cp.Inquiry, pieces int, known bool, out *Fit) {
	refused := pieces
	if !known {
		if _, less := q.Most(pieces - 1); less > 0 {
			refused = less
		}
	}
	reason := q.Why(refused, false)
	if out.Outcome = FitsNot; !known && refused == pieces && reason.Kind == problem.ReasonOpen {
		out.Outcome = FitsUnknown
	}
	most, less := q.Most(pieces - 1)
	if less > 0 && less < refused {
		if closer := q.Why(less, false); closer.Kind != problem.ReasonOpen {
			refused, reason = less, closer
		}
	}
	out.Most, out.MostSure = most, less == most+1 || refused == most+1 && out.Outcome == FitsNot
	if reason.Kind == problem.ReasonOpen {
		return
	}
	plan := &schedule.Plan{Targets: st.WantResults(q.Short())}
	plan.Targets[len(plan.Targets)-1].Met = most
	out.Because = st.Because(refusedText(pieces, most, refused), &reason, plan)
}

// refusedText is what of an order is ruled out, where so many pieces were found to fit and
// so many are known not to.
func refusedText(pieces, most, refused int) string {
	switch {
	case pieces == 1:
		return "It is"
	case refused == 1:
		return "Even one is"
	case refused == most+1:
		return fmt.Sprintf("More than %d are", most)
	case refused == pieces:
		return "So many are"
	}
	return fmt.Sprintf("%d or more are", refused)
}
