package explain

import (
	"context"
	"slices"

	"ripeby/schedule/cp/bound"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
)

// setsShown is how many reasons of one demand are looked for at the most: each by itself
// forbids it, and lifting one only shows the next.
const setsShown = 3

// Reasons finds the reasons of all demands that are short, within so much counted work.
func Reasons(ctx context.Context, s *search.Plan, budget int64) []problem.Reason {
	var out []problem.Reason
	until := s.Spent + budget
	var todo []int
	for d, n := range s.Unmet {
		if n > 0 {
			r := plainReason(s, d)
			out = append(out, r)
			if r.Kind == problem.ReasonOpen {
				todo = append(todo, len(out)-1)
			}
		}
	}
	var r *reasons
	for i, x := range todo {
		share := (until - s.Spent) / int64(len(todo)-i)
		if share <= 0 || ctx.Err() != nil {
			break
		}
		if d := out[x].Demand; r == nil || !r.covers(d) {
			if r = newReasons(ctx, s, d, false, nil); r == nil {
				if s.IsWhole() {
					break // it would be the same statement again
				}
				continue
			}
		}
		r.until = s.Spent + share
		out[x] = r.reason(out[x].Demand, 1, setsShown)
	}
	return out
}

// plainReason is the reason that needs no search: no size, no time, or pools that are full at
// every moment that counts.
func plainReason(s *search.Plan, d int) problem.Reason {
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
	} else if full, ok := bound.FullFor(&s.Schedule, d); ok {
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
