package planner_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// lateNumbers is the first number of a tiny kitchen in which something is overdue or stuck.
const lateNumbers = 1_000_000

// overdueKitchen draws the kitchen of such a number: the first of its dice that can be listed
// whole and in whose best plan a hold is past its most, or a batch is stuck. Those passed
// over are counted. In a third of these kitchens something new is made beside it.
func overdueKitchen(seed uint64, number int) (e *everyPlan, passed int) {
	d := &dice{Rand: rand.New(rand.NewPCG(seed, uint64(number))), tight: sides}
	more := (number-lateNumbers)/3%3 == 0
	for ; ; passed++ {
		p := d.overdueKitchen(number%2 == 0, more)
		if p == nil || notYet(p) {
			continue
		}
		settle(seed, number+passed, p, false)
		e, ok := listLate(p, -1)
		if !ok {
			continue
		}
		if _, ok := e.solve([sides]bool{}); ok && (!more || e.best.Batches > 0) && (e.best.stuck > 0 || e.isOverdue()) {
			return e, passed
		}
	}
}

// notYet reports whether something counts as begun, or as packed, that is still to come: no folder can
// say so.
func notYet(p *schedule.Problem) bool {
	if slices.ContainsFunc(p.Stock, func(s schedule.Stock) bool { return s.Packed > p.From }) {
		return true
	}
	return slices.ContainsFunc(p.Begun, func(b schedule.Begun) bool {
		return slices.ContainsFunc(b.Stages, func(s schedule.BegunStage) bool { return s.Start > p.From })
	})
}

// hardOverdue are kitchens with something under way that some planner, or the listing, went wrong on, by
// what they are drawn from: boxes of a stage without a hold that stood nowhere while it ran late, a running
// hold without a step of the grid within its limits, two whose proof went no further than nothing;
// one whose begun batch is in two cartons where a shelf takes one, which the listing left no
// time to go on; one whose holds go on so long that they cost more than they counted for; three with
// more boxes under way than there is room for; and one that holds a press no more, though it is left where
// it is.
var hardOverdue = [...]struct {
	seed   uint64
	number int
}{{7, 1000229}, {7, 1000349}, {7, 1000359}, {7, 1000651}, {firstSeed, 1005399}, {77, 3001335}, {102, 3000993}, {102, 4004974}, {102, 5004108}, {107, 3003495}}

func TestHardOverdueKitchens(t *testing.T) {
	n := &everyCounts{count: map[string]int{}, unlike: map[int]string{}}
	for _, x := range hardOverdue {
		e, _ := tinyKitchen(x.seed, x.number)
		n.kitchen(t, e, x.number)
	}
}

// isOverdue reports whether a hold is past its most in the best plan.
func (e *everyPlan) isOverdue() bool {
	for i, w := range e.ways {
		if slot := e.kinds[e.set[i]].slot; slot >= 0 && slot < len(e.under) && !w.stuck {
			l := e.begunLister(&e.under[slot])
			for k := len(l.fixed) - 1; k+1 < len(w.starts); k++ {
				_, most := l.limits(l.warm(l.r.Stages[k].Hold, w.starts[k].Add(w.works[k])))
				if w.starts[k+1].Sub(w.starts[k].Add(w.works[k])) > most {
					return true
				}
			}
		}
	}
	return false
}

// overdueKitchen makes the next kitchen in which something may be overdue: begun.yaml tells
// of it, or the earlier plan began it; there may be time for more. Nil where there is nothing
// under way.
func (d *dice) overdueKitchen(carried, more bool) *schedule.Problem {
	d.p = &schedule.Problem{}
	d.kitchen()
	for i := range d.n(1, 2) {
		d.p.Recipes = append(d.p.Recipes, d.recipe(i))
	}
	d.shelve()
	d.targets()
	if carried {
		if !d.planBefore() {
			return nil
		}
		if d.chance(50) {
			d.behind()
		}
	} else {
		d.overdue(1)
		if d.chance(30) {
			d.overdue(2)
		}
		if d.chance(10) {
			d.stock()
		}
	}
	d.mishaps(more)
	return d.p
}

