package explain

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
)

// An answer moves no more jobs of the plan in force than it says, and none where it says that
// nothing moves.
func TestAnAnswerMovesWhatItSays(t *testing.T) {
	unmoved, moved := 0, 0
	tiny.CheckMany(t, 4, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Demands, k.Length, k.Begun = tiny.DrawInt(t, 3, 5, "demands"), 30, 0
		m, with, r := drawAsked(t, k, 300_000)
		d := len(m.Demands) - 1
		units := with.Demands[d].Units
		q := Inquire(context.Background(), with, d, -1, 2_000_000, nil)
		if q == nil || !q.Stands() {
			return
		}
		standing := func(f *Fit) int {
			n := 0
			for i := range r.Jobs {
				if slices.ContainsFunc(f.Result.Jobs, func(j problem.Job) bool { return r.Jobs[i].StandsAs(&j) }) {
					n++
				}
			}
			return n
		}
		if f := q.FitsUnmoved(units); f != nil {
			if unmoved++; f.Moved != 0 || standing(f) != len(r.Jobs) {
				t.Fatalf("%d of %d jobs stand, and %d are said to move\n%s", standing(f), len(r.Jobs), f.Moved, tiny.Text(with))
			}
			return
		}
		if f, _ := q.FitsMoved(units); f != nil {
			if moved++; standing(f) < len(r.Jobs)-f.Moved {
				t.Fatalf("%d of %d jobs stand, and %d are said to move\n%s", standing(f), len(r.Jobs), f.Moved, tiny.Text(with))
			}
		}
	})
	t.Logf("%d fit, %d if moved", unmoved, moved)
	if unmoved < tiny.Few(20) || moved < tiny.Few(5) {
		t.Errorf("got %d, %d: too few to mean much", unmoved, moved)
	}
}

// Where a job has to grow, and stays where it is, no other is taken to have to move for it.
func TestAJobThatGrewLeavesTheOthersWhereTheyAre(t *testing.T) {
	family := func(units ...int) problem.Family {
		f := problem.Family{Keeps: 30, Supply: -1}
		for _, n := range units {
			f.Modes = append(f.Modes, problem.Mode{Amount: int64(n), Units: n, Acts: []problem.Activity{{Work: 1, Workers: []int{0}, Lag: problem.Lag{Most: 30}}}})
		}
		return f
	}
	m := &problem.Model{Step: 1, Horizon: 40, FitFloor: tiny.LinePacking, Families: []problem.Family{family(1, 2), family(1)},
		Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 40}}, Days: []problem.Day{{From: 0, Until: 40, Limit: 2}}}},
		Demands: []problem.Demand{{Family: 0, Due: 20, Units: 1, Value: 1}, {Family: 1, Due: 20, Units: 1, Value: 1}, {Family: 0, Due: 20, Promised: true, Value: 1}}}
	r := solved(context.Background(), m, search.Options{Budget: 200_000})
	if len(r.Jobs) != 2 {
		t.Fatalf("got %d jobs, want 2", len(r.Jobs))
	}
	with := asking(m, r, 2, 1)
	q := Inquire(context.Background(), with, 2, -1, 2_000_000, nil)
	if q == nil || !q.Stands() {
		t.Fatal("the plan in force does not stand")
	}
	other := q.r.plan.Emptied(q.r.plan.Model) // one with the small job grown, and the other one moved
	var jobs []*problem.Job
	for _, j := range q.r.plan.Jobs {
		n := *j
		if n.Family == 0 {
			n.Mode, n.Shares = 1, []problem.Share{{Demand: 0, Units: 1}, {Demand: 2, Units: 1}}
		} else {
			n.Starts, n.Ready = []int{j.Starts[0] - 5}, j.Ready-5
		}
		jobs = append(jobs, &n)
	}
	other.Hold(q.r.plan.Homes, q.r.plan.Stocks, jobs)
	q.placed = true
	q.keep(other)
	f, _ := q.FitsMoved(1)
	if f == nil || f.Moved != 0 {
		t.Fatalf("got %+v, want nothing moved", f)
	}
	for _, j := range q.jobs {
		if !slices.ContainsFunc(f.Result.Jobs, func(o problem.Job) bool { return j.StandsAs(&o) }) {
			t.Errorf("the job of family %d does not stay at %v: %+v", j.Family, j.Starts, f.Result.Jobs)
		}
	}
}

// solved is what the search finds, without reasons.
func solved(ctx context.Context, m *problem.Model, opt search.Options) *problem.Result {
	r, _, _ := search.Find(ctx, m, opt)
	return r
}

// A demand that the plan in force meets is asked about with next to no work: nothing is told then, where
// there once was no plan to go on from.
func TestAMetDemandIsAskedAboutWithoutWork(t *testing.T) {
	asked := 0
	tiny.CheckMany(t, 1, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Demands, k.Length, k.Begun = tiny.DrawInt(t, 3, 5, "demands"), 30, 0
		_, with, _ := drawAsked(t, k, 300_000)
		q := Inquire(context.Background(), with, len(with.Demands)-1, -1, 1, nil)
		if q == nil || !q.Stands() {
			return
		}
		asked++
		if fit, known := q.Fits(0); fit == nil && known {
			t.Fatalf("it is said to be known that nothing more does not fit\n%s", tiny.Text(with))
		}
	})
	if asked < tiny.Few(5) {
		t.Errorf("%d asked: too few to mean much", asked)
	}
}
