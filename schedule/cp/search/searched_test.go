package search

import (
	"context"

	"ripeby/schedule/cp/problem"
)

// searched is what the search finds, without reasons.
func searched(ctx context.Context, m *problem.Model, opt Options) *problem.Result {
	r, _, _ := Find(ctx, m, opt)
	return r
}