// overdue draws a batch whose running hold should be over soon, or has been over for a
// little or for long.
func (d *dice) overdue(number int) {
	r, b, left := d.someBatch(number)
	running := d.n(0, len(r.Stages)-2)
	step := d.p.Kitchen.Step
	over := step * resources.Minutes(oneOf(d, d.n(-3, 0), d.n(1, 3), d.n(1, 3), d.n(4, 60)))
	s := &r.Stages[running]
	at := resources.CeilTo(d.p.From, step).Add(-workMinutes(s, b.Litres, left, step) - over)
	if s.Hold != nil {
		at = at.Add(-resources.FloorLength(s.Hold.Most, step))
	}
	if d.chance(25) {
		at = at.Add(-minutes(d.n(1, 29)))
	}
	d.walkBack(r, b, left, running, at)
}

// behind tells in begun.yaml that a batch is not as far as the earlier plan had it.
func (d *dice) behind() {
	e := newEveryWorld(d.p)
	u := oneOf(d, e.under...)
	if n := len(u.Stages); n > 1 {
		u.Begun.Stages = u.Begun.Stages[:d.n(1, n-1)]
	}
	d.p.Begun = append(d.p.Begun, u.Begun)
}

// mishaps are what goes wrong: people are away now and, so that all plans can be listed,
// from some day on for longer than anything is waited for; a place is closed; things are
// lost. Where there is to be time for more, fewer are away.
func (d *dice) mishaps(more bool) {
	k := &d.p.Kitchen
	away, closes := 50, d.p.From.Add(minutes(60*d.n(20, 72)))
	if more {
		away, closes = 25, d.p.From.Add(minutes(60*d.n(36, 84)))
	}
	if d.chance(away) {
		ill := resources.Span{From: d.p.From, Until: d.p.From.Add(minutes(60 * d.n(2, 30)))}
		for i := range k.People {
			if i == 0 || d.chance(70) {
				k.People[i].Away = append(k.People[i].Away, ill)
			}
		}
	}
	for i := range k.People {
		k.People[i].Away = append(k.People[i].Away, resources.Span{From: closes, Until: closes.Add(everyPatience + 40*resources.Day)})
	}
	for i := range k.Cold {
		c := &k.Cold[i]
		for s := range c.Shelves {
			c.Shelves[s].Taken = nil // what stands there would have to be carried away
		}
		if d.chance(25) {
			c.Taken = append(c.Taken, d.span(20))
		}
	}
	if d.chance(25) {
		d.lose()
	}
}

// lose takes some of what is counted away.
func (d *dice) lose() {
	k := &d.p.Kitchen
	switch d.n(0, 3) {
	case 0:
		k.Moulds[0].Count = d.n(1, k.Moulds[0].Count)
	case 1:
		s := &k.Stations[d.IntN(len(k.Stations))]
		s.Count = d.n(1, s.Count)
	case 2:
		b := &k.Boxes[d.IntN(len(k.Boxes))]
		b.Count = d.n(1, b.Count)
	case 3:
		if i := d.IntN(len(k.Pots)); !d.inHand(k.Pots[i].Name) {
			k.Pots = slices.Delete(slices.Clone(k.Pots), i, i+1)
		} else {
			k.Pots[i].Count = 1
		}
	}
}

// inHand reports whether a pot is asked for by name, is all there is, or may have something
// in it.
func (d *dice) inHand(pot string) bool {
	if len(d.p.Kitchen.Pots) == 1 {
		return true
	}
	for _, r := range d.p.Recipes {
		for _, s := range r.Stages {
			if slices.ContainsFunc(s.Uses, func(u schedule.Use) bool { return u.Kind == schedule.UsePot && u.Name == pot }) {
				return true
			}
		}
	}
	e := newEveryWorld(d.p)
	return slices.ContainsFunc(e.under, func(b everyBegun) bool {
		known := b.potOf(d.p, 0)
		return known == pot || known == ""
	})
}
