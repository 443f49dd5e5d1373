package whatif

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/planner"
)

// ChangeKind orders changes by what they ask of the maker.
type ChangeKind int

// The kinds, the least asked first.
const (
	ChangePlan  ChangeKind = iota // nothing is bought and nobody is asked
	ChangeKit                     // more of something
	ChangeHours                   // somebody is there for longer
	ChangeDate                    // somebody waits
)

// Change is one thing that could be otherwise in a kitchen.
type Change struct {
	Kind ChangeKind
	Text string            // "one more heart mould"
	With *schedule.Problem // the problem with it; its last want is the asked one where Later
	// Later is set where the missing pieces have become a want of their own, the last.
	Later bool
	// Also is another want that was moved and must be met in full, -1 for none.
	Also int
	// unless is the text of a smaller change of the same thing, which is left out where that
	// gives as much.
	unless string
}

// copied is a problem whose kitchen, recipes and targets may be changed.
func copied(p *schedule.Problem) *schedule.Problem {
	out := *p
	k := &out.Kitchen
	k.People = slices.Clone(k.People)
	k.Pots = slices.Clone(k.Pots)
	k.Stations = slices.Clone(k.Stations)
	k.Moulds = slices.Clone(k.Moulds)
	k.Boxes = slices.Clone(k.Boxes)
	k.Cold = slices.Clone(k.Cold)
	k.Milk = slices.Clone(k.Milk)
	out.Recipes = slices.Clone(p.Recipes)
	out.Targets = slices.Clone(p.Targets)
	return &out
}

// OneMore is every change that is one more of something in the kitchen: each pot,
// station, mould and box, and a shelf or a place for a box in each cold place.
func OneMore(p *schedule.Problem) []Change {
	var out []Change
	for _, t := range planner.Things(&p.Kitchen) {
		out = append(out, moreOf(p, t.Name))
	}
	for i := range p.Kitchen.Cold {
		out = append(out, moreRoom(p, i))
	}
	return out
}

// moreOf is one more of a counted thing.
func moreOf(p *schedule.Problem, name string) Change {
	with := copied(p)
	for _, t := range planner.Things(&with.Kitchen) {
		if t.Name == name {
			*t.Count++
		}
	}
	return Change{Kind: ChangeKit, Text: "one more " + name, With: with, Also: -1}
}

// moreRoom is one shelf more, like the largest, or room for one box more.
func moreRoom(p *schedule.Problem, place int) Change {
	with := copied(p)
	c := &with.Kitchen.Cold[place]
	if !c.Measured() {
		c.Boxes++
		return Change{Kind: ChangeKit, Text: "room for one more box in " + c.Name, With: with, Also: -1}
	}
	largest := slices.MaxFunc(c.Shelves, func(a, b resources.Shelf) int {
		return int(a.Size.Width*a.Size.Depth/1000 - b.Size.Width*b.Size.Depth/1000)
	})
	like := largest.Name
	largest.Name, largest.Taken = "one more", nil
	c.Shelves = append(slices.Clone(c.Shelves), largest)
	return Change{Kind: ChangeKit, Text: fmt.Sprintf("one more shelf in %s, like %s", c.Name, like), With: with, Also: -1}
}

// biggerPots are the pots that are too small for a cheese's largest batch, each as large.
func biggerPots(p *schedule.Problem, r *schedule.Recipe) []Change {
	var out []Change
	for i := range p.Kitchen.Pots {
		pot := &p.Kitchen.Pots[i]
		if pot.Holds >= r.Batch.Most {
			continue
		}
		with := copied(p)
		with.Kitchen.Pots[i].Holds = r.Batch.Most
		out = append(out, Change{Kind: ChangeKit, Also: -1, With: with,
			Text: fmt.Sprintf("%s for %s instead of %s", pot.Name, resources.FormatVolume(r.Batch.Most), resources.FormatVolume(pot.Holds))})
	}
	return out
}

