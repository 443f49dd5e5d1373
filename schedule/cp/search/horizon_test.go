package search

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// inStretches is what a plan of more than one job is solved by in these tests: two
// jobs to a stretch.
func inStretches(budget int64) Options { return Options{Budget: budget, Whole: 1, Segment: 2} }

// A plan that is stated a stretch at a time is a plan, and the bound is below all.
func TestStretchesAgainstEveryPlan(t *testing.T) {
	n, long, best := 0, 0, 0
	tiny.CheckMany(t, 2, func(t *rapid.T) {
		m := tiny.Draw(t, tiny.Small(t))
		w, ok := tiny.EveryPlan(m)
		if !ok {
			return
		}
		r := searched(context.Background(), m, inStretches(300_000))
		for i := range r.Jobs {
			if r.Jobs[i].Stuck {
				return
			}
		}
		n++
		if f := tiny.FaultOf(m, r); f != "" {
			t.Fatalf("invalid: %s\n%+v\n%s", f, *r, tiny.Text(m))
		}
		if !w.Costs[r.Cost] {
			t.Fatalf("cost %+v is no plan's; best is %+v\n%+v\n%s", r.Cost, w.Best(), r.Jobs, tiny.Text(m))
		}
		for i, b := range r.Bound.Parts() {
			if least, some := w.LeastAfter(r.Cost, i); some && b > least {
				t.Fatalf("bound %+v above the best part %d, %d, given %+v\n%s", r.Bound, i+1, least, r.Cost, tiny.Text(m))
			}
		}
		if len(r.Jobs) > 1 {
			long++
		}
		if r.Cost == w.Best() {
			best++
		}
	})
	t.Logf("%d models, %d of more than one job, %d solved to the best", n, long, best)
	if long < n/10 || best*100 < n*85 {
		t.Errorf("of %d models %d have more than one job and %d are solved to the best: too few", n, long, best)
	}
}

// stretched gives a random stretch of a plan to a check, and what was built around it.
func stretched(t *rapid.T, k tiny.Shape) (m *problem.Model, s *Plan, free []*problem.Job) {
	m = tiny.Draw(t, k)
	s = NewPlan(m)
	s.SettleHomes()
	covered, _ := s.chooseOpening()
	s = s.firstPlan(covered).s
	size := tiny.DrawInt(t, 1, 3, "size")
	return m, s, s.segmentAt(tiny.DrawInt(t, 0, 3, "at"), size)
}

// What is told of a stretch lets in the stretch as it is, beside all the rest.
func TestTheStretchHoldsThePlan(t *testing.T) {
	n, beside := 0, 0
	tiny.CheckMany(t, 10, func(t *rapid.T) {
		m, s, free := stretched(t, tiny.Crowded(t))
		if len(free) == 0 {
			return
		}
		cut := s.segment(free)
		q, hold, ok := stated(cut)
		if !ok {
			return
		}
		n++
		beside += len(cut.Frozen.Jobs)
		if st := q.Kernel.Search(context.Background(), 50_000_000, hold...); st != kernel.Solved {
			t.Fatalf("the stretch's starts and pools: got %v, want solved\n%+v\nbeside %+v\n%s", st, free, cut.Frozen.Jobs, tiny.Text(m))
		}
	})
	t.Logf("%d stretches beside %d jobs", n, beside)
	if n < tiny.Few(30) || beside < n {
		t.Errorf("got %d stretches beside %d jobs: too few to mean much", n, beside)
	}
}

// A stretch that was pressed is put back into a plan that still holds, and is better
// by what the stretch became better.
func TestAPressedStretchIsPutBack(t *testing.T) {
	n, better := 0, 0
	tiny.CheckMany(t, 10, func(t *rapid.T) {
		m, s, free := stretched(t, tiny.Crowded(t))
		if r := s.Result(problem.Cost{}); len(free) == 0 || tiny.LeavesSome(s.Jobs) || tiny.FaultOf(m, r) != "" {
			return // what has begun may be at fault by itself
		}
		n++
		if len(free) > 1 {
			s.Remove(free[0]) // there is something to be gained
			free = free[1:]
		}
		before := s.Cost()
		im := &improver{s: s, focus: problem.Always()}
		h := &horizon{im: im, ctx: context.Background(), until: s.Spent + 1_000_000}
		_, gained := h.ask(free, s.segment(free), 500_000)
		if after := s.Cost(); gained != after.Less(before) {
			t.Fatalf("gained %v, from %+v to %+v\n%s", gained, before, after, tiny.Text(m))
		}
		if gained {
			better++
		}
		if r := s.Result(problem.Cost{}); tiny.FaultOf(m, r) != "" {
			t.Fatalf("invalid: %s\n%+v\n%s", tiny.FaultOf(m, r), *r, tiny.Text(m))
		}
	})
	t.Logf("%d stretches, %d got better", n, better)
	if better < tiny.Few(10) {
		t.Errorf("only %d of %d stretches got better: too few to mean much", better, n)
	}
}
