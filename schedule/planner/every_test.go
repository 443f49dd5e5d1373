package planner_test

import (
	"context"
	"flag"
	"fmt"
	"runtime"
	"sync"
	"testing"

	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
	"ripeby/schedule/testrun"
)

// firstSeed is what the kitchens are drawn from unless another is asked for.
const firstSeed = 20270328

var (
	everyCount = flag.Int("kitchens", testrun.Rounds(2*len(sorts), 200), "how many tiny kitchens are listed whole")
	everySeed  = flag.Uint64("kitchens.seed", firstSeed, "what the tiny kitchens are drawn from")
	everyOne   = flag.Int("kitchens.one", -1, "the number of the only tiny kitchen to look at")
	everySaid  = flag.Bool("kitchens.said", false, "look at so many tiny kitchens in which something was said, and at no others")
	everyShut  = flag.Bool("kitchens.closed", false, "look at so many tiny kitchens in which something stands where it is closed, and at no others")
	everyLate  = flag.Bool("kitchens.overdue", false, "look at so many tiny kitchens in which something is overdue or stuck, and at no others")
)

// requireBest says that every plan of a tiny kitchen must be the best one, and proved.
const requireBest = true

// everyBudget is the planner's work for one tiny kitchen.
const everyBudget = 1_000_000

// everyMore is how many times as much it has where that is not enough for the proof, as of one in some thousands.
const everyMore = 30

// hardKitchens are numbers of the first seed for which some planner did not give the
// best plan, or said wrongly that there was none better: the first of them in each part
// of the score, for each number of batches; and those that a proof went wrong on.
var hardKitchens = [...]int{297, 353, 419, 489, 517, 628, 685, 750, 781, 1303, 1414, 1643, 1916, 1917, 1996, 2117, 3126, 3246, 4150, 4226, 4335, 5166, 5523, 5665, 5963, 6123, 6339, 6635, 8229, 8898, 9092}

// everyNumbers lists the kitchens from first up to end, a third of them planned again, half of these
// with something said since, a third with something overdue or stuck and a sixth with stacks that
// batches share, and the hard ones;
// for every fifth one more in which something stands where it is closed.
func everyNumbers(first, end int) []int {
	var out []int
	for i := first; i < end; i++ {
		if *everyShut {
			out = append(out, closedNumbers+5*i)
			continue
		}
		if *everyOne < 0 && !*everyLate && !*everyWarm && i%5 == 4 {
			out = append(out, closedNumbers+i)
		}
		switch {
		case *everyWarm:
			out = append(out, warmNumbers+i)
		case *everyOne >= 0:
			out = append(out, i)
		case *everySaid:
			out = append(out, saidNumbers+6*i)
		case *everyLate || i%3 == 2:
			out = append(out, lateNumbers+i)
		case i%6 == 4:
			out = append(out, saidNumbers+i)
		case i%3 == 1:
			out = append(out, againNumbers+i)
		case i%6 == 3:
			out = append(out, stackNumbers+i)
		default:
			out = append(out, i)
		}
	}
	for _, i := range hardKitchens {
		if *everyOne < 0 && !*everyLate && !*everySaid && !*everyShut && !*everyWarm && *everySeed == firstSeed && (i >= end || i%6 != 0) {
			out = append(out, i)
		}
	}
	return out
}

// sorts are what the kitchens must be like, in turn, so that there is enough of each:
// something is fought over, or (sides) nothing need be.
var sorts = [...]struct {
	fought     side
	made, full bool // something is made; and nothing is short
}{
	{fought: sides}, {fought: sideKit, made: true}, {fought: sides, made: true, full: true}, {fought: sideKit, made: true},
	{fought: sideCold, made: true}, {fought: sideKit, made: true}, {fought: sides, made: true}, {fought: sideWork, made: true},
	{fought: sides}, {fought: sideKit, made: true}, {fought: sides, made: true, full: true}, {fought: sideKit, made: true},
	{fought: sideMilk, made: true}, {fought: sideKit, made: true}, {fought: sides, made: true}, {fought: sideCold, made: true},
}

// tinyKitchen draws the kitchen of a number: the first of its dice that can be listed
// whole and is of the number's sort. Those passed over are counted.
func tinyKitchen(seed uint64, number int) (e *everyPlan, passed int) {
	if e, passed, ok := drawnAgain(seed, number); ok {
		return e, passed
	}
	switch {
	case number >= warmNumbers:
		return warmKitchen(seed, number)
	case number >= saidNumbers:
		return saidKitchen(seed, number)
	case number >= closedNumbers:
		return closedKitchen(seed, number)
	case number >= stackNumbers:
		return stackedKitchen(seed, number)
	case number >= againNumbers:
		return againKitchen(seed, number)
	case number >= lateNumbers:
		return overdueKitchen(seed, number)
	}
	sort := sorts[number%len(sorts)]
	for d := diceOf(seed, number); ; passed++ {
		e, ok := listKinds(d.draw())
		if !ok {
			continue
		}
		best, ok := e.solve([sides]bool{})
		if !ok || sort.made && best.Batches == 0 || sort.full && best.PromisedShort+best.Short > 0 {
			continue
		}
		if sort.fought != sides {
			only := [sides]bool{}
			only[sort.fought] = true
			if !e.foughtOver(best, only) {
				continue
			}
		}
		e.solve([sides]bool{})
		drawnOnce.Store(drawnKey{seed, number}, drawnHow{passed, e.work})
		return e, passed
	}
}

