package planner

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

// mostWords is how long a sentence may be; a longer one says less of each fact.
const mostWords = 25

// detail is how much is said of facts, the most first.
type detail int

const (
	clockTimes detail = iota // of hours on a day or two, when they are
	noTimes
	noDeliveries // what others get is counted
	noDays       // so are the days of hours left out
	noKit        // and things counted
	manyByKind   // and what there are several of a kind of
	allByKind    // and everything else
)

// factsText says which facts of the kitchen rule out so many pieces, or one more, and which
// others would even so.
func (pl *Stated) factsText(more string, r *problem.Reason, plan *schedule.Plan) string {
	text := pl.inWords(r.Sets[0].Facts, plan, pl.moreThan(more, r, plan)+" ruled out by ")
	if len(r.Sets) > 1 {
		var rest []problem.Fact
		for _, set := range r.Sets[1:] {
			rest = append(rest, set.Facts...)
		}
		text += " " + pl.inWords(rest, plan, "Without that, it is still ruled out by ")
	}
	return text
}

// moreThan is what a reason rules out, as a sentence begins: "" is one piece more than the
// plan gives.
func (pl *Stated) moreThan(more string, r *problem.Reason, plan *schedule.Plan) string {
	switch {
	case more != "":
	case plan.Targets[r.Demand].Met == 0:
		more = "It is"
	default:
		more = "More is"
	}
	return more
}

// inWords is a sentence about facts, in as much detail as its length allows.
func (pl *Stated) inWords(facts []problem.Fact, plan *schedule.Plan, begin string) string {
	text, _ := pl.told(facts, plan, begin, fewWords)
	return text
}

// fewWords reports whether a sentence is no longer than it may be.
func fewWords(text string) bool { return len(strings.Fields(text)) <= mostWords }

// told is a sentence about facts in as much detail as fits, and how much that is.
func (pl *Stated) told(facts []problem.Fact, plan *schedule.Plan, begin string, fits func(text string) bool) (string, detail) {
	return inDetail(begin, fits, func(much detail) string { return pl.factList(facts, plan, much) })
}

// inDetail is a sentence that goes on in as much detail as fits, and how much that is.
func inDetail(begin string, fits func(text string) bool, rest func(much detail) string) (text string, much detail) {
	for ; ; much++ {
		text = begin + rest(much) + "."
		if much == allByKind || fits(text) {
			return text, much
		}
	}
}

// factList names facts, like ones together.
func (pl *Stated) factList(facts []problem.Fact, plan *schedule.Plan, much detail) string {
	var serves, kit, rooms, milk []string
	hours := map[int][]problem.Fact{}
	for _, f := range facts {
		switch f.Kind {
		case problem.FactServes:
			r := &pl.p.Recipes[f.Index]
			serves = append(serves, fmt.Sprintf("batches of %s only for %d or more pieces", r.Name, r.Batch.Serves))
		case problem.FactPool:
			kit = append(kit, pl.countText(f.Index))
		case problem.FactSpace:
			rooms = append(rooms, "the room in "+pl.p.Kitchen.Cold[f.Index].Name)
		case problem.FactWorker:
			hours[f.Index] = append(hours[f.Index], f)
		case problem.FactSupply:
			milk = append(milk, pl.p.Kitchen.Milk[f.Index].Name+" milk")
		}
	}
	if more := len(kit) - kitNamed; more > 0 && much >= noKit {
		kit = append(kit[:kitNamed], schedule.Counted(more, "more kind")+" of kit")
	}
	var who []string
	if len(hours) > 0 {
		who = []string{pl.hoursText(hours, much)}
	}
	several := len(hours) > 1
	var said []string
	for _, of := range []struct {
		names  []string
		many   bool
		byKind string
	}{
		{serves, len(serves) > 1, "the least a batch serves"},
		{kit, len(kit) > 1, "kit"},
		{rooms, len(rooms) > 1, "room in the cold"},
		{who, several, "people's hours"},
		{milk, len(milk) > 1, "milk"},
	} {
		if len(of.names) > 0 && (much == allByKind || much == manyByKind && of.many) {
			of.names = []string{of.byKind}
		}
		said = append(said, of.names...)
	}
	return schedule.Listed(append(said, pl.deliveriesText(facts, plan, much)...))
}

// deliveriesText names what others get, or counts it.
func (pl *Stated) deliveriesText(facts []problem.Fact, plan *schedule.Plan, much detail) []string {
	var given []delivery
	var said []string
	for _, f := range facts {
		if f.Kind != problem.FactDemand || plan.Targets[f.Index].Met == 0 {
			continue
		}
		if key := deliveryOf(&plan.Targets[f.Index]); !slices.Contains(given, key) {
			given = append(given, key)
			said = append(said, pl.givenText(facts, plan, f.Index))
		}
	}
	switch {
	case len(given) > deliveriesNamed || len(given) > 1 && much >= noDeliveries:
		return []string{fmt.Sprintf("%d other deliveries", len(given))}
	case len(given) == 1 && much >= noDeliveries:
		return []string{"another delivery"}
	}
	return said
}

