package cp

import "context"

// searched is what the search finds, without reasons.
func searched(ctx context.Context, m *Model, opt Options) *Result {
	r, _, _ := find(ctx, m, opt)
	return r
}
