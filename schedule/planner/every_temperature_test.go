package planner_test

import (
	"context"
	"flag"
	"fmt"
	"math/big"
	"math/rand/v2"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
	"ripeby/schedule/testrun"
)

// warmNumbers is the first number of a tiny kitchen whose room grows warmer or cooler, and in which some
// holds go by that.
const warmNumbers = 6_000_000

var everyWarm = flag.Bool("kitchens.warm", false, "look at so many tiny kitchens in which holds go by the room, and at no others")

// warmKitchen draws the kitchen of such a number: the first of its dice that can be listed whole, and in
// whose best plan a hold goes by the room: a third of them as any other, a third planned again, and in a
// third something is overdue or stuck. Those passed over are counted.
func warmKitchen(seed uint64, number int) (e *everyPlan, passed int) {
	d := &dice{Rand: rand.New(rand.NewPCG(seed, uint64(number))), tight: sides, warm: true}
	for ; ; passed++ {
		p, late := (*schedule.Problem)(nil), int64(0)
		switch number % 3 {
		case 0:
			p = d.draw()
		case 1:
			if d.draw(); !d.planBefore() {
				continue
			}
			settle(seed, number+passed, d.p, number%2 == 0)
			p = d.p
		default:
			if p = d.overdueKitchen(number%2 == 0, number/3%3 == 0); p == nil || notYet(p) {
				continue
			}
			settle(seed, number+passed, p, false)
			late = -1
		}
		if e, ok := listLate(p, late); ok {
			if _, ok := e.solve([sides]bool{}); ok && e.byRoom() > 0 && (late == 0 || e.best.stuck > 0 || e.isOverdue()) {
				return e, passed
			}
		}
	}
}

// warms gives the kitchen a room that is another on some days soon after the planning start.
func (d *dice) warms() {
	k := &d.p.Kitchen
	day := d.p.From.DateIn(k.Zone).AddDays(-1)
	is := func() resources.MilliCelsius {
		return oneOf[resources.MilliCelsius](d, 14_000, 15_000, 17_500, 19_000, 20_000, 21_000, 22_500, 24_000, 30_000, 31_000)
	}
	for range oneOf(d, 1, 2, 2, 3, 3, 4) {
		k.Rooms = append(k.Rooms, resources.RoomFrom{From: day, Is: is()})
		day = day.AddDays(d.n(1, 2))
	}
	k.Room = k.Rooms[0].Is
}

// goesBy has holds of a recipe go by the room, but for the last, those in the cold, and those that come by
// themselves after another; each has some length on the grid in every room.
func (d *dice) goesBy(r *schedule.Recipe) {
	for i := range len(r.Stages) - 1 {
		s := &r.Stages[i]
		if s.Hold == nil || s.At.Kind != schedule.AtRoom || i > 0 && s.Hands == nil && r.Stages[i-1].Hold != nil && r.Stages[i-1].Hold.Most > 0 || d.chance(20) {
			continue
		}
		h := *s.Hold
		h.GoesBy = schedule.GoesBy{Temperature: oneOf[resources.MilliCelsius](d, 18_000, 20_000, 21_000, 22_000), Times: oneOf[resources.Factor](d, 1000, 1000, 850, 1180)}
		h.Most += d.p.Kitchen.Step * resources.Minutes(d.n(0, 2))
		fits := func(x *schedule.Hold) bool {
			step := d.p.Kitchen.Step
			return resources.FloorLength(x.Most, step) >= max(step, resources.CeilLength(x.Least, step))
		}
		all := fits(&h)
		for _, is := range d.p.Kitchen.Rooms {
			all = all && fits(everyIn(&h, is.Is))
		}
		if all {
			s.Hold = &h
		}
	}
}

