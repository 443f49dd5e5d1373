package planner_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/testrun"
)

// everyMilk is how many of the tiny kitchens are looked at in which milk is tight and comes
// without an order, or came as it came, or counts as ordered because the plan before drew it.
var everyMilk = flag.Int("kitchens.milk", testrun.Rounds(48, 400), "how many tiny kitchens with milk that stands, came or is taken as ordered")

// milkKitchen draws such a kitchen: the first of its dice that can be listed whole. Of four
// one is planned again when something has begun and one when it is too late to order what the
// plan before counts on; in a third of these a batch is lost.
func milkKitchen(seed uint64, number int) (e *everyPlan, passed int) {
	d := &dice{Rand: rand.New(rand.NewPCG(seed, 1<<32|uint64(number))), tight: sideMilk}
	for ; ; passed++ {
		d.draw()
		d.standing()
		if number%4 == 1 && !d.planBefore() || number%4 == 3 && !d.orderedBefore() {
			continue
		}
		if d.p.Earlier != nil && d.chance(33) {
			d.p.Lost = []string{oneOf(d, d.p.Earlier.Batches...).ID}
		}
		d.came()
		if e, ok := listKinds(d.p); ok {
			if best, ok := e.solve([sides]bool{}); ok && best.Batches > 0 {
				e.solve([sides]bool{})
				return e, passed
			}
		}
	}
}

// orderedBefore takes the best plan of all as the plan before; by now it is too late to order
// the milk of a batch of it that has not begun. False where it has none, or cannot be listed.
func (d *dice) orderedBefore() bool {
	e, ok := listKinds(d.p)
	if !ok {
		return false
	}
	if best, ok := e.solve([sides]bool{}); !ok || best.Batches == 0 {
		return false
	}
	now, earlier := *d.p, e.plan()
	b := earlier.Batches[len(earlier.Batches)-1]
	if b.Begun || b.Milk == nil {
		return false
	}
	due := max(now.From, b.Milk.Collect.Add(-now.Kitchen.Milk[0].Order))
	room := int(b.Stages[0].Start.Sub(due))
	if room < 1 {
		return false
	}
	now.Earlier, now.From = earlier, due.Add(minutes(d.n(1, room)))
	now.Begun, now.Ordered = nil, nil // the plan knows of what was under way
	d.p = &now
	return !slices.ContainsFunc(now.Targets, func(t schedule.Target) bool { return t.By < now.From })
}

// standing has milk come without an order, which is to be made a while ahead.
func (d *dice) standing() {
	m := &d.p.Kitchen.Milk[0]
	m.Order = minutes(60 * oneOf(d, 0, 6, 24, 48))
	if d.chance(60) {
		m.Standing = litres(d.n(1, 3))
		if m.Most != resources.NoLimit {
			m.Standing = min(m.Standing, m.Most)
		}
	}
	if d.chance(60) {
		d.ordered()
	}
}

// came has it said how much came of one or two collections: more or less, or none.
func (d *dice) came() {
	m := &d.p.Kitchen.Milk[0]
	d.p.Came = nil
	list := m.Collections(resources.Span{From: d.p.From.Add(-m.Keeps), Until: d.p.From.Add(resources.Day)}, d.p.Kitchen.Zone)
	for range oneOf(d, 0, 0, 1, 1, 2) {
		if len(list) > 0 && d.chance(60) {
			day := list[d.IntN(len(list))].Day
			d.p.Came = append(slices.DeleteFunc(d.p.Came, func(c schedule.Came) bool { return c.Day == day }), schedule.Came{Milk: m.Name, Day: day, Litres: litres(d.n(0, 4))})
		}
	}
}

// The judge, a list of all plans and the planner agree about milk that stands, that came,
// or that is taken as ordered.
func TestEveryPlanWithMilkThatIsTold(t *testing.T) {
	n := &everyCounts{count: map[string]int{}, unlike: map[int]string{}}
	used := map[string]int{}
	for i := range *everyMilk {
		e, passed := milkKitchen(*everySeed, i)
		n.passed += passed
		n.kitchen(t, e, i)
		how := map[string]bool{}
		for _, b := range e.plan().Batches {
			if !b.Begun && b.Milk != nil {
				how[e.known(b.Milk)] = true
			}
		}
		for what := range how {
			used[what]++
		}
		if e.p.Lost != nil {
			used["something lost"]++
		}
	}
	t.Logf("%v\n  drawn on: %v", n, used)
	for what, part := range map[string]int{"came": 12, "standing": 8, "ordered": 30, "assumed": 20, "something lost": 10} {
		if n.all >= 40 && part*used[what] < n.all {
			t.Errorf("got %d of %d kitchens with milk drawn that is %s, want one of %d", used[what], n.all, what, part)
		}
	}
}

// known says why a collection can be drawn on.
func (e *everyWorld) known(d *schedule.Draw) string {
	m := &e.p.Kitchen.Milk[0]
	for _, c := range e.milk[d.Supply] {
		if c.Ready != d.Collect {
			continue
		}
		_, came := said(e.p.Came, func(o schedule.Came) bool { return o.Day == c.Day })
		ordered, told := said(e.p.Ordered, func(o schedule.Ordered) bool { return o.Day == c.Day })
		switch {
		case came:
			return "came"
		case c.OrderBy >= e.from && c.Ready >= e.from:
			return "to be ordered"
		case told && ordered > int64(m.Standing):
			return "ordered"
		case e.things[c.thing].limit > int64(m.Standing):
			return "assumed"
		}
		return "standing"
	}
	return fmt.Sprintf("no collection at %d", d.Collect)
}
