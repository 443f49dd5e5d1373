package cp

import (
	"context"

	"ripeby/schedule/cp/explain"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
)

// Options steer a [Solve].
type Options = search.Options

// DefaultBudget is the counted work of one [Solve] where the caller sets none.
const DefaultBudget = search.DefaultBudget

// Solve finds a good plan, a bound for it, and the reasons of what is short. The same model
// and budget give the same result, unless ctx ends it early; then it gives the best found so
// far.
func Solve(ctx context.Context, m *problem.Model, opt search.Options) *problem.Result {
	r, s, work := search.Find(ctx, m, opt)
	r.Reasons = explain.Reasons(ctx, s, work)
	r.Spent, r.Stopped = s.Spent, ctx.Err() != nil
	return r
}