// everyIn is a hold in a room, each length counted up to the minute that is nearest, the later of two.
func everyIn(h *schedule.Hold, room resources.MilliCelsius) *schedule.Hold {
	if h == nil || h.GoesBy.Times == 0 || room < 15_000 || room > 30_000 {
		return h
	}
	large := func(x int64) *big.Int { return big.NewInt(x) }
	square := func(x resources.MilliCelsius) *big.Int { return new(big.Int).Exp(large(int64(x-4_800)), large(2), nil) }
	in := func(m resources.Minutes) resources.Minutes {
		is := new(big.Int).Mul(square(h.GoesBy.Temperature), large(2*int64(m)*int64(h.GoesBy.Times)))
		half := new(big.Int).Mul(square(room), large(1000))
		is.Add(is, half)
		return resources.Minutes(is.Div(is, half.Lsh(half, 1)).Int64())
	}
	out := *h
	out.Least, out.Best, out.Most = in(h.Least), in(h.Best), in(h.Most)
	return &out
}

// warm is a hold of the kitchen's that begins at a moment.
func (e *everyWorld) warm(h *schedule.Hold, begins resources.Moment) *schedule.Hold {
	is := e.p.Kitchen.Room
	for _, r := range e.p.Kitchen.Rooms {
		if r.From.Start(e.p.Kitchen.Zone) <= begins {
			is = r.Is
		}
	}
	return everyIn(h, is)
}

// longestEver is the most of a hold on whatever day it begins.
func (e *everyWorld) longestEver(h *schedule.Hold) resources.Minutes {
	_, most := e.limits(everyIn(h, e.p.Kitchen.Room))
	for _, r := range e.p.Kitchen.Rooms {
		_, m := e.limits(everyIn(h, r.Is))
		most = max(most, m)
	}
	return most
}

// begunOutside reports whether a hold that goes by the room begins in one of which the rule says nothing.
func (e *everyPlan) begunOutside(b *schedule.Batch) bool {
	r := e.p.RecipeOf(b.ID, b.Cheese)
	for k := range b.Stages {
		t := &b.Stages[k]
		if h := r.Stages[k].Hold; h != nil && h.GoesBy.Times > 0 && t.Ends >= e.from && e.warm(h, t.Start.Add(t.Work)) == h {
			return true
		}
	}
	return false
}

// byRoom is how many holds of the best plan, running or to come, are others than the recipe has them.
func (e *everyPlan) byRoom() int {
	n := 0
	for _, b := range e.plan().Batches {
		r := e.p.RecipeOf(b.ID, b.Cheese)
		for k := range b.Stages {
			t, h := &b.Stages[k], r.Stages[k].Hold
			if begins := t.Start.Add(t.Work); h != nil && t.Ends >= e.from && *e.warm(h, begins) != *h {
				n++
			}
		}
	}
	return n
}

// The judge, a list of all plans and the planner agree about tiny kitchens in which holds go by the room.
func TestEveryPlanOfTinyKitchensThatWarm(t *testing.T) {
	n := &everyCounts{count: map[string]int{}, unlike: map[int]string{}}
	several, other := 0, 0
	for i := range testrun.Rounds(18, 200) {
		e, passed := tinyKitchen(*everySeed, warmNumbers+i)
		n.passed += passed
		n.kitchen(t, e, warmNumbers+i)
		if len(e.p.Kitchen.Rooms) > 1 {
			several++
		}
		other += e.byRoom()
	}
	t.Log(n, several, "with several temperatures,", other, "holds by them")
	if 2*several < n.all || other < n.all {
		t.Errorf("got %d kitchens of %d with several temperatures, and %d holds that go by them: too few to mean much", several, n.all, other)
	}
}

// Work slips in such kitchens as the list says.
func TestEverySlipOfTinyKitchensThatWarm(t *testing.T) {
	n := slipCounts{}
	for i := range testrun.Rounds(9, 100) {
		e, _ := tinyKitchen(*everySeed, warmNumbers+i)
		plan, err := planner.Plan(context.Background(), e.p, planner.Options{Budget: everyBudget})
		if err != nil {
			t.Fatalf("kitchen %d: %v", warmNumbers+i, err)
		}
		e.slips(func(format string, args ...any) {
			t.Errorf("kitchen %d: %s\n%s\n%s", warmNumbers+i, fmt.Sprintf(format, args...), drawn(e.p), outline(plan))
		}, plan, n)
	}
	t.Log(n)
	if n["exact"] < 9 {
		t.Errorf("got %v: too few to mean much", n)
	}
}
