package planner_test

import (
	"math/rand/v2"
	"testing"

	"ripeby/schedule/judge"
	"ripeby/schedule/testrun"
)

// The judge takes every plan of the list, with the score that the list gives it: the best
// plans of kitchens in which something is overdue or stuck, and others beside them. Of a
// batch that is left where it is the judge may say that it could go on only where there is
// a plan that leaves fewer.
func TestTheJudgeAgreesOnLateKitchens(t *testing.T) {
	count := map[string]int{}
	for i := range testrun.Rounds(24, 200) {
		e, passed := tinyKitchen(*everySeed, lateNumbers+i)
		count["passed over"] += passed
		count["kitchens"]++
		count["stuck"] += e.best.stuck
		best := e.best
		d := &dice{Rand: rand.New(rand.NewPCG(5, uint64(i)))}
		for n := range 20 {
			if n > 0 && !e.another(d) {
				continue
			}
			plan := e.plan()
			count["plans"]++
			if plan.Score.Late > 0 {
				count["late"]++
			}
			if e.best.stuck > 0 {
				count["plans with something stuck"]++
			}
			for _, v := range judge.Check(e.p, plan) {
				if v.Rule == "stuck-unfounded" && e.best.stuck > best.stuck {
					count["unfounded"]++
					continue
				}
				t.Errorf("kitchen %d, plan %d: %v\n%s\n%s", lateNumbers+i, n, v, drawn(e.p), outline(plan))
			}
		}
	}
	t.Log(count)
	if n := count["kitchens"]; count["plans"] < 5*n || 2*count["late"] < count["plans"] || count["unfounded"] == 0 || 20*count["stuck"] < n {
		t.Errorf("got %v: too few to mean much", count)
	}
}

// another takes some plan of the list in place of the best: some way of each kind that goes
// together, with a new batch or none. False where the ways drawn do not go together.
func (e *everyPlan) another(d *dice) bool {
	e.set, e.ways, e.as, e.bench = nil, nil, nil, newEveryBench(e.everyWorld)
	take := func(of func(k *everyKind) bool) bool {
		var fit []int
		for k := range e.kinds {
			if of(&e.kinds[k]) {
				fit = append(fit, k)
			}
		}
		if len(fit) == 0 {
			return false
		}
		k := oneOf(d, fit...)
		w := &e.kinds[k].ways[d.IntN(len(e.kinds[k].ways))]
		e.set, e.ways = append(e.set, k), append(e.ways, w)
		return e.bench.put(w)
	}
	for slot := range e.slots {
		leave := d.chance(10)
		if !take(func(k *everyKind) bool { return k.slot == slot && (k.stuck > 0) == leave }) {
			return false
		}
	}
	if d.chance(40) && !take(func(k *everyKind) bool { return k.slot < 0 }) {
		return false
	}
	shares := shareOut(e.wants, e.givers(e.set))
	if shares == nil {
		return false
	}
	e.best = e.beforeBother(e.set, shares)
	e.best.Litres = e.litresOf(e.set)
	e.used = make([]bool, len(e.told.may))
	for i, w := range e.ways {
		var may []int
		var counts []everyUnrest
		e.ids(&e.kinds[e.set[i]], w, func(of int, u everyUnrest) { may, counts = append(may, of), append(counts, u) })
		x := d.IntN(len(may))
		if may[x] >= 0 {
			e.used[may[x]] = true
		}
		e.as = append(e.as, may[x])
		e.best.Moved += counts[x].moved
		e.best.Bother += w.bother + counts[x].bother
		e.best.MakeStarts += w.begins
	}
	u := e.unkept()
	e.best.Moved, e.best.Bother = e.best.Moved+u.moved, e.best.Bother+u.bother
	return true
}
