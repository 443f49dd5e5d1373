package explain

import (
	"context"
	"slices"

	"ripeby/schedule/cp/bound"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
)

// Reasons looks for the reason of every demand that is short, one set of facts each, within so
// much counted work over all of them. Where the plan's bound rules out one unit more, only the
// facts are looked for, and where none are found the reason is the proof. Better is a plan that gives a demand more, found by the way; then there are no
// reasons, since they would be of the worse plan. It is nil for none.
func Reasons(ctx context.Context, s *search.Plan, bound problem.Cost, work int64) (out []problem.Reason, better *search.Plan) {
	until, cost := s.Spent+work, s.Cost()
	var todo []int
	for d, n := range s.Unmet {
		if n > 0 {
			r := plainReason(ctx, s, d, until)
			if r.Kind == problem.ReasonOpen {
				todo = append(todo, len(out))
				switch dm := &s.Model.Demands[d]; {
				case provedMost(cost, bound, dm):
					r.Kind = problem.ReasonProved
				case dm.Value <= 0:
					r.Kind = problem.ReasonUnpriced
				}
			}
			out = append(out, r)
		}
	}
	var r *reasons
	for i, x := range todo {
		share := until - s.Spent
		if i+1 < len(todo) {
			share /= 2 // what the first have stated and learned, the others need not
		}
		if share <= 0 || ctx.Err() != nil {
			break
		}
		why := &out[x]
		if like := slices.IndexFunc(out[:x], func(o problem.Reason) bool {
			return o.Kind == problem.ReasonFacts && likeWants(s.Model, o.Demand, why.Demand)
		}); like >= 0 {
			*why = reasonOfLike(&out[like], why.Demand)
			continue
		}
		if r == nil || !r.covers(why.Demand) {
			if r = newReasons(ctx, s, why.Demand, false, nil); r == nil {
				if s.IsWhole() {
					break // it would be the same statement again
				}
				continue
			}
		}
		r.until = s.Spent + share
		if better = r.look(why); better != nil && better.Cost().Less(cost) {
			better.Spent = s.Spent
			better.Settle(ctx, (until-s.Spent)/settledShare)
			return nil, better
		}
	}
	return out, nil
}

// settledShare: one part in so many of the work left goes into settling a better plan.
const settledShare = 4

// look finds facts that forbid one unit more of a demand, and makes them fewer as far as the
// work goes; where that is open it leaves the reason as it is. It gives a plan that it finds
// instead.
func (r *reasons) look(why *problem.Reason) *search.Plan {
	r.askFor(why.Demand, 1)
	in := r.allBut(why.Demand)
	proved := why.Kind == problem.ReasonProved
	is, core := r.possibleIn(in, coreShare)
	switch {
	case is == kernel.Solved && r.whole():
		return r.found()
	case is == kernel.Solved:
		return nil // with the rest left out it is no plan
	case is != kernel.Impossible && !proved:
		return nil // as open as it was
	case is != kernel.Impossible:
		core = in // by the proof
	}
	set, least := r.shrink(core)
	if slices.Equal(set, in) {
		return nil
	}
	why.Kind, why.Sets = problem.ReasonFacts, []problem.FactSet{r.factSet(set, least)}
	return nil
}

// fullShare: looking for pools that are full takes about one part in so many of what it takes to
// bound by them what is short, which is asked of all demands.
const fullShare = 64

// plainReason is the reason that needs no search: no size, no time, or pools that are full at
// every moment that counts, where so much counted work allows asking that.
func plainReason(ctx context.Context, s *search.Plan, d int, until int64) problem.Reason {
	r := problem.Reason{Demand: d}
	dm := &s.Model.Demands[d]
	f := &s.Model.Families[dm.Family]
	if len(f.Modes) == 0 {
		r.Kind = problem.ReasonNoMode
		return r
	}
	r.Least, r.Left = problem.LeastLength(&f.Modes[0]), dm.Due-dm.Ahead-s.First
	if r.Least > r.Left && !hasSources(s, d) {
		r.Kind = problem.ReasonTime
		return r
	}
	if ctx.Err() != nil || s.Spent+bound.EnergyWork(s.Model)/fullShare > until {
		return r
	}
	if full, ok := bound.FullFor(&s.Schedule, d); ok {
		r.Kind, r.Times, r.Sets = problem.ReasonMoments, full.Times, []problem.FactSet{full.Facts()}
	}
	return r
}

// hasSources reports whether stock or something under way could serve a demand: then it
// is not for want of time alone that it is short.
func hasSources(s *search.Plan, d int) bool {
	dm := &s.Model.Demands[d]
	return slices.ContainsFunc(s.Relax.Sources(&s.Schedule, dm.Family), func(src bound.Source) bool {
		return src.ReadyMin <= dm.Due-dm.Ahead && dm.Due <= src.ReadyMax+s.Model.Families[dm.Family].Keeps
	})
}