// foughtOver reports whether the best plan would be better if batches did not take
// certain things from one another. Then no plan can be worse.
func (e *everyPlan) foughtOver(best everyScore, what [sides]bool) bool {
	e.goal = &best
	s, ok := e.solve(what)
	e.goal = nil
	if ok && s.compare(best) > 0 {
		panic(fmt.Sprintf("got %+v where less is in the way, %+v before", s, best))
	}
	return ok && s.compare(best) < 0
}

// The judge, a list of all plans and the planner agree about tiny kitchens, score part
// by score part.
func TestEveryPlanOfTinyKitchens(t *testing.T) {
	first, end := 0, *everyCount
	if *everyOne >= 0 {
		first, end = *everyOne, *everyOne+1
	}
	numbers := everyNumbers(first, end)
	var wait sync.WaitGroup
	parts := make([]*everyCounts, runtime.GOMAXPROCS(0))
	for w := range parts {
		part := &everyCounts{count: map[string]int{}, unlike: map[int]string{}}
		parts[w] = part
		wait.Go(func() {
			for i := w; i < len(numbers); i += len(parts) {
				e, passed := tinyKitchen(*everySeed, numbers[i])
				part.passed += passed
				part.kitchen(t, e, numbers[i])
			}
		})
	}
	wait.Wait()
	n := parts[0]
	for _, part := range parts[1:] {
		n.add(part)
	}
	t.Log(n)
	if *everyLate || *everySaid || *everyShut || *everyWarm || *everyOne >= 0 {
		return // all of one sort
	}
	all := n.all - n.count["of closed places"]
	if n.all >= 100 && (3*n.count["short"] < n.all || 4*n.count["kit fought over"] < all) {
		t.Errorf("got %d short and %d with kit fought over of %d, want a third and a quarter", n.count["short"], n.count["kit fought over"], n.all)
	}
	few := func(what string, part int) bool { return part*n.count[what] < all }
	hard := len(numbers) - (end - first) - n.count["of closed places"]
	if n.all >= 100 && (3*(n.count["overdue or stuck"]+hard) < all-2 || few("late", 5) || few("stuck", 40) || few("moved", 7) || few("carried", 4) ||
		few("overdue and kit fought over", 100) || 20*n.count["in a shared stack"] < 3*all || few("said", 8) || few("late and moved, in a shared stack", 34) || few("late, in a shared stack", 30) || few("better for shared stacks", 40)) {
		t.Errorf("want a third with something overdue or stuck, a fifth late, a fortieth stuck, a quarter carried over, a seventh with something moved, an eighth with something said, stacks that batches share in 15 %%, all three in 3 %%:\n%v", n)
	}
}

// kitchen compares one kitchen's plan with the best of all.
func (n *everyCounts) kitchen(t *testing.T, e *everyPlan, number int) {
	best := e.best
	listed := e.plan()
	plan, err := planner.Plan(context.Background(), e.p, planner.Options{Budget: everyBudget})
	if err == nil && !plan.Proof.Best {
		n.note("with more work", true)
		plan, err = planner.Plan(context.Background(), e.p, planner.Options{Budget: everyBudget * everyMore})
	}
	show := func() string {
		return fmt.Sprintf("%s\nbest of all:\n%s\nplanner's:\n%s", drawn(e.p), outline(listed), outline(plan))
	}
	fail := func(format string, args ...any) {
		t.Errorf("kitchen %d: %s\n%s", number, fmt.Sprintf(format, args...), show())
	}
	if err != nil {
		t.Errorf("kitchen %d: %v\n%s", number, err, drawn(e.p))
		return
	}
	n.mustHold(fail, e.p, listed, "best listed")
	n.like(e)
	n.note("of closed places", number >= closedNumbers)
	n.fights(e, best)
	if *everyOne >= 0 {
		t.Logf("\n%s", show())
	}
	n.mustHold(fail, e.p, plan, "planner's")
	n.compare(fail, number, e.p, plan, best)
}

// mustHold hears the judge on a plan, its score included.
func (n *everyCounts) mustHold(fail func(string, ...any), p *schedule.Problem, plan *schedule.Plan, whose string) {
	for _, v := range judge.Check(p, plan) {
		fail("the judge of the %s plan: %v", whose, v)
	}
}

// compare holds the plan's score, and what is proved of it, to the best. Up to the
// first part in which they differ, the bound has the best's earlier parts.
func (n *everyCounts) compare(fail func(string, ...any), number int, p *schedule.Problem, plan *schedule.Plan, least everyScore) {
	best := inTenths(least.Score)
	c := counted(p, plan).compare(least)
	n.note("proved best", plan.Proof.Best)
	n.note("equal in all parts", c == 0)
	if c != 0 {
		n.unlike[number] = fmt.Sprintf("%v, best %v", parts(plan.Score), parts(best))
	} else if !plan.Proof.Best {
		n.unproved = append(n.unproved, number)
	}
	if c < 0 {
		fail("the plan's %+v is better than the best of all listed plans, %+v", plan.Score, best)
		return
	}
	got, bound, want := parts(plan.Score), parts(plan.Proof.Bound), parts(best)
	for i := range got {
		if bound[i] > want[i] {
			fail("the bound %+v is above the best %+v in part %d; the score is %+v", plan.Proof.Bound, best, i+1, plan.Score)
			break
		}
		if got[i] != want[i] {
			n.differ[i]++
			break
		}
	}
	if requireBest && (c != 0 || !plan.Proof.Best) {
		fail("got %+v proved up to %s, want the best, %+v, and the proof", plan.Score, plan.Proof.Level, best)
	}
}

// stuckIn is how many batches a plan leaves where they are.
func stuckIn(plan *schedule.Plan) int {
	n := 0
	for _, b := range plan.Batches {
		if plan.Warned("begun-stuck", b.ID) {
			n++
		}
	}
	return n
}
