package judge

import (
	"time"

	"ripeby/resources"
)

// A day is a local calendar day, counted from 1970-01-01, so that whole local
// days are subtraction.
type day int64

// dayOf gives the day of a date.
func dayOf(d resources.Date) day {
	return day(time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// date is the calendar date of the day.
func (d day) date() resources.Date {
	y, m, n := time.Unix(int64(d)*86400, 0).UTC().Date()
	return resources.Date{Year: y, Month: m, Day: n}
}

// weekday is the day of the week; day 0 was a Thursday.
func (d day) weekday() time.Weekday {
	return time.Weekday(((int64(d)+4)%7 + 7) % 7)
}

// dayIn gives the local day on which a moment falls.
func dayIn(m resources.Moment, zone *time.Location) day {
	t := time.Unix(int64(m)*60, 0).In(zone)
	return dayOf(resources.Date{Year: t.Year(), Month: t.Month(), Day: t.Day()})
}

// wallClock gives the moment at which the local clock shows c on day d. What a
// clock change skips is the moment of the change; what it repeats is the first.
//
// It walks the zone's stretches of one offset, from the earliest that can hold
// the reading: no offset reaches 15 hours, so neither does the reading lie more
// than that before the same figures in UTC.
func wallClock(zone *time.Location, d day, c resources.Clock) resources.Moment {
	reading := int64(d)*86400 + int64(c)*60
	at := time.Unix(reading-15*3600, 0).In(zone)
	for {
		_, offset := at.Zone()
		begins, ends := at.ZoneBounds()
		unix := reading - int64(offset)
		if !begins.IsZero() && unix < begins.Unix() {
			return resources.MomentOf(begins)
		}
		if ends.IsZero() || unix < ends.Unix() {
			return resources.MomentOf(time.Unix(unix, 0))
		}
		at = ends
	}
}

// when writes a moment for people, in the kitchen's time.
func (h *hearing) when(m resources.Moment) string {
	return time.Unix(int64(m)*60, 0).In(h.zone).Format("2006-01-02 15:04 -07:00")
}
