package whatif

import (
	"context"

	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/planner"
)

// ask prepares to ask about a want beside the earlier plan; nil where that plan does not
// stand as it is. See [cp.Inquire] for the want that must be met also, and what is known.
func ask(ctx context.Context, st *planner.Stated, wanted, also int, work int64, known *cp.Tables) *cp.Inquiry {
	q := cp.Inquire(ctx, st.Model(), wanted, also, work, known)
	if q == nil || !q.Stands() {
		return nil
	}
	return q
}

// planFor is the plan that answers a question, its moves counted from the earlier one.
func planFor(st *planner.Stated, r *problem.Result) *schedule.Plan {
	p, plan := st.Problem(), st.Decode(r)
	for i := range plan.Targets {
		if w := &plan.Targets[i]; w.Short > 0 {
			w.Because = asBefore(p.Earlier, w)
		}
	}
	schedule.CountMoves(plan, p.Earlier)
	return plan
}

// asBefore is why a want that is short was short in the earlier plan.
func asBefore(earlier *schedule.Plan, w *schedule.WantResult) string {
	for i := range earlier.Targets {
		o := &earlier.Targets[i]
		if o.Target == w.Target && o.By == w.By && o.Want == w.Want && o.Because != "" {
			return o.Because
		}
	}
	return "It is what the others leave."
}

// InForce reports whether the plan that a problem carries as its earlier one is still what
// the problem gives: it knows of all that is wanted, and keeps all rules.
func InForce(ctx context.Context, p *schedule.Problem) bool {
	if p.Earlier == nil || !planner.KnowsAll(p.Earlier, p) {
		return false
	}
	st := planner.State(p, p.From)
	if len(st.Wants()) == 0 {
		return true
	}
	return ask(ctx, st, 0, -1, FitWork, nil) != nil
}
