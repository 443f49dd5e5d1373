package planner_test

import (
	"fmt"
	"math/rand/v2"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// dice draw one kitchen so small that all its plans can be listed. The same seed and
// number give the same kitchen.
type dice struct {
	*rand.Rand
	tight   side // what two batches are likely to need at once; sides for nothing much
	shelves bool // much stands on few shelves
	warm    bool // the room has more than one temperature, and holds go by it
	p       *schedule.Problem
}

// n draws a number from least to most, both included.
func (d *dice) n(least, most int) int { return least + d.IntN(most-least+1) }

func (d *dice) chance(percent int) bool { return d.IntN(100) < percent }

func oneOf[T any](d *dice, from ...T) T { return from[d.IntN(len(from))] }

// draw makes the next kitchen.
func (d *dice) draw() *schedule.Problem {
	d.p = &schedule.Problem{}
	d.kitchen()
	for i := range d.n(1, 2) {
		d.p.Recipes = append(d.p.Recipes, d.recipe(i))
	}
	d.shelve()
	d.targets()
	if d.chance(20) {
		d.stock()
	}
	if d.chance(25) {
		d.begun(1)
	}
	if d.chance(5) {
		d.begun(2)
	}
	if len(d.p.Kitchen.Milk) > 0 && d.chance(25) {
		d.ordered()
	}
	return d.p
}

func (d *dice) kitchen() {
	k := &d.p.Kitchen
	// Dublin's clock changes on 28 March 2027, Lord Howe's by half an hour on 4 April
	// (IANA time zone database 2025b).
	setting := oneOf(d, 0, 0, 0, 0, 0, 0, 1, 2)
	k.Name, k.Room, k.Step = "Pebble Cottage", 20_000, oneOf[resources.Minutes](d, 60, 60, 60, 60, 60, 30)
	k.TimeZone = []string{"UTC", "Europe/Dublin", "Australia/Lord_Howe"}[setting]
	k.Zone, _ = time.LoadLocation(k.TimeZone)
	first := []resources.Date{dayOf(2027, time.March, 1), dayOf(2027, time.March, 26), dayOf(2027, time.April, 2)}[setting]
	d.p.From = first.AddDays(d.n(0, 1)).At(clock(d.n(0, 23), 0), k.Zone)
	if d.chance(10) {
		d.p.From = d.p.From.Add(minutes(d.n(1, 59)))
	}
	if d.warm {
		d.warms()
	}
	for i := range oneOf(d, 1, 1, 1, 2, 2) {
		if i == 0 || d.tight != sideWork {
			k.People = append(k.People, d.person(i))
		}
	}
	if d.chance(25) {
		h := k.People[0].Hours[0]
		k.Round = &resources.Round{At: h.From + resources.Clock(oneOf(d, 0, 0, 60)), For: minutes(oneOf(d, 20, 60))}
	}
	d.things()
	d.cold()
	if d.tight == sideMilk || d.chance(50) {
		k.Milk = []resources.Milk{d.supply()}
	}
}

// things draws kit: more than enough where something else is to be tight.
func (d *dice) things() {
	k := &d.p.Kitchen
	clean := func() resources.Minutes { return minutes(oneOf(d, 0, 0, 20, 60, 150)) }
	pots, spare := oneOf(d, 1, 1, 1, 1, 2), 0
	switch d.tight {
	case sideKit:
		pots = 1
	case sideWork, sideCold, sideMilk:
		spare = 2
	}
	for i := range pots {
		k.Pots = append(k.Pots, resources.Pot{Name: fmt.Sprintf("pot %d", i+1), Holds: litres(oneOf(d, 2, 2, 3, 4)), Count: oneOf(d, 1, 1, 1, 1, 2) + spare, Clean: clean()})
	}
	k.Stations = []resources.Station{{Name: "hook", Count: d.n(1, 2) + spare, TakesVolume: litres(d.n(2, 3)), Clean: clean()},
		{Name: "press", Count: d.n(1, 2) + spare, TakesPieces: d.n(2, 4), Clean: clean()}, {Name: "tub", Count: 1 + spare, Clean: clean()}}
	k.Moulds = []resources.Mould{{Name: "ring", Count: d.n(3, 6) + 3*spare, Clean: clean()}}
	k.Boxes = []resources.Box{{Name: "box", Count: d.n(1, 4) + spare, Size: sized(30, 20, 10), Clean: clean()},
		{Name: "carton", Count: d.n(1, 2) + spare, Size: sized(oneOf(d, 20, 25), 20, 10), Clean: clean()}}
}

func (d *dice) person(i int) resources.Person {
	p := resources.Person{Name: []string{"Ines", "Odd"}[i], MostPerDay: resources.NoLimit}
	at := d.n(5, 9)
	for range oneOf(d, 1, 1, 2) {
		length := d.n(4, 12)
		p.Hours = append(p.Hours, resources.Hours{Days: resources.Daily, From: clock(at, 0), Until: clock(min(at+length, 24), 0)})
		at = min(at+length+d.n(1, 4), 21)
	}
	if d.chance(10) {
		p.Hours[0].Days = resources.Weekdays(d.n(1, 127))
	}
	if d.chance(35) {
		at := clock(d.n(5, 20), 0) + resources.Clock(oneOf(d, 0, 20, 30))
		p.RatherNot = []resources.Hours{{Days: resources.Daily, From: at, Until: at + resources.Clock(oneOf(d, 60, 120))}}
	}
	if d.tight == sideWork || d.chance(20) {
		p.MostPerDay = minutes(oneOf(d, 60, 120, 150, 180, 240))
	}
	if d.chance(15) {
		p.Away = []resources.Span{d.span(30)}
	}
	return p
}

// span is some hours, or a whole local day, soon after the planning start.
func (d *dice) span(within int) resources.Span {
	if d.chance(30) {
		return d.p.From.DateIn(d.p.Kitchen.Zone).AddDays(d.n(0, 1)).Span(d.p.Kitchen.Zone)
	}
	at := d.p.From.Add(minutes(30 * d.n(0, 2*within)))
	return resources.Span{From: at, Until: at.Add(minutes(30 * d.n(1, 12)))}
}

func (d *dice) spans(percent int) []resources.Span {
	if !d.chance(percent) {
		return nil
	}
	return []resources.Span{d.span(40)}
}

func (d *dice) cold() {
	k := &d.p.Kitchen
	k.Cold = []resources.ColdPlace{{Name: "cave", Temperature: oneOf[resources.MilliCelsius](d, 4_000, 11_000), Boxes: oneOf(d, 1, 1, 2, 2, 3), Taken: d.spans(12)}}
	if d.tight == sideCold {
		k.Cold[0].Boxes = 1
	}
	if !d.chance(50) {
		return
	}
	fridge := resources.ColdPlace{Name: "fridge", Temperature: 4_000, Taken: d.spans(10)}
	for i := range oneOf(d, 1, 1, 2) {
		fridge.Shelves = append(fridge.Shelves, resources.Shelf{Name: fmt.Sprintf("shelf %d", i+1),
			Size: sized(oneOf(d, 30, 40, 50), oneOf(d, 20, 30, 40), oneOf(d, 10, 15, 20)), Taken: d.spans(10)})
	}
	k.Cold = append(k.Cold, fridge)
	if d.chance(50) {
		k.Cold[0], k.Cold[1] = k.Cold[1], k.Cold[0]
	}
}

func (d *dice) supply() resources.Milk {
	m := resources.Milk{Name: "Low Meadow", Days: resources.Daily, Ready: clock(d.n(0, 12), oneOf(d, 0, 30)), Most: oneOf(d, resources.NoLimit, litres(d.n(2, 4)), litres(d.n(2, 6))),
		Keeps: minutes(60 * d.n(4, 30)), Order: minutes(60 * oneOf(d, 0, 0, 0, 6, 24))}
	if d.tight == sideMilk {
		m.Most, m.Keeps = litres(d.n(2, 3)), minutes(60*d.n(3, 12))
	} else if d.chance(30) {
		m.Days = resources.Weekdays(d.n(1, 127))
	}
	if d.chance(15) {
		m.Closed = []resources.Span{d.p.From.DateIn(d.p.Kitchen.Zone).AddDays(d.n(0, 2)).Span(d.p.Kitchen.Zone)}
	}
	return m
}

func (d *dice) ordered() {
	m := &d.p.Kitchen.Milk[0]
	near := resources.Span{From: d.p.From.Add(-m.Keeps), Until: d.p.From.Add(2 * resources.Day)}
	list := m.Collections(near, d.p.Kitchen.Zone)
	if len(list) > 0 {
		d.p.Ordered = []schedule.Ordered{{Milk: m.Name, Day: list[d.IntN(len(list))].Day, Litres: litres(d.n(2, 6))}}
	}
}
