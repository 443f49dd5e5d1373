package calendar

import (
	"fmt"
	"time"

	"ripeby/resources"
)

// isoWeek writes the ISO 8601 week of a date, as in "2026-W53".
func isoWeek(d resources.Date) string {
	y, w := d.ISOWeek()
	return fmt.Sprintf("%04d-W%02d", y, w)
}

// dateUTC is the date as midnight in UTC, for its names.
func dateUTC(d resources.Date) time.Time {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC)
}

// dayName writes a date as in "Tue 16 Mar".
func dayName(d resources.Date) string { return dateUTC(d).Format("Mon 2 Jan") }

// clockChange is a moment at which the clocks are put forward or back.
type clockChange struct {
	at     resources.Moment
	before int // offset from UTC in seconds before the change
	after  int
}

// changesWithin lists the clock changes of a span. A change of a zone's name
// alone is none.
func changesWithin(span resources.Span, zone *time.Location) []clockChange {
	var changes []clockChange
	t := span.From.Add(-1).In(zone)
	for {
		_, end := t.ZoneBounds()
		if end.IsZero() || resources.MomentOf(end) >= span.Until {
			return changes
		}
		_, before := t.Zone()
		_, after := end.Zone()
		if before != after {
			changes = append(changes, clockChange{resources.MomentOf(end), before, after})
		}
		t = end
	}
}

// text says what happens at the change, in the clock's own times.
func (c clockChange) text() string {
	wall := func(off int) string {
		return c.at.In(time.FixedZone("", off)).Format("15:04")
	}
	if c.after > c.before {
		return fmt.Sprintf("Clocks go forward %s at %s.",
			lengthText(resources.Minutes((c.after-c.before)/60)), wall(c.before))
	}
	return fmt.Sprintf("Clocks go back %s at %s: %s to %s comes twice.",
		lengthText(resources.Minutes((c.before-c.after)/60)), wall(c.before), wall(c.after), wall(c.before))
}

// clockText is the local time of day of a moment, with the zone's short name, or
// its offset where the name does not tell the two apart, in an hour that a clock
// change repeats.
func clockText(m resources.Moment, zone *time.Location) string {
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
	return wall + glue + name
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

// stampText is a moment's day and local time, as in "Tue 16 Mar 07:30".
func stampText(m resources.Moment, zone *time.Location) string {
	return dayName(m.DateIn(zone)) + " " + clockText(m, zone)
}

// latestText is a moment as told from a day: the time alone on that day, with
// the weekday within six days, else with the date.
func latestText(m resources.Moment, from resources.Date, zone *time.Location) string {
	d := m.DateIn(zone)
	switch days := from.DaysUntil(d); {
	case days == 0:
		return clockText(m, zone)
	case days > 0 && days < 7:
		return dateUTC(d).Format("Mon") + " " + clockText(m, zone)
	}
	return stampText(m, zone)
}
