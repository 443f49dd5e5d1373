package planner_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/testrun"
)

// littleWork are budgets far below what a plan takes: what is in force must not be lost for
// want of work.
func littleWork() []int64 { return []int64{1, 1000, 10_000, 100_000} }

// Planned again with little work, a kitchen gets nothing worse than the plan in force; and
// where the plan is no better, it is that plan, by everybody's hand and on every spot.
func TestNothingWorseThanThePlanInForce(t *testing.T) {
	testrun.Checks(t, testrun.Rounds(20, 150))
	rapid.Check(t, func(t *rapid.T) {
		p := kitchens().Draw(t, "kitchen")
		plan, _ := written(t, p, planFor(t, p, smallBudget))
		same := *p
		same.Earlier = plan
		next := planFor(t, &same, rapid.SampledFrom(littleWork()).Draw(t, "work"))
		mustHold(t, &same, next)
		if next.Score.Compare(plan.Score) > 0 {
			t.Errorf("got %+v, want no worse than %+v, which is in force", next.Score, plan.Score)
		}
		if next.Score == plan.Score {
			mustBe(t, next, plan)
		}
		from := p.From.Add(minutes(rapid.IntRange(1, 10*24*60).Draw(t, "moved on")))
		moved := later(p, plan, from)
		moved.Ordered = orderedFor(p, plan)
		next = planFor(t, moved, rapid.SampledFrom(littleWork()).Draw(t, "work later"))
		mustHold(t, moved, next)
		if got, want := told(next.Score), leftOf(plan, from); slices.Compare(got[:], want[:]) > 0 {
			t.Errorf("from %d on: got promised short, short, batches and millilitres %v, want no worse than %v, which was in force", from, got, want)
		}
	})
}

// orderedFor is the milk that a plan draws, as far as it is ordered: all of it.
func orderedFor(p *schedule.Problem, plan *schedule.Plan) (out []schedule.Ordered) {
	for _, b := range plan.Batches {
		if b.Milk == nil {
			continue
		}
		day := b.Milk.Collect.DateIn(p.Kitchen.Zone)
		i := slices.IndexFunc(out, func(o schedule.Ordered) bool { return o.Milk == b.Milk.Supply && o.Day == day })
		if i < 0 {
			i, out = len(out), append(out, schedule.Ordered{Milk: b.Milk.Supply, Day: day})
		}
		out[i].Litres += b.Litres
	}
	return out
}

// told are the parts of a score up to its litres.
func told(s schedule.Score) [4]int64 {
	return [4]int64{int64(s.PromisedShort), int64(s.Short), int64(s.Batches), int64(s.Litres)}
}

// leftOf are those parts of what a plan has left from a later moment on.
func leftOf(plan *schedule.Plan, from resources.Moment) (out [4]int64) {
	for _, w := range plan.Targets {
		switch worth := int64(w.Price) * int64(w.Short); {
		case w.By < from:
		case w.Promised:
			out[0] += worth
		default:
			out[1] += worth
		}
	}
	for _, b := range plan.Batches {
		if !b.Begun && len(b.Stages) > 0 && b.Stages[0].Start >= from {
			out[2]++
			out[3] += int64(b.Litres)
		}
	}
	return out
}

// mustBe fails where one plan has other batches, times, people, kit, places or spots than
// another.
func mustBe(t interface {
	Helper()
	Errorf(string, ...any)
}, got, want *schedule.Plan) {
	t.Helper()
	if len(got.Batches) != len(want.Batches) {
		t.Errorf("got %d batches, want %d", len(got.Batches), len(want.Batches))
		return
	}
	for i := range got.Batches {
		a, b := &got.Batches[i], &want.Batches[i]
		if a.ID != b.ID || a.Litres != b.Litres || len(a.Stages) != len(b.Stages) {
			t.Errorf("got batch %s of %d mL, want %s of %d mL", a.ID, a.Litres, b.ID, b.Litres)
			continue
		}
		for k := range a.Stages {
			x, y := &a.Stages[k], &b.Stages[k]
			if x.Start != y.Start || x.Ends != y.Ends || x.Who != y.Who || x.At != y.At || !slices.EqualFunc(x.Uses, y.Uses, sameKit) || !slices.Equal(x.BoxesAt, y.BoxesAt) {
				t.Errorf("%s %s: got %d to %d by %q at %s with %v, boxes %v; want %d to %d by %q at %s with %v, boxes %v", a.ID, x.Stage,
					x.Start, x.Ends, x.Who, x.At, x.Uses, x.BoxesAt, y.Start, y.Ends, y.Who, y.At, y.Uses, y.BoxesAt)
			}
		}
	}
}

// sameKit leaves out cleaning: of kit that a batch under way has and the kitchen has not, only
// the second plan knows a name.
func sameKit(a, b schedule.Occupied) bool {
	return a.Thing == b.Thing && a.Count == b.Count && a.From == b.From && a.Until == b.Until
}
