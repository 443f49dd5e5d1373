package whatif

import (
	"slices"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Changes that undo what the kitchen's folder says of some days: a shelf is free after all,
// somebody is there, milk is collected.

// without is a list of spans but for one.
func without(list []resources.Span, i int) []resources.Span {
	return slices.Delete(slices.Clone(list), i, i+1)
}

// freed has a closing of a cold place, or of one of its shelves, called off.
func freed(p *schedule.Problem, place int, within resources.Span) []Change {
	c := &p.Kitchen.Cold[place]
	var out []Change
	add := func(name string, s resources.Span, undo func(c *resources.ColdPlace)) {
		if !s.Overlaps(within) {
			return
		}
		with := copied(p)
		undo(&with.Kitchen.Cold[place])
		out = append(out, changed(ChangePlan, with, name+" free after all, "+spanText(s, p.Kitchen.Zone)))
	}
	for i, s := range c.Taken {
		add(c.Name, s, func(c *resources.ColdPlace) { c.Taken = without(c.Taken, i) })
	}
	for f := range c.Shelves {
		for i, s := range c.Shelves[f].Taken {
			add(c.Shelves[f].Name+" in "+c.Name, s, func(c *resources.ColdPlace) {
				c.Shelves = slices.Clone(c.Shelves)
				c.Shelves[f].Taken = without(c.Shelves[f].Taken, i)
			})
		}
	}
	return out
}

// collectedToo has milk collected on days on which there is no collection.
func collectedToo(p *schedule.Problem, milk int, within resources.Span) []Change {
	m := &p.Kitchen.Milk[milk]
	zone := p.Kitchen.Zone
	var out []Change
	for i, s := range m.Closed {
		with := copied(p)
		open := &with.Kitchen.Milk[milk]
		open.Closed = without(m.Closed, i)
		if len(open.Collections(within, zone)) > len(m.Collections(within, zone)) {
			out = append(out, changed(ChangeKit, with, m.Name+" collected after all, "+spanText(s, zone)))
		}
	}
	return out
}

// thereAfterAll has somebody who is away on a day there in the hours of that day.
func thereAfterAll(p *schedule.Problem, person int, day resources.Date) []Change {
	zone := p.Kitchen.Zone
	with := copied(p)
	who := &with.Kitchen.People[person]
	who.Away = resources.Subtract(who.Away, []resources.Span{day.Span(zone)})
	before := p.Kitchen.People[person].Windows(day.Span(zone), zone)
	if slices.Equal(who.Windows(day.Span(zone), zone), before) {
		return nil
	}
	return []Change{changed(ChangeHours, with, who.Name+" there after all, "+spanText(day.Span(zone), zone))}
}

// spanText names whole days by their dates, and other times by the minute.
func spanText(s resources.Span, zone *time.Location) string {
	first, last := s.From.DateIn(zone), s.Until.DateIn(zone)
	if s.From != first.Start(zone) || s.Until != last.Start(zone) {
		return resources.ShowMoment(s.From, zone) + " to " + resources.ShowMoment(s.Until, zone)
	}
	name := func(d resources.Date) string { return resources.ShowDay(d.Start(zone), zone) }
	if last = last.AddDays(-1); last == first {
		return name(first)
	}
	return name(first) + " to " + name(last)
}
