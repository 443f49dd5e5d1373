package cp

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/explain"
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
// demand d a unit more, and those of the facts no less, with no more left or later than a cost
// has; not ok for too many plans.
func reachable(m *problem.Model, unmet []int, late problem.Cost, d int, facts []problem.Fact) (is, ok bool) {
	w, ok := tiny.EveryPlan(withOnly(m, facts))
	if !ok {
		return false, false
	}
	for _, short := range w.Shorts {
		good := short.Units[d] < unmet[d] && short.Stuck <= late.Stuck && short.Late <= late.Late
		for _, f := range facts {
			good = good && (f.Kind != problem.FactDemand || short.Units[f.Index] <= unmet[f.Index])
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

// reasonTally is what has been held against all plans.
type reasonTally struct {
	whole, forbidden, needed, lifted int
	brief                            map[problem.ReasonKind]int
	kinds                            map[problem.FactKind]int
}

// TestAReasonIsWhatForbids: each set of facts forbids the demand by itself; without any
// one of them the rest does not; with all sets lifted the demand is possible. The short reason
// that comes with a plan agrees with the plan's proof. By listing all plans.
func TestAReasonIsWhatForbids(t *testing.T) {
	seen := &reasonTally{brief: map[problem.ReasonKind]int{}, kinds: map[problem.FactKind]int{}}
	testrun.Checks(t, 60)
	tiny.CheckMany(t, testrun.Rounds(1, 4), func(t *rapid.T) { // 200 short ones in a long run
		k := tiny.Small(t)
		k.Stocks, k.Begun = tiny.DrawInt(t, 0, 1, "stocks"), tiny.DrawInt(t, 0, 1, "begun")
		twins := tiny.OneIn(t, 3, "twins")
		if twins {
			k.Demands = tiny.DrawInt(t, 1, 2, "few demands")
		}
		m := tiny.Draw(t, k)
		if twins { // wants that units can go to as well
			d := m.Demands[tiny.DrawInt(t, 0, len(m.Demands)-1, "twin of")]
			d.Promised, d.Value = d.Promised != tiny.OneIn(t, 4, "not promised alike"), d.Value+int64(tiny.DrawInt(t, 0, 1, "more value"))
			m.Demands = append(m.Demands, d)
		}
		if tiny.OneIn(t, 2, "days") {
			m.DayStarts = []int{m.From, m.From + tiny.DrawInt(t, 3, 9, "day")}
		}
		r, s, _ := search.Find(context.Background(), m, search.Options{Budget: 1_000_000})
		if slices.ContainsFunc(r.Jobs, func(j problem.Job) bool { return j.Stuck }) {
			return // the listing of plans knows no such
		}
		list, better := explain.Reasons(context.Background(), s, r.Bound, int64(tiny.DrawInt(t, 0, 4, "much")*tiny.DrawInt(t, 0, 5000, "work")))
		if better != nil && (!better.Cost().Less(r.Cost) || tiny.FaultOf(m, better.Result(r.Bound)) != "") {
			t.Fatalf("said to be better: %+v\n%s", better.Result(r.Bound), tiny.Text(m))
		}
		for _, why := range list {
			agrees(t, m, r, &why, seen)
			q := Inquire(context.Background(), tiny.InForce(m, r), why.Demand, -1, 2_000_000, nil)
			if q == nil || !q.Stands() {
				continue // what has begun may break rules
			}
			if all := q.Why(1, true); why.Kind != problem.ReasonOpen && why.Kind != problem.ReasonUnpriced {
				forbids(t, m, r, &all, seen)
			}
		}
	})
	t.Logf("brief %v; %d reasons; by all plans: %d sets forbid, %d facts are needed, %d lifted; kinds %v",
		seen.brief, seen.whole, seen.forbidden, seen.needed, seen.lifted, seen.kinds)
	if seen.forbidden < tiny.Few(testrun.Rounds(30, 100)) || seen.needed < tiny.Few(testrun.Rounds(20, 100)) || seen.lifted < tiny.Few(testrun.Rounds(15, 50)) ||
		len(seen.kinds) < testrun.Rounds(4, 6) || seen.brief[problem.ReasonFacts] < tiny.Few(testrun.Rounds(10, 60)) || seen.brief[problem.ReasonProved] < tiny.Few(testrun.Rounds(10, 60)) {
		t.Error("too few to mean much")
	}
}

// agrees checks the reason that comes with a plan: where the proof rules one more out, that is
// what it says, and what it says is ruled out is so.
func agrees(t *rapid.T, m *problem.Model, r *problem.Result, why *problem.Reason, seen *reasonTally) {
	seen.brief[why.Kind]++
	d := why.Demand
	show := func(what string) {
		t.Fatalf("demand %d, %s: %+v\ncost %+v, bound %+v, short %v\n%s", d, what, *why, r.Cost, r.Bound, r.Short, tiny.Text(m))
	}
	is, ok := reachable(m, r.Short, r.Cost, d, allBut(m.Facts(), []problem.Fact{{Kind: problem.FactDemand, Index: d}}))
	proved := r.Cost.PromisedShort == r.Bound.PromisedShort && (m.Demands[d].Promised || r.Cost.Short == r.Bound.Short)
	switch {
	case ok && is && why.Kind != problem.ReasonOpen && why.Kind != problem.ReasonUnpriced:
		show("there is a plan with more")
	case ok && is && proved && m.Demands[d].Value > 0:
		show("the proof is wrong")
	case why.Kind == problem.ReasonOpen && proved:
		show("it is proved, and said to be open")
	case why.Kind == problem.ReasonFacts && len(why.Sets) != 1:
		show("not one set")
	}
	for _, set := range why.Sets {
		if is, ok := reachable(m, r.Short, r.Cost, d, set.Facts); ok && is {
			show("these facts do not forbid one more")
		}
		for i := range set.Facts {
			if is, ok := reachable(m, r.Short, r.Cost, d, slices.Delete(slices.Clone(set.Facts), i, i+1)); set.Least && ok && !is {
				show("not all of these facts are needed")
			}
		}
	}
}

// forbids checks the whole of a reason.
func forbids(t *rapid.T, m *problem.Model, r *problem.Result, why *problem.Reason, seen *reasonTally) {
	seen.whole++
	d := why.Demand
	all := allBut(m.Facts(), []problem.Fact{{Kind: problem.FactDemand, Index: d}})
	var gone []problem.Fact
	for _, set := range why.Sets {
		gone = append(gone, set.Facts...)
		is, ok := reachable(m, r.Short, r.Cost, d, set.Facts)
		if ok {
			seen.forbidden++
		}
		if ok && is {
			t.Fatalf("demand %d: facts %+v do not forbid one more\nshort %v\n%s", d, set.Facts, r.Short, tiny.Text(m))
		}
		if why.Kind != problem.ReasonFacts {
			continue // others may forbid it too
		}
		if !set.Least {
			t.Fatalf("demand %d: nothing is known of whether %+v is least\n%s", d, set.Facts, tiny.Text(m))
		}
		for i, f := range set.Facts {
			seen.kinds[f.Kind]++
			is, ok := reachable(m, r.Short, r.Cost, d, slices.Delete(slices.Clone(set.Facts), i, i+1))
			if ok {
				seen.needed++
			}
			if ok && !is {
				t.Fatalf("demand %d: without %+v the rest of %+v still forbids one more\nshort %v\n%s", d, f, set.Facts, r.Short, tiny.Text(m))
			}
		}
	}
	if why.Enough {
		is, ok := reachable(m, r.Short, r.Cost, d, allBut(all, gone))
		if ok {
			seen.lifted++
		}
		if ok && !is {
			t.Fatalf("demand %d: with %+v lifted there is still no plan\nshort %v\n%s", d, gone, r.Short, tiny.Text(m))
		}
	}
	if why.Kind == problem.ReasonOpen {
		t.Fatalf("demand %d: no reason\nshort %v\n%s", d, r.Short, tiny.Text(m))
	}
}

// Where the question of why something is short is answered by a plan with more, that is given
// in place of reasons, and the bound that it gets holds for it. By listing all plans.
func TestAPlanWithMoreIsTakenInPlaceOfAReason(t *testing.T) {
	asked, taken := 0, 0
	testrun.Checks(t, 60)
	tiny.CheckMany(t, testrun.Rounds(1, 4), func(t *rapid.T) {
		k := tiny.Small(t)
		k.Begun = 0
		m := tiny.Draw(t, k)
		w, ok := tiny.EveryPlan(m)
		r, s, _ := search.Find(context.Background(), m, search.Options{Budget: 300_000})
		if !ok || len(s.Jobs) == 0 {
			return
		}
		s.Remove(s.Jobs[tiny.DrawInt(t, 0, len(s.Jobs)-1, "left out")])
		cost, bound := s.Cost(), problem.Cost{Early: -problem.Infinite}
		if cost.Short+cost.PromisedShort == r.Cost.Short+r.Cost.PromisedShort {
			return // what it gave is worth nothing
		}
		asked++
		for i := range problem.CostParts { // all that could be known of that plan
			if least, some := w.LeastAfter(cost, i); some {
				*bound.Part(i) = least
			}
		}
		_, better := explain.Reasons(context.Background(), s, bound, 500_000)
		if better == nil {
			return // only more of one demand for less of another is possible
		}
		taken++
		bound = better.BoundAfter(cost, bound)
		got := better.Result(bound)
		if f := tiny.FaultOf(m, got); f != "" || !got.Cost.Less(cost) || !w.Costs[got.Cost] {
			t.Fatalf("%s; cost %+v, before %+v\n%s", f, got.Cost, cost, tiny.Text(m))
		}
		for i, b := range bound.Parts() {
			if least, some := w.LeastAfter(got.Cost, i); some && b > least {
				t.Fatalf("bound %+v above the best part %d, %d, given %+v\n%s", bound, i+1, least, got.Cost, tiny.Text(m))
			}
		}
	})
	t.Logf("%d asked, %d with a better plan", asked, taken)
	if taken < tiny.Few(testrun.Rounds(15, 100)) || taken*10 < asked*9 {
		t.Errorf("got %d of %d: too few to mean much", taken, asked)
	}
}