// moreMilk is half as much again of a collection.
func moreMilk(p *schedule.Problem, milk int) []Change {
	m := &p.Kitchen.Milk[milk]
	if m.Most == resources.NoLimit {
		return nil
	}
	with := copied(p)
	most := m.Most + max(m.Most/2/1000*1000, 1000)
	with.Kitchen.Milk[milk].Most = most
	return []Change{{Kind: ChangeKit, Also: -1, With: with,
		Text: fmt.Sprintf("%s of %s a collection instead of %s", resources.FormatVolume(most), m.Name, resources.FormatVolume(m.Most))}}
}

// sizesBetween lets a cheese be made in steps half as large.
func sizesBetween(p *schedule.Problem, recipe int) []Change {
	r := &p.Recipes[recipe]
	if r.Batch.Step < 2 || r.Batch.Most == r.Batch.Least {
		return nil
	}
	with := copied(p)
	with.Recipes[recipe].Batch.Step = r.Batch.Step / 2
	return []Change{{Kind: ChangePlan, Also: -1, With: with,
		Text: fmt.Sprintf("batches of %s in steps of %s", r.Name, resources.FormatVolume(r.Batch.Step/2))}}
}

// servesFewer makes a cheese for any number of pieces.
func servesFewer(p *schedule.Problem, recipe int) Change {
	with := copied(p)
	with.Recipes[recipe].Batch.Serves = 1
	return Change{Kind: ChangePlan, Also: -1, With: with, Text: fmt.Sprintf("a batch of %s for fewer than %d pieces", p.Recipes[recipe].Name, p.Recipes[recipe].Batch.Serves)}
}

// anHour is how much longer somebody is there.
const anHour = resources.Hour

// longerDay has a person there an hour earlier, and an hour later, on one day.
func longerDay(p *schedule.Problem, person int, day resources.Date) []Change {
	zone := p.Kitchen.Zone
	who := &p.Kitchen.People[person]
	windows := who.Windows(day.Span(zone), zone)
	if len(windows) == 0 {
		return nil
	}
	first, last := windows[0].From, windows[len(windows)-1].Until
	name := func(m resources.Moment) string {
		return m.In(zone).Format("15:04 on ") + resources.ShowDay(day.Start(zone), zone)
	}
	return []Change{
		{Kind: ChangeHours, Also: -1, With: thereToo(p, person, day, resources.Span{From: first.Add(-anHour), Until: first}),
			Text: fmt.Sprintf("%s from %s, an hour earlier", who.Name, name(first.Add(-anHour)))},
		{Kind: ChangeHours, Also: -1, With: thereToo(p, person, day, resources.Span{From: last, Until: last.Add(anHour)}),
			Text: fmt.Sprintf("%s until %s, an hour later", who.Name, name(last.Add(anHour)))},
	}
}

// thereToo adds a span of one day to a person's hours: the same hours of that day of the
// week, and away in them on all its other dates.
func thereToo(p *schedule.Problem, person int, day resources.Date, more resources.Span) *schedule.Problem {
	with := copied(p)
	zone := p.Kitchen.Zone
	who := &with.Kitchen.People[person]
	clock := func(m resources.Moment) resources.Clock {
		t := m.In(zone)
		return resources.Clock(t.Hour()*60 + t.Minute())
	}
	on := more.From.DateIn(zone)
	h := resources.Hours{Days: resources.Weekdays(0).With(on.Weekday()), From: clock(more.From), Until: clock(more.Until)}
	if h.Until == 0 {
		h.Until = 24 * 60
	}
	who.Hours = append(slices.Clone(who.Hours), h)
	who.Away = slices.Clone(who.Away)
	until := planner.State(p, p.From).Until().DateIn(zone)
	from := p.From.DateIn(zone).AddDays(-8)
	for d := from; !until.AddDays(8).Before(d); d = d.AddDays(1) {
		if d.Weekday() != on.Weekday() || d == on {
			continue
		}
		own := resources.Person{Hours: []resources.Hours{h}}
		kept := p.Kitchen.People[person].Windows(d.Span(zone), zone)
		who.Away = append(who.Away, resources.Subtract(own.Windows(d.Span(zone), zone), kept)...)
	}
	return with
}

