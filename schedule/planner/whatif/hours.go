package whatif

import (
	"fmt"
	"slices"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

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
		changed(ChangeHours, thereToo(p, person, day, resources.Span{From: first.Add(-anHour), Until: first}),
			fmt.Sprintf("%s from %s, an hour earlier", who.Name, name(first.Add(-anHour)))),
		changed(ChangeHours, thereToo(p, person, day, resources.Span{From: last, Until: last.Add(anHour)}),
			fmt.Sprintf("%s until %s, an hour later", who.Name, name(last.Add(anHour)))),
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

// worksLonger has somebody work an hour more a day, in the same hours.
func worksLonger(p *schedule.Problem, person int) []Change {
	most := p.Kitchen.People[person].MostPerDay
	if most == resources.NoLimit {
		return nil
	}
	with := copied(p)
	who := &with.Kitchen.People[person]
	who.MostPerDay = most + anHour
	return []Change{changed(ChangeHours, with,
		fmt.Sprintf("%s up to %s of work a day instead of %s", who.Name, resources.FormatMinutes(who.MostPerDay), resources.FormatMinutes(most)))}
}

// longerDays is an hour more of a person's at each end of every day that has hours.
func longerDays(p *schedule.Problem, person int) []Change {
	who := &p.Kitchen.People[person]
	if len(who.Hours) == 0 {
		return nil
	}
	var out []Change
	for _, end := range []string{"earlier", "later"} {
		with := copied(p)
		w := &with.Kitchen.People[person]
		w.Hours = append([]resources.Hours(nil), who.Hours...)
		for day := range 7 {
			only := resources.Weekdays(0).With(time.Weekday(day))
			first, last, some := edges(who.Hours, only)
			switch {
			case !some:
			case end == "earlier" && first >= 60:
				w.Hours = append(w.Hours, resources.Hours{Days: only, From: first - 60, Until: first})
			case end == "later" && last <= 23*60:
				w.Hours = append(w.Hours, resources.Hours{Days: only, From: last, Until: last + 60})
			}
		}
		out = append(out, changed(ChangeHours, with, who.Name+" an hour "+end+" every day"))
	}
	return out
}

// edges are the first and the last moment of somebody's hours on a day of the week.
func edges(list []resources.Hours, day resources.Weekdays) (first, last resources.Clock, some bool) {
	for _, h := range list {
		if h.Days&day == 0 {
			continue
		}
		until := h.Until
		if until <= h.From {
			until = 24 * 60
		}
		if !some || h.From < first {
			first = h.From
		}
		if !some || until > last {
			last = until
		}
		some = true
	}
	return first, last, some
}
