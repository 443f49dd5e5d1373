package words

import (
	"time"

	"ripeby/resources"
)

// Midnight is the date as midnight in UTC, for its names.
func Midnight(d resources.Date) time.Time {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC)
}

// Day writes a date as in "Tue 16 Mar".
func Day(d resources.Date) string { return Midnight(d).Format("Mon 2 Jan") }

// Clock is the local time of day of a moment, with the zone's short name, or
// its offset where the name does not tell the two apart, in an hour that a clock
// change repeats.
func Clock(m resources.Moment, zone *time.Location) string {
	t := m.In(zone)
	wall := t.Format("15:04")
	other, twice := twinOf(t)
	if !twice {
		return wall
	}
	name := t.Format("MST")
	if name == other.Format("MST") || name == "" || name[0] < 'A' || name[0] > 'Z' {
		name = t.Format("-07:00")
	}
	return wall + Glue + name
}

// twinOf gives the other moment that the clocks show as the same time of day,
// and whether there is one.
func twinOf(t time.Time) (time.Time, bool) {
	_, off := t.Zone()
	from, until := t.ZoneBounds()
	for _, edge := range []struct {
		at   time.Time
		into time.Duration // from the change to a moment beyond it
	}{{from, -time.Second}, {until, 0}} {
		if edge.at.IsZero() {
			continue
		}
		_, offThere := edge.at.Add(edge.into).Zone()
		twin := t.Add(time.Duration(off-offThere) * time.Second)
		if _, offTwin := twin.Zone(); offTwin == offThere && offTwin != off {
			return twin, true
		}
	}
	return time.Time{}, false
}

// Stamp is a moment's day and local time, as in "Tue 16 Mar 07:30".
func Stamp(m resources.Moment, zone *time.Location) string {
	return Day(m.DateIn(zone)) + " " + Clock(m, zone)
}

// Latest is a moment as told from a day: the time alone on that day, with
// the weekday within six days, else with the date.
func Latest(m resources.Moment, from resources.Date, zone *time.Location) string {
	d := m.DateIn(zone)
	switch days := from.DaysUntil(d); {
	case days == 0:
		return Clock(m, zone)
	case days > 0 && days < 7:
		return Midnight(d).Format("Mon") + " " + Clock(m, zone)
	}
	return Stamp(m, zone)
}
