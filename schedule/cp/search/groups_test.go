package search

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
	"ripeby/schedule/testrun"
)

// drawGroups puts some of the demands into groups, each into one at the most.
func drawGroups(t *rapid.T, m *problem.Model) [][]int {
	groups := make([][]int, 3)
	for d := range m.Demands {
		if x := tiny.DrawInt(t, 0, len(groups), "group"); x < len(groups) {
			groups[x] = append(groups[x], d)
		}
	}
	return groups
}

// However the demands are divided, no plan is short of less than the groups together.
func TestGroupsAreBelowEveryPlan(t *testing.T) {
	n, some, shared := 0, 0, 0
	tiny.CheckMany(t, testrun.Rounds(1, 6), func(t *rapid.T) {
		m := tiny.Within(t, tiny.Draw(t, tiny.Small(t)))
		w, ok := tiny.EveryPlan(m)
		if !ok {
			return
		}
		s := NewPlan(m)
		g := &divided{s: s, ctx: context.Background(), until: 1 << 40}
		groups := drawGroups(t, m)
		promised, other := g.leastShort(groups, 600_000, 600_000)
		n++
		if promised+other > 0 {
			some++
		}
		if len(groups[0]) > 0 && len(groups[1]) > 0 {
			shared++
		}
		for c := range w.Costs {
			if c.Stuck > 0 {
				continue // such plans are not bounded so
			}
			if c.PromisedShort < promised || c.PromisedShort == promised && c.Short < other {
				t.Fatalf("groups %v are short of %d and %d, a plan is %+v\n%s", groups, promised, other, c, tiny.Text(m))
			}
		}
	})
	t.Logf("%d models, %d short of something, %d with demands in several groups", n, some, shared)
	if some < tiny.Few(testrun.Rounds(5, 20)) || shared < tiny.Few(testrun.Rounds(5, 20)) {
		t.Errorf("of %d models %d are short and %d have several groups: too few to mean much", n, some, shared)
	}
}

// What the whole model proves is the oracle for a plan stated a stretch at a time: that
// is no better, and its bounds are not above.
func TestStretchesAgainstTheWholeProof(t *testing.T) {
	testrun.Checks(t, 30)
	n, short, tight := 0, 0, 0
	tiny.CheckMany(t, testrun.Rounds(1, 2), func(t *rapid.T) {
		m := tiny.Within(t, tiny.Draw(t, tiny.Crowded(t)))
		whole := searched(context.Background(), m, Options{Budget: 3_000_000})
		if whole.Cost != whole.Bound {
			return
		}
		r := searched(context.Background(), m, inStretches(1_000_000))
		n++
		if r.Cost.Less(whole.Cost) {
			t.Fatalf("got %+v, better than the best %+v\n%s", r.Cost, whole.Cost, tiny.Text(m))
		}
		a, b, c := r.Bound.Parts(), whole.Cost.Parts(), r.Cost.Parts()
		for i := range a {
			if a[i] > b[i] {
				t.Fatalf("bound %+v is above the best %+v in part %d\n%s", r.Bound, whole.Cost, i+1, tiny.Text(m))
			}
			if c[i] != b[i] {
				break
			}
		}
		if b[0]+b[1] > 0 {
			short++
			if a[0] == b[0] && a[1] == b[1] {
				tight++
			}
		}
	})
	t.Logf("%d models, %d short of something, of which %d bounded by as much", n, short, tight)
	if n < tiny.Few(testrun.Rounds(10, 50)) || short < tiny.Few(testrun.Rounds(2, 10)) {
		t.Errorf("got %d models, %d short of something: too few to mean much", n, short)
	}
}

// A plan in which nothing is short leaves nothing short in any group, though its jobs
// and its stock serve less there.
func TestAGroupAsksNoMoreThanThePlan(t *testing.T) {
	job := func(work, keeps, serves int, last problem.Lag) problem.Family {
		return problem.Family{Keeps: keeps, Supply: -1, Serves: serves, Modes: []problem.Mode{{Amount: 1, Units: 2,
			Acts: []problem.Activity{{Work: work, Workers: []int{0}, Lag: last}}, Runs: []problem.Run{{Amount: 1, Choices: []problem.PoolChoice{{Pool: 0}}}}}}}
	}
	two := []problem.Demand{{Due: 5, Units: 1, Value: 1}, {Due: 9, Units: 1, Value: 1}}
	for _, tt := range []struct {
		name   string
		family problem.Family
		stocks []problem.Stock
	}{
		{"a family asks for two units", job(1, 8, 2, problem.Lag{Most: 20}), nil},
		{"the last lag is long", job(3, 8, 0, problem.Lag{Least: 4, Most: 20}), nil},
		{"stock leaves with the first", job(1, 3, 0, problem.Lag{Most: 20}), []problem.Stock{{Ready: 2, Units: 1, Space: -1, Boxes: 1, Pool: 0, Keep: 9}}},
	} {
		m := &problem.Model{Step: 1, Horizon: 10, FitFloor: tiny.LinePacking, Pools: []problem.Pool{{Capacity: 1}}, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 10}}}},
			Families: []problem.Family{tt.family}, Demands: two, Stocks: tt.stocks}
		if r := searched(context.Background(), m, Options{}); r.Cost.Short != 0 {
			t.Errorf("%s: got %+v, want nothing short", tt.name, r.Cost)
		}
		g := &divided{s: NewPlan(m), ctx: context.Background(), until: 1 << 40}
		for d := range two {
			if _, other := g.leastShort([][]int{{d}}, 1_000_000, 1_000_000); other != 0 {
				t.Errorf("%s: got %d short for demand %d alone, want 0", tt.name, other, d)
			}
		}
	}
}