// kitNamed is how many kinds of kit are named in the shortest sentence.
const kitNamed = 2

// deliveriesNamed is how many deliveries are named one by one; more are counted.
const deliveriesNamed = 2

// delivery is what a target gets of a cheese.
type delivery struct {
	target string
	by     resources.Moment
	cheese string
}

// deliveryOf is the delivery that a want is part of.
func deliveryOf(w *schedule.WantResult) delivery { return delivery{w.Target, w.By, w.Cheese} }

// countText names a thing of the kitchen and how many of it there are.
func (pl *Stated) countText(pool int) string {
	name := pl.Thing(pool).Name
	if n := pl.model.Pools[pool].Capacity; n > 1 {
		return fmt.Sprintf("%d x %s", n, name)
	}
	return "one " + name
}

// givenText says what a target gets of a cheese, over all its wants that are facts.
func (pl *Stated) givenText(facts []problem.Fact, plan *schedule.Plan, demand int) string {
	at := &plan.Targets[demand]
	n := 0
	for _, f := range facts {
		if f.Kind != problem.FactDemand {
			continue
		}
		if w := &plan.Targets[f.Index]; deliveryOf(w) == deliveryOf(at) {
			n += w.Met
		}
	}
	zone := pl.p.Kitchen.Zone
	name := strings.TrimSuffix(at.Target, " "+at.By.DateIn(zone).String()) // of one that repeats: its day is said anyway
	return fmt.Sprintf("%d %s for %s on %s", n, at.Cheese, name, resources.ShowDay(at.By, zone))
}

// daysNamed is how many stretches of days are named one by one; more are one stretch
// from the first to the last.
const daysNamed = 3

// hoursText names people's hours on some days; those with the same days together.
func (pl *Stated) hoursText(hours map[int][]problem.Fact, much detail) string {
	var days []string
	who := map[string][]string{}
	for w := range pl.p.Kitchen.People {
		if len(hours[w]) == 0 {
			continue
		}
		d := ""
		switch {
		case much == clockTimes && len(hours[w]) <= timesNamed:
			d = " " + pl.timesText(w, hours[w])
		case much < noDays:
			d = " " + pl.daysText(hours[w])
		}
		if who[d] == nil {
			days = append(days, d)
		}
		who[d] = append(who[d], pl.p.Kitchen.People[w].Name+"'s")
	}
	var said []string
	for _, d := range days {
		said = append(said, schedule.Listed(who[d])+" hours"+d)
	}
	return schedule.Listed(said)
}

// timesNamed is how many days' hours are told by the clock.
const timesNamed = 2

// timesText names days, and when a person is there on each: "on Thu 4 Mar, 06:00 to 09:00".
func (pl *Stated) timesText(person int, days []problem.Fact) string {
	zone := pl.p.Kitchen.Zone
	var said []string
	for _, f := range days {
		day := pl.clock.moment(f.From).DateIn(zone)
		var times []string
		for _, w := range pl.p.Kitchen.People[person].Windows(day.Span(zone), zone) {
			times = append(times, w.From.In(zone).Format("15:04")+" to "+w.Until.In(zone).Format("15:04"))
		}
		text := "on " + resources.ShowDay(day.Start(zone), zone)
		if len(times) > 0 {
			text += ", " + schedule.Listed(times)
		}
		said = append(said, text)
	}
	return schedule.Listed(said)
}

// daysText names days, neighbouring ones together.
func (pl *Stated) daysText(days []problem.Fact) string {
	type stretch struct{ first, last resources.Moment }
	var list []stretch
	until := 0
	for i, f := range days {
		first, last := pl.clock.moment(f.From), pl.clock.moment(f.Until-1)
		if i > 0 && f.From == until {
			list[len(list)-1].last = last
		} else {
			list = append(list, stretch{first, last})
		}
		until = f.Until
	}
	if len(list) > daysNamed {
		list = []stretch{{list[0].first, list[len(list)-1].last}}
	}
	zone := pl.p.Kitchen.Zone
	var said []string
	for _, st := range list {
		a, b := resources.ShowDay(st.first, zone), resources.ShowDay(st.last, zone)
		switch {
		case a == b:
			said = append(said, "on "+a)
		default:
			said = append(said, "from "+a+" to "+b)
		}
	}
	return schedule.Listed(said)
}
