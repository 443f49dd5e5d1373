package cp

import "context"

// Solve finds a good plan, a bound for it, and the reasons of what is short. The same model
// and budget give the same result, unless ctx ends it early; then it gives the best found so
// far.
func Solve(ctx context.Context, m *Model, opt Options) *Result {
	r, s, work := find(ctx, m, opt)
	r.Reasons = explain(ctx, s, work)
	r.Spent, r.Stopped = s.spent, ctx.Err() != nil
	return r
}
