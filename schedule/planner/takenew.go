package planner

import (
	"context"

	"ripeby/schedule"
	"ripeby/schedule/cp"
)

// Orders that the earlier plan knew nothing of are first taken into it as "fits" takes them:
// with as little moved as can be, and nothing taken from anybody. Planning begins from there,
// so that what was said to fit is not lost where the work does not last to find it again.

// takenMost is how many new wants are taken in so; further ones are left to the search.
const takenMost = 4

// takeShare: one part in so many of the work goes to each of them.
const takeShare = 8

// takeNew takes wants that the earlier plan knew nothing of into what the engine is told of
// that plan, and gives the counted work. Where the plan does not stand any more it does
// nothing.
func (pl *Stated) takeNew(ctx context.Context, work int64) (spent int64) {
	e := pl.p.Earlier
	if e == nil {
		return 0
	}
	fresh := pl.newWants(e)
	if len(fresh) == len(pl.wants) { // there is nothing to take them into
		return 0
	}
	for _, d := range fresh[:min(len(fresh), takenMost)] {
		if ctx.Err() != nil {
			break
		}
		q := cp.Inquire(ctx, pl.model, d, -1, work/takeShare, nil)
		if q == nil {
			break
		}
		if !q.Stands() {
			spent += q.Spent()
			break
		}
		fit, _ := q.Fits(q.Short()[d])
		spent += q.Spent()
		if fit != nil {
			pl.hintAt(pl.Decode(fit.Result))
		}
	}
	return spent
}

// newWants are the wants that a plan knew nothing of, and that are worth something.
func (pl *Stated) newWants(e *schedule.Plan) []int {
	known := wantsKnownTo(e)
	var out []int
	for d, at := range pl.wants {
		t := &pl.p.Targets[at.Target]
		w := &t.Wants[at.Want]
		if !known[wantAsked{wantKey{t.Name, t.By, at.Want}, w.Cheese, w.Pieces}] && w.Pieces > 0 && w.Price > 0 {
			out = append(out, d)
		}
	}
	return out
}

// KnowsAll reports whether a plan knew of all that a problem wants: else it has promised
// nothing of the rest, and would give it away again.
func KnowsAll(plan *schedule.Plan, p *schedule.Problem) bool {
	known := wantsKnownTo(plan)
	for t := range p.Targets {
		target := &p.Targets[t]
		for i, w := range target.Wants {
			if !known[wantAsked{wantKey{target.Name, target.By, i}, w.Cheese, w.Pieces}] {
				return false
			}
		}
	}
	return true
}

// wantAsked is a want with what it asks for.
type wantAsked struct {
	wantKey
	cheese string
	pieces int
}

// wantsKnownTo are the wants that a plan knew of.
func wantsKnownTo(plan *schedule.Plan) map[wantAsked]bool {
	known := map[wantAsked]bool{}
	for _, w := range plan.Targets {
		known[wantAsked{wantKey{w.Target, w.By, w.Want}, w.Cheese, w.Wanted}] = true
	}
	return known
}
