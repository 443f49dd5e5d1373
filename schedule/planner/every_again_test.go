package planner_test

import (
	"math/rand/v2"

	"ripeby/resources"
)

// againNumbers is the first number of a tiny kitchen that is planned again: an earlier plan
// has begun something, and all goes as it was planned; with every second of them something else is
// changed, so that something must be moved.
const againNumbers = 2_000_000

// againKitchen draws the kitchen of such a number: the first of its dice that can be listed
// whole, what has begun being carried on in time, and in which kit is fought over where its
// sort says so. Those passed over are counted.
func againKitchen(seed uint64, number int) (e *everyPlan, passed int) {
	d := &dice{Rand: rand.New(rand.NewPCG(seed, uint64(number))), tight: sorts[number%len(sorts)].fought}
	change := number/6%2 == 0
	for ; ; passed++ {
		d.draw()
		if !d.planBefore() {
			continue
		}
		settle(seed, number+passed, d.p, change)
		if e, ok := listKinds(d.p); ok {
			best, ok := e.solve([sides]bool{})
			if !ok || change && best.Moved == 0 || !change && d.tight == sideKit && !e.foughtOver(best, [sides]bool{sideKit: true}) {
				continue
			}
			e.solve([sides]bool{})
			return e, passed
		}
	}
}

// planBefore lists all plans of the kitchen and takes the best of them as the earlier plan;
// some of it has happened since, and targets have left. False where that has no batch, or cannot be listed.
func (d *dice) planBefore() bool {
	e, ok := listKinds(d.p)
	if !ok {
		return false
	}
	if best, ok := e.solve([sides]bool{}); !ok || best.Batches == 0 {
		return false
	}
	earlier := e.plan()
	for i := range earlier.Batches {
		for k := range earlier.Batches[i].Stages {
			earlier.Batches[i].Stages[k].BoxesAt = nil // so nothing must stand where it stood
		}
	}
	b := oneOf(d, earlier.Batches...)
	now := *d.p
	now.Earlier, now.Begun = earlier, nil // the plan knows of what was under way
	now.From = b.Stages[d.n(0, len(b.Stages)-1)].Start.Add(d.p.Kitchen.Step * resources.Minutes(d.n(1, 6)))
	if d.chance(15) {
		now.From = now.From.Add(minutes(d.n(1, 29)))
	}
	now.Targets = nil
	for _, t := range d.p.Targets {
		if t.By >= now.From {
			now.Targets = append(now.Targets, t)
		}
	}
	d.p = &now
	return len(now.Targets) > 0 && len(newEveryWorld(d.p).under) > 0
}
