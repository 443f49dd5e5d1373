package planner_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// slipCounts say what has been compared.
type slipCounts map[string]int

// The earliest and the latest start of every stage of tiny kitchens' plans are the first
// and the last of all ways that the batch has with its earlier stages and every other
// batch as planned, its later stages free. One grid step beyond there is no way.
//
// A way that keeps kit for no time at all at its end, when another batch may take that kit
// at the same moment, is one that the planner need not know.
//
// Where boxes stand on shelves the list may move other batches' boxes, which the plan
// keeps where they are: there the list may know more, and it is only asked whether it
// knows the two.
func TestEverySlipOfTinyKitchens(t *testing.T) {
	first, end := 0, *everyCount
	if *everyOne >= 0 {
		first, end = *everyOne, *everyOne+1
	}
	n := slipCounts{}
	for _, number := range slipNumbers(first, end) {
		e, _ := tinyKitchen(*everySeed, number)
		plan, err := planner.Plan(context.Background(), e.p, planner.Options{Budget: everyBudget})
		if err != nil {
			t.Fatalf("kitchen %d: %v", number, err)
		}
		e.slips(func(format string, args ...any) {
			t.Errorf("kitchen %d: %s\n%s\n%s", number, fmt.Sprintf(format, args...), drawn(e.p), outline(plan))
		}, plan, n)
	}
	t.Log(n)
	if n["exact"] >= 200 && !t.Failed() && (8*n["later"] < n["exact"] || 4*n["sooner"] < n["exact"] || 2*n["critical"] < n["exact"]) {
		t.Errorf("of %d stages compared exactly, want an eighth that can go later, a quarter sooner, and half critical: %v", n["exact"], n)
	}
}

// slipNumbers are the kitchens from first up to end, half as many planned again, and half as
// many with something overdue.
func slipNumbers(first, end int) []int {
	var out []int
	for i := first; i < end; i++ {
		out = append(out, i)
		if i%2 == 1 && *everyOne < 0 {
			out = append(out, againNumbers+i/2, lateNumbers+i/2)
		}
	}
	return out
}

// slips compares all stages of a plan.
func (e *everyPlan) slips(fail func(string, ...any), plan *schedule.Plan, n slipCounts) {
	ways := make([]*everyWay, 0, len(plan.Batches)+len(plan.Stock))
	for i := range plan.Batches {
		ways = append(ways, e.wayOf(&plan.Batches[i]))
	}
	for i := range plan.Stock {
		ways = append(ways, e.wayOfStock(&plan.Stock[i], len(e.under)+i))
	}
	if slices.Contains(ways, nil) {
		n["not carried on in time"]++
		return
	}
	for i := range plan.Batches {
		e.bench = newEveryBench(e.everyWorld)
		shelves := false
		for k, w := range ways {
			if k != i && !e.bench.put(w) {
				fail("the list knows the batches of the plan, but not together")
				return
			}
			shelves = shelves || len(w.stays) > 0
		}
		b := &plan.Batches[i]
		for k := range b.Stages {
			if t := &b.Stages[k]; !t.Begun {
				all, sure := e.starts(b, k, ways[i])
				e.slip(fail, b, k, all, append(sure, t.Start), shelves, n)
			}
		}
	}
}

// slip compares one stage with all starts that it can have, and with those that the
// planner must know.
func (e *everyPlan) slip(fail func(string, ...any), b *schedule.Batch, k int, starts, sure []resources.Moment, shelves bool, n slipCounts) {
	t := &b.Stages[k]
	what := func(at resources.Moment) string { return at.In(e.p.Kitchen.Zone).Format("2 Jan 15:04") }
	for _, at := range []resources.Moment{t.SlipFrom, t.SlipUntil} { // so neither goes too far
		if !slices.Contains(starts, at) {
			fail("%s %s cannot begin at %s", b.ID, t.Stage, what(at))
		}
	}
	if len(starts) == 0 || shelves || t.Work == 0 {
		n["only possible"]++
		return
	}
	n["exact"]++
	if t.Critical {
		n["critical"]++
	}
	if slices.Min(starts) != slices.Min(sure) || slices.Max(starts) != slices.Max(sure) {
		n["kit for no time"]++
	}
	if first := slices.Min(sure); t.SlipFrom > first {
		fail("%s %s: slip_from is %s, want %s", b.ID, t.Stage, what(t.SlipFrom), what(first))
	} else if t.SlipFrom < t.Start {
		n["sooner"]++
	}
	if last := slices.Max(sure); t.SlipUntil < last {
		fail("%s %s: slip_until is %s, want %s", b.ID, t.Stage, what(t.SlipUntil), what(last))
	} else if t.SlipUntil > t.Start {
		n["later"]++
	}
}

// starts lists when stage k of a batch can begin beside the ways that stand on the bench;
// sure are those with a way that keeps its kit for some time to the end.
func (e *everyPlan) starts(b *schedule.Batch, k int, is *everyWay) (all, sure []resources.Moment) {
	last := len(b.Stages) - 1
	for x := range e.kinds {
		kind := &e.kinds[x]
		if !e.isKindOf(kind, b) {
			continue
		}
		for n := range kind.ways {
			w := &kind.ways[n]
			if w.stuck || !e.sameBefore(e.p.Recipe(b.Cheese), w, is, k) || !e.noLater(w, is, kind, k) || !e.serves(w, b) || slices.Contains(sure, w.starts[k]) {
				continue
			}
			if e.bench.put(w) {
				e.bench.take(w)
				all = append(all, w.starts[k])
				if w.leaves() > w.starts[last] {
					sure = append(sure, w.starts[k])
				}
			}
		}
	}
	return all, sure
}