// laterWant has the missing pieces of a want leave some days later.
func laterWant(p *schedule.Problem, at planner.WantAt, short, days int) Change {
	with := copied(p)
	t := with.Targets[at.Target]
	w := t.Wants[at.Want]
	by := dayLater(p, t.By, days)
	wants := slices.Clone(t.Wants)
	wants[at.Want].Pieces -= short
	t.Wants = wants
	with.Targets[at.Target] = t
	w.Pieces = short
	with.Targets = append(with.Targets, schedule.Target{Name: t.Name + ", later", By: by, Packed: t.Packed, Wants: []schedule.Want{w}})
	return Change{Kind: ChangeDate, Also: -1, Later: true, With: with,
		Text: fmt.Sprintf("the missing %s by %s", w.Cheese, resources.ShowMoment(by, p.Kitchen.Zone))}
}

// otherLater has what another want gets leave a day later; it must still be met in full.
func otherLater(st *planner.Stated, other, met int) []Change {
	p, at := st.Problem(), st.Wants()[other]
	with := copied(p)
	t := with.Targets[at.Target]
	w := t.Wants[at.Want]
	if met < w.Pieces {
		return nil // it is short itself
	}
	by := dayLater(p, t.By, 1)
	wants := slices.Clone(t.Wants)
	wants[at.Want].Pieces = 0
	t.Wants = wants
	with.Targets[at.Target] = t
	with.Targets = append(with.Targets, schedule.Target{Name: t.Name + ", later", By: by, Packed: t.Packed, Wants: []schedule.Want{w}})
	return []Change{{Kind: ChangeDate, Also: len(st.Wants()), With: with,
		Text: fmt.Sprintf("the %d %s for %s a day later, by %s", w.Pieces, w.Cheese, t.Name, resources.ShowMoment(by, p.Kitchen.Zone))}}
}

// dayLater is the same time of day some days later.
func dayLater(p *schedule.Problem, m resources.Moment, days int) resources.Moment {
	t := m.In(p.Kitchen.Zone)
	return m.DateIn(p.Kitchen.Zone).AddDays(days).At(resources.Clock(t.Hour()*60+t.Minute()), p.Kitchen.Zone)
}

// changesFor are the changes that could do away with one of some facts, for a want that is
// short of so many pieces.
func changesFor(st *planner.Stated, facts []problem.Fact, plan *schedule.Plan, wanted, missing int) []Change {
	p, w := st.Problem(), &plan.Targets[wanted]
	family, within := st.Family(w.Cheese), resources.Span{From: p.From, Until: w.By}
	var out []Change
	limited := map[int]bool{}
	for _, f := range facts {
		switch f.Kind {
		case problem.FactServes:
			out = append(out, servesFewer(p, f.Index))
		case problem.FactPool:
			out = append(out, moreOf(p, st.PoolName(f.Index)))
			out = append(out, asMany(st, f, family, missing)...)
		case problem.FactSpace:
			out = append(out, moreRoom(p, f.Index))
			out = append(out, asMany(st, f, family, missing)...)
			out = append(out, freed(p, f.Index, within)...)
		case problem.FactSupply:
			out = append(out, moreMilk(p, f.Index)...)
			out = append(out, collectedToo(p, f.Index, within)...)
		case problem.FactWorker:
			day := st.Moment(f.From).DateIn(p.Kitchen.Zone)
			out = append(out, longerDay(p, f.Index, day)...)
			out = append(out, thereAfterAll(p, f.Index, day)...)
			if !limited[f.Index] {
				limited[f.Index] = true
				out = append(out, worksLonger(p, f.Index)...)
			}
		case problem.FactDemand:
			out = append(out, otherLater(st, f.Index, plan.Targets[f.Index].Met)...)
		}
	}
	return out
}
