package planner_test

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// stackNumbers is the first number of a tiny kitchen in whose best plan boxes of several batches, or
// of stock, stand on one another.
const stackNumbers = 3_000_000

// stackedKitchen draws the kitchen of such a number: the first of its dice that can be listed whole
// and in whose best plan, as it is listed, a spot is shared. In turn they are like any other, planned
// again, and with something overdue. Those passed over are counted.
func stackedKitchen(seed uint64, number int) (e *everyPlan, passed int) {
	d := &dice{Rand: rand.New(rand.NewPCG(seed, uint64(number))), tight: sides, shelves: true}
	most := int64(0)
	for ; ; passed++ {
		switch number / 6 % 3 {
		case 0:
			d.draw()
		case 1:
			if d.draw(); !d.planBefore() {
				continue
			}
		default:
			if most = -1; d.overdueKitchen(number%2 == 0, true) == nil || notYet(d.p) {
				continue
			}
		}
		e, ok := listLate(d.p, most)
		if !ok || !e.standsNow() {
			continue
		}
		if _, ok := e.solve([sides]bool{}); !ok || !e.sharesSpots() || most < 0 && e.best.stuck == 0 && !e.isOverdue() {
			continue
		}
		return e, passed
	}
}

// shelve has cheese stand in boxes, in the cold, on few shelves: in kitchens of which that is asked.
func (d *dice) shelve() {
	if !d.shelves {
		return
	}
	k := &d.p.Kitchen
	for i := range k.Cold {
		k.Cold[i].Boxes, k.Cold[i].Shelves = 0, nil
		for n := range oneOf(d, 1, 1, 2) {
			k.Cold[i].Shelves = append(k.Cold[i].Shelves, resources.Shelf{Name: fmt.Sprintf("shelf %d", n+1),
				Size: sized(oneOf(d, 30, 30, 40, 50), oneOf(d, 20, 20, 30), oneOf(d, 20, 20, 30, 35)), Taken: d.spans(10)})
		}
	}
	for i := range k.Boxes {
		k.Boxes[i].Count += 2
		k.Boxes[i].Stack = oneOf(d, resources.StackKind, resources.StackKind, resources.StackKind, resources.StackKind, resources.StackBatch, resources.StackNo)
	}
	for r := range d.p.Recipes {
		stages := d.p.Recipes[r].Stages
		for i := range stages {
			s := &stages[i]
			switch {
			case i > 0 && s.Hands == nil && stages[i-1].Hold != nil && stages[i-1].Hold.Most > 0:
				s.At = stages[i-1].At
			case usesKind(s, schedule.UseBox) && s.At == inTheRoom && d.chance(70):
				s.At = schedule.At{Kind: schedule.AtPlace, Place: oneOf(d, k.Cold...).Name}
			}
		}
	}
}

// standsNow reports whether all that stands in the cold at the planning start goes together: which of
// it stands nowhere where it does not is open, and the listing knows of each alone.
func (e *everyPlan) standsNow() bool {
	var now []everyStay
	for slot := range e.slots {
		at := slices.IndexFunc(e.kinds, func(k everyKind) bool { return k.slot == slot })
		if at < 0 {
			continue
		}
		for _, s := range e.kinds[at].ways[0].stays {
			if !s.planned {
				s.from, s.until, s.open = e.from, e.from+1, 1<<len(e.p.Kitchen.Cold[s.place].Shelves)-1
				now = append(now, s)
			}
		}
	}
	return newEveryShelf(&e.p.Kitchen).stand(now)
}

// sharesSpots reports whether boxes of two stays of the plan are in one spot at a moment.
func (e *everyPlan) sharesSpots() bool {
	for at := range e.p.Kitchen.Cold {
		var all []everyStay
		for _, w := range e.ways {
			for _, s := range w.stays {
				if s.place == at {
					all = append(all, s)
				}
			}
		}
		piles, _ := e.bench.shelf.piles(all, at)
		for i, p := range piles {
			for _, o := range piles[:i] {
				if o.stay != p.stay && o.shelf == p.shelf && o.square(p) && meets(all[o.stay], all[p.stay]) {
					return true
				}
			}
		}
	}
	return false
}

// stacksMatter reports whether no plan is as good where boxes stand on those of their own batch alone.
func (e *everyPlan) stacksMatter(best everyScore) bool {
	p := *e.p
	p.Kitchen.Boxes = append([]resources.Box(nil), p.Kitchen.Boxes...)
	for i := range p.Kitchen.Boxes {
		if b := &p.Kitchen.Boxes[i]; b.Stack == resources.StackKind {
			b.Stack = resources.StackBatch
		}
	}
	o, ok := listLate(&p, e.most)
	if !ok {
		return false
	}
	s, ok := o.solve([sides]bool{})
	return ok && best.compare(s) < 0
}