// noLater reports whether a way of a batch makes no hold late that is not, and none later than
// it is, and has the start of stage k where it is when the hold before that is late.
func (e *everyPlan) noLater(w, is *everyWay, kind *everyKind, k int) bool {
	if kind.slot < 0 {
		return true
	}
	l := e.begunLister(&e.under[kind.slot])
	for i := len(l.fixed) - 1; i+1 < len(is.starts); i++ {
		began, now := is.starts[i].Add(is.works[i]), w.starts[i].Add(w.works[i])
		_, allowed := l.limits(l.warm(l.r.Stages[i].Hold, began))
		_, most := l.limits(l.warm(l.r.Stages[i].Hold, now))
		hold, was := w.starts[i+1].Sub(now), is.starts[i+1].Sub(began)
		if late := was > allowed; hold > most && !(late && hold <= was) || i+1 == k && late && hold != was {
			return false
		}
	}
	return true
}

// isKindOf reports whether a batch of a plan is of a kind's recipe and size, or the same.
func (e *everyPlan) isKindOf(kind *everyKind, b *schedule.Batch) bool {
	if b.Begun {
		return kind.slot >= 0 && kind.slot < len(e.under) && e.under[kind.slot].ID == b.ID
	}
	return kind.slot < 0 && e.p.Recipes[kind.recipe].Name == b.Cheese && kind.litres == b.Litres
}

// sameBefore reports whether two ways are alike before stage k: its earlier stages, their
// people and places, the kit that was taken with them, and the milk.
func (e *everyPlan) sameBefore(r *schedule.Recipe, a, b *everyWay, k int) bool {
	if !slices.Equal(a.starts[:k], b.starts[:k]) || !slices.Equal(a.who[:k], b.who[:k]) || !slices.Equal(a.at[:k], b.at[:k]) {
		return false
	}
	if (a.draw == nil) != (b.draw == nil) || a.draw != nil && *a.draw != *b.draw {
		return false
	}
	pot := 0
	for _, run := range everyRuns(r) {
		if run.use.Kind != schedule.UsePot {
			continue
		}
		if run.first < k && a.pots[pot] != b.pots[pot] {
			return false
		}
		pot++
	}
	return true
}

// serves reports whether a way can give a batch's pieces to its wants, and leaves with
// the last of them.
func (e *everyPlan) serves(w *everyWay, b *schedule.Batch) bool {
	last := resources.Moment(0)
	for _, s := range b.For {
		last = max(last, s.By)
		for i := range e.wants {
			x := &e.wants[i]
			if e.p.Targets[x.target].Name == s.Target && x.by == s.By && x.place == s.Want && !x.open(b.Cheese, w.packed, e.p.Recipe(b.Cheese).Keeps) {
				return false
			}
		}
	}
	if len(b.For) == 0 {
		return !w.served()
	}
	return w.end == last
}

// wayOf finds the way that a batch of a plan is; nil when the list does not know it,
// which is what cannot be carried on in time.
func (e *everyPlan) wayOf(b *schedule.Batch) *everyWay {
	r := e.p.Recipe(b.Cheese)
	for x := range e.kinds {
		kind := &e.kinds[x]
		if !e.isKindOf(kind, b) {
			continue
		}
		for n := range kind.ways {
			if w := &kind.ways[n]; e.serves(w, b) && e.is(r, w, b) {
				return w
			}
		}
	}
	return nil
}

// is reports whether a way is a batch as planned.
func (e *everyPlan) is(r *schedule.Recipe, w *everyWay, b *schedule.Batch) bool {
	if len(w.starts) != len(b.Stages) || !b.Begun && (w.draw == nil) != (b.Milk == nil) || !b.Begun && w.draw != nil && *w.draw != *b.Milk {
		return false
	}
	for i := range b.Stages {
		t := &b.Stages[i]
		who := ""
		if w.who[i] >= 0 {
			who = e.p.Kitchen.People[w.who[i]].Name
		}
		if w.starts[i] != t.Start || who != t.Who || w.at[i] != t.At {
			return false
		}
	}
	pot := 0
	for _, run := range everyRuns(r) {
		if run.use.Kind != schedule.UsePot || run.first >= len(w.starts) {
			continue
		}
		name := w.pots[pot]
		if !slices.ContainsFunc(b.Stages[run.first].Uses, func(u schedule.Occupied) bool { return u.Thing == name }) {
			return false
		}
		pot++
	}
	return true
}

// wayOfStock finds the way that an entry of stock is.
func (e *everyPlan) wayOfStock(s *schedule.StockUse, slot int) *everyWay {
	for x := range e.kinds {
		for n := range e.kinds[x].ways {
			if w := &e.kinds[x].ways[n]; e.kinds[x].slot == slot && w.leaves() == s.Ends && w.served() == (len(s.For) > 0) {
				return w
			}
		}
	}
	return nil
}
