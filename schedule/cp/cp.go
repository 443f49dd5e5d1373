package cp

import (
	"context"

	"ripeby/schedule/cp/explain"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/usage"
)

// Options steer a [Solve].
type Options = search.Options

// DefaultBudget is the counted work of one [Solve] where the caller sets none.
const DefaultBudget = search.DefaultBudget

// Inquiry is questions about a plan in force.
type Inquiry = explain.Inquiry

// Tables is what may be lent from one inquiry to the next.
type Tables = explain.Tables

// QuickLook and LongLook are the parts of the work left that one look of [Inquiry.More] may take.
const (
	QuickLook = explain.QuickLook
	LongLook  = explain.LongLook
)

// Now is what stands in the spaces at the planning start; see [usage.Now].
type Now = usage.Now

// Boxes are boxes that stand somewhere for a time.
type Boxes = usage.Boxes

// StandNow is what of a model stands now.
func StandNow(m *problem.Model) *Now { return usage.StandNow(m) }

// Solve finds a good plan, a bound for it, and the reasons of what is short. The same model
// and budget give the same result, unless ctx ends it early; then it gives the best found so
// far.
func Solve(ctx context.Context, m *problem.Model, opt Options) *problem.Result {
	r, s, work := search.Find(ctx, m, opt)
	if opt.Plain {
		return r
	}
	for until := s.Spent + work; ; {
		reasons, better := explain.Reasons(ctx, s, r.Bound, until-s.Spent)
		if r.Reasons = reasons; better == nil {
			break
		}
		s, r = better, better.Result(better.BoundAfter(r.Cost, r.Bound))
	}
	r.Changed = explain.Changed(ctx, s, explain.WorkOfChanges(s.Spent))
	r.Spent, r.Stopped = s.Spent, ctx.Err() != nil
	return r
}

// Inquire prepares questions about one demand of a plan in force; see [explain.Inquire].
func Inquire(ctx context.Context, m *problem.Model, demand, also int, budget int64, known *Tables) *Inquiry {
	return explain.Inquire(ctx, m, demand, also, budget, known)
}

// Beside reports whether a demand's units fit beside a plan in force at once; see [explain.Beside].
func Beside(m *problem.Model, demand int) bool { return explain.Beside(m, demand) }
