package cp

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
	"ripeby/schedule/testrun"
)

// withOnly is a model in which, of the facts that could be otherwise, only these are
// in force; the demands of other facts are left to the caller.
func withOnly(m *problem.Model, facts []problem.Fact) *problem.Model {
	out := *m
	in := func(k problem.FactKind, i int) bool {
		return slices.ContainsFunc(facts, func(f problem.Fact) bool { return f.Kind == k && f.Index == i })
	}
	out.Pools = slices.Clone(m.Pools)
	for p := range out.Pools {
		if !in(problem.FactPool, p) {
			out.Pools[p].Capacity = 99
		}
	}
	out.Spaces = slices.Clone(m.Spaces)
	for s := range out.Spaces {
		if !in(problem.FactSpace, s) {
			out.Spaces[s] = problem.Space{Capacity: 99}
		}
	}
	out.Families = slices.Clone(m.Families)
	for f := range out.Families {
		if !in(problem.FactServes, f) {
			out.Families[f].Serves = 0
		}
	}
	out.Intakes = slices.Clone(m.Intakes)
	for s, drawn := range m.Supplies() {
		if drawn && !in(problem.FactSupply, s) {
			out.Intakes = append(out.Intakes, problem.Intake{Supply: s, Ready: m.From, Until: m.Horizon, Amount: problem.Infinite})
		}
	}
	// Beside each worker stands one who does anything on the days that are lifted.
	out.Workers = slices.Clone(m.Workers)
	for w := range m.Workers {
		var free []problem.Span
		for _, day := range m.DayBounds() {
			held := slices.ContainsFunc(facts, func(f problem.Fact) bool { return f.Kind == problem.FactWorker && f.Index == w && f.From == day.From })
			switch n := len(free); {
			case held:
			case n > 0 && free[n-1].Until == day.From:
				free[n-1].Until = day.Until
			default:
				free = append(free, day)
			}
		}
		out.Workers = append(out.Workers, problem.Worker{Windows: free, Many: true})
	}
	also := func(mode *problem.Mode, begun int) problem.Mode {
		md := *mode
		md.Acts = slices.Clone(mode.Acts)
		for i := begun; i < len(md.Acts); i++ {
			var who []int
			for _, w := range mode.Acts[i].Workers {
				who = append(who, w, len(m.Workers)+w)
			}
			md.Acts[i].Workers = who
		}
		return md
	}
	for f := range out.Families {
		modes := slices.Clone(m.Families[f].Modes)
		for k := range modes {
			modes[k] = also(&m.Families[f].Modes[k], 0)
		}
		out.Families[f].Modes = modes
	}
	out.Begun = slices.Clone(m.Begun)
	for b := range out.Begun {
		out.Begun[b].Mode = also(&m.Begun[b].Mode, len(m.Begun[b].Starts))
	}
	return &out
}

// reachable lists all plans under some facts and reports whether one of them gives
// demand d a unit more, and those of the facts no less; not ok for too many plans.
func reachable(m *problem.Model, unmet []int, d int, facts []problem.Fact) (is, ok bool) {
	w, ok := tiny.EveryPlan(withOnly(m, facts))
	if !ok {
		return false, false
	}
	for _, short := range w.Shorts {
		good := short[d] < unmet[d]
		for _, f := range facts {
			good = good && (f.Kind != problem.FactDemand || short[f.Index] <= unmet[f.Index])
		}
		if good {
			return true, true
		}
	}
	return false, true
}

// all but the facts given.
func allBut(all, without []problem.Fact) []problem.Fact {
	return slices.DeleteFunc(slices.Clone(all), func(f problem.Fact) bool { return slices.Contains(without, f) })
}

// TestAReasonIsWhatForbids: each set of facts forbids the demand by itself; without any
// one of them the rest does not; with all sets lifted the demand is possible. By listing
// all plans.
func TestAReasonIsWhatForbids(t *testing.T) {
	var reasons, forbidden, needed, lifted, moments int
	kinds := map[problem.FactKind]int{}
	testrun.Checks(t, 60)
	tiny.CheckMany(t, testrun.Rounds(1, 2), func(t *rapid.T) {
		k := tiny.Small(t)
		k.Stocks, k.Begun = tiny.DrawInt(t, 0, 1, "stocks"), tiny.DrawInt(t, 0, 1, "begun")
		m := tiny.Draw(t, k)
		if tiny.OneIn(t, 2, "days") {
			m.DayStarts = []int{m.From, m.From + tiny.DrawInt(t, 3, 9, "day")}
		}
		r := Solve(context.Background(), m, search.Options{Budget: 1_000_000})
		if slices.ContainsFunc(r.Jobs, func(j problem.Job) bool { return j.Stuck || j.Late > 0 }) {
			return // the listing of plans knows no such
		}
		for _, why := range r.Reasons {
			reasons++
			d := why.Demand
			all := allBut(m.Facts(), []problem.Fact{{Kind: problem.FactDemand, Index: d}})
			var gone []problem.Fact
			for _, set := range why.Sets {
				gone = append(gone, set.Facts...)
				is, ok := reachable(m, r.Short, d, set.Facts)
				if ok {
					forbidden++
				}
				if ok && is {
					t.Fatalf("demand %d: facts %+v do not forbid one more\nshort %v\n%s", d, set.Facts, r.Short, tiny.Text(m))
				}
				if why.Kind == problem.ReasonMoments {
					moments++
					continue // other facts may forbid it too
				}
				if !set.Least {
					t.Fatalf("demand %d: nothing is known of whether %+v is least\n%s", d, set.Facts, tiny.Text(m))
				}
				for i, f := range set.Facts {
					kinds[f.Kind]++
					is, ok := reachable(m, r.Short, d, slices.Delete(slices.Clone(set.Facts), i, i+1))
					if ok {
						needed++
					}
					if ok && !is {
						t.Fatalf("demand %d: without %+v the rest of %+v still forbids one more\nshort %v\n%s", d, f, set.Facts, r.Short, tiny.Text(m))
					}
				}
			}
			if why.Enough {
				is, ok := reachable(m, r.Short, d, allBut(all, gone))
				if ok {
					lifted++
				}
				if ok && !is {
					t.Fatalf("demand %d: with %+v lifted there is still no plan\nshort %v\n%s", d, gone, r.Short, tiny.Text(m))
				}
			}
			if why.Kind == problem.ReasonOpen {
				t.Fatalf("demand %d: no reason\nshort %v\n%s", d, r.Short, tiny.Text(m))
			}
		}
	})
	t.Logf("%d reasons, %d by moments; by all plans: %d sets forbid, %d facts are needed, %d lifted; kinds %v", reasons, moments, forbidden, needed, lifted, kinds)
	if forbidden < tiny.Few(testrun.Rounds(30, 100)) || needed < tiny.Few(testrun.Rounds(20, 100)) || lifted < tiny.Few(testrun.Rounds(15, 50)) || moments < tiny.Few(testrun.Rounds(3, 10)) || len(kinds) < testrun.Rounds(4, 6) {
		t.Error("too few to mean much")
	}
}
