package cp

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// withOnly is a model in which, of the facts that could be otherwise, only these are
// in force; the demands of other facts are left to the caller.
func withOnly(m *Model, facts []Fact) *Model {
	out := *m
	in := func(k FactKind, i int) bool {
		return slices.ContainsFunc(facts, func(f Fact) bool { return f.Kind == k && f.Index == i })
	}
	out.Pools = slices.Clone(m.Pools)
	for p := range out.Pools {
		if !in(FactPool, p) {
			out.Pools[p].Capacity = 99
		}
	}
	out.Spaces = slices.Clone(m.Spaces)
	for s := range out.Spaces {
		if !in(FactSpace, s) {
			out.Spaces[s] = Space{Capacity: 99}
		}
	}
	out.Families = slices.Clone(m.Families)
	for f := range out.Families {
		if !in(FactServes, f) {
			out.Families[f].Serves = 0
		}
	}
	out.Intakes = slices.Clone(m.Intakes)
	for s, drawn := range m.supplies() {
		if drawn && !in(FactSupply, s) {
			out.Intakes = append(out.Intakes, Intake{Supply: s, Ready: m.From, Until: m.Horizon, Amount: Infinite})
		}
	}
	// Beside each worker stands one who does anything on the days that are lifted.
	out.Workers = slices.Clone(m.Workers)
	for w := range m.Workers {
		var free []Span
		for _, day := range m.dayBounds() {
			held := slices.ContainsFunc(facts, func(f Fact) bool { return f.Kind == FactWorker && f.Index == w && f.From == day.From })
			switch n := len(free); {
			case held:
			case n > 0 && free[n-1].Until == day.From:
				free[n-1].Until = day.Until
			default:
				free = append(free, day)
			}
		}
		out.Workers = append(out.Workers, Worker{Windows: free, many: true})
	}
	also := func(mode *Mode, begun int) Mode {
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
func reachable(m *Model, unmet []int, d int, facts []Fact) (is, ok bool) {
	w, ok := everyPlan(withOnly(m, facts))
	if !ok {
		return false, false
	}
	for _, short := range w.shorts {
		good := short[d] < unmet[d]
		for _, f := range facts {
			good = good && (f.Kind != FactDemand || short[f.Index] <= unmet[f.Index])
		}
		if good {
			return true, true
		}
	}
	return false, true
}

// all but the facts given.
func allBut(all, without []Fact) []Fact {
	return slices.DeleteFunc(slices.Clone(all), func(f Fact) bool { return slices.Contains(without, f) })
}

// TestAReasonIsWhatForbids: each set of facts forbids the demand by itself; without any
// one of them the rest does not; with all sets lifted the demand is possible. By listing
// all plans.
func TestAReasonIsWhatForbids(t *testing.T) {
	var reasons, forbidden, needed, lifted int
	kinds := map[FactKind]int{}
	checkMany(t, 2, func(t *rapid.T) {
		k := small(t)
		k.stocks, k.begun = drawInt(t, 0, 1, "stocks"), drawInt(t, 0, 1, "begun")
		m := drawModel(t, k)
		if oneIn(t, 2, "days") {
			m.DayStarts = []int{m.From, m.From + drawInt(t, 3, 9, "day")}
		}
		r := Solve(context.Background(), m, Options{Budget: 1_000_000})
		if slices.ContainsFunc(r.Jobs, func(j Job) bool { return j.Stuck || j.Late > 0 }) {
			return // the listing of plans knows no such
		}
		for _, why := range r.Reasons {
			reasons++
			d := why.Demand
			all := allBut(m.facts(), []Fact{{Kind: FactDemand, Index: d}})
			var gone []Fact
			for _, set := range why.Sets {
				gone = append(gone, set.Facts...)
				is, ok := reachable(m, r.Short, d, set.Facts)
				if ok {
					forbidden++
				}
				if ok && is {
					t.Fatalf("demand %d: facts %+v do not forbid one more\nshort %v\n%s", d, set.Facts, r.Short, modelText(m))
				}
				if !set.Least {
					t.Fatalf("demand %d: nothing is known of whether %+v is least\n%s", d, set.Facts, modelText(m))
				}
				for i, f := range set.Facts {
					kinds[f.Kind]++
					is, ok := reachable(m, r.Short, d, slices.Delete(slices.Clone(set.Facts), i, i+1))
					if ok {
						needed++
					}
					if ok && !is {
						t.Fatalf("demand %d: without %+v the rest of %+v still forbids one more\nshort %v\n%s", d, f, set.Facts, r.Short, modelText(m))
					}
				}
			}
			if why.Enough {
				is, ok := reachable(m, r.Short, d, allBut(all, gone))
				if ok {
					lifted++
				}
				if ok && !is {
					t.Fatalf("demand %d: with %+v lifted there is still no plan\nshort %v\n%s", d, gone, r.Short, modelText(m))
				}
			}
			if why.Kind == ReasonOpen {
				t.Fatalf("demand %d: no reason\nshort %v\n%s", d, r.Short, modelText(m))
			}
		}
	})
	t.Logf("%d reasons; by all plans: %d sets forbid, %d facts are needed, %d lifted; kinds %v", reasons, forbidden, needed, lifted, kinds)
	if forbidden < few(100) || needed < few(100) || lifted < few(50) || len(kinds) < 6 {
		t.Error("too few to mean much")
	}
}
