package explain

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
	"ripeby/schedule/testrun"
)

// askedCalmly is a drawn model that was told its plan, and is asked for more.
func askedCalmly(t *rapid.T) (with *problem.Model, short []int) {
	k := tiny.Small(t)
	k.Demands, k.Length, k.Begun = tiny.DrawInt(t, 2, 3, "demands"), tiny.DrawInt(t, 9, 15, "length"), 0
	_, with, r := drawAsked(t, k, 300_000)
	with.Settled = tiny.DrawInt(t, 2, 16, "settled")
	for i := range r.Jobs {
		j := &r.Jobs[i]
		told := make([]problem.Told, len(j.Starts))
		for a := range told {
			told[a] = problem.Told{As: problem.ToldLater, Start: j.Starts[a], Worker: j.Workers[a]}
			if j.Starts[a] < with.SettledUntil() {
				told[a].As = problem.ToldSettled
			}
		}
		with.Kept = append(with.Kept, problem.Kept{Number: i, Family: j.Family, Told: told})
	}
	for i := range r.Jobs {
		with.Hints[i].Kept = &with.Kept[i]
	}
	return with, r.Short
}

// Where work has to move for an order, no plan of all there are moves less of what was settled.
func TestAnOrderMovesAsLittleAsAnyPlanMust(t *testing.T) {
	moved, none, some := 0, 0, 0
	tiny.CheckMany(t, testrun.Rounds(20, 100), func(t *rapid.T) {
		with, short := askedCalmly(t)
		d := len(with.Demands) - 1
		units := with.Demands[d].Units
		q := Inquire(context.Background(), with, d, -1, 4_000_000, nil)
		if q == nil || !q.Stands() || q.FitsUnmoved(units) != nil {
			return
		}
		f, _ := q.FitsMoved(units)
		if f == nil {
			return
		}
		plans, ok := tiny.PlansOf(with, 2_000)
		if !ok {
			return
		}
		least := int64(-1)
		for i := range plans {
			p := &plans[i]
			given := make([]int, len(with.Demands))
			for _, of := range p.Given {
				for o, n := range of {
					given[o] += n
				}
			}
			fits := given[d] == units
			for o := range d {
				fits = fits && given[o] >= with.Demands[o].Units-short[o]
			}
			if fits && (least < 0 || p.Cost.Moved < least) && tiny.CanStand(with, p, func(int) bool { return false }) {
				least = p.Cost.Moved
			}
		}
		if moved++; least == 0 {
			none++
		} else {
			some++
		}
		if got := f.Result.Cost.Moved; got != least {
			t.Fatalf("%d settled tasks move, and the calmest plan of all moves %d\n%s", got, least, tiny.Text(with))
		}
	})
	t.Logf("%d fit if moved, %d of them with nothing settled moved, %d with some", moved, none, some)
	if none < tiny.Few(3) || some < tiny.Few(3) {
		t.Errorf("got %d, %d: too few to mean much", none, some)
	}
}

// Of two jobs of which one has to make room the one goes of which less was settled, though it comes first.
func TestWhatWasSettledLessMakesRoom(t *testing.T) {
	act := func(work int) problem.Activity { return problem.Activity{Work: work, Workers: []int{0}} }
	family := func(acts ...problem.Activity) problem.Family {
		acts[len(acts)-1].Lag.Most = 30
		return problem.Family{Keeps: 30, Supply: -1, Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: acts}}}
	}
	m := &problem.Model{Step: 1, Horizon: 24, FitFloor: tiny.LinePacking, Settled: 10,
		Families: []problem.Family{family(act(2)), family(act(1), act(1)), family(act(2))},
		Workers:  []problem.Worker{{Windows: []problem.Span{{From: 4, Until: 8}, {From: 12, Until: 24}}, Days: []problem.Day{{From: 0, Until: 24, Limit: 9}}}},
		Demands:  []problem.Demand{{Family: 0, Due: 24, Units: 1, Value: 1}, {Family: 1, Due: 24, Units: 1, Value: 1}, {Family: 2, Due: 8, Promised: true, Value: 1}}}
	r := &problem.Result{Jobs: []problem.Job{
		{Family: 0, Begun: -1, Intake: -1, Starts: []int{4}, Workers: []int{0}, Shares: []problem.Share{{Demand: 0, Units: 1}}},
		{Family: 1, Begun: -1, Intake: -1, Starts: []int{6, 7}, Workers: []int{0, 0}, Shares: []problem.Share{{Demand: 1, Units: 1}}}}}
	settled := func(at int) problem.Told { return problem.Told{As: problem.ToldSettled, Start: at} }
	m.Kept = []problem.Kept{{Number: 0, Family: 0, Told: []problem.Told{settled(4)}}, {Number: 1, Family: 1, Told: []problem.Told{settled(6), settled(7)}}}
	with := asking(m, r, 2, 1)
	for i := range with.Hints {
		with.Hints[i].Kept = &with.Kept[i]
	}
	q := Inquire(context.Background(), with, 2, -1, 2_000_000, nil)
	if q == nil || !q.Stands() {
		t.Fatal("the plan in force does not stand")
	}
	if q.FitsUnmoved(1) != nil {
		t.Fatal("it fits with nothing moved, which is not what is tried here")
	}
	f, _ := q.FitsMoved(1)
	if f == nil || f.Result.Cost.Moved != 2 { // what moves, and the new work itself
		t.Fatalf("got %+v, want a plan that moves 1 settled task, and has 1 new", f)
	}
}
