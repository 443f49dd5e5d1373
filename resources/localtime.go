package resources

import "time"

// number counts days from 1970-01-01, on the calendar alone. UTC has no clock
// changes, so the sum is exact.
func (d Date) number() int64 {
	return floorDiv(time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).Unix(), 86400)
}

// dateOf is the other way round.
func dateOf(number int64) Date {
	y, m, d := time.Unix(number*86400, 0).UTC().Date()
	return Date{y, m, d}
}

// AddDays gives the date n calendar days later, or earlier when n is negative.
func (d Date) AddDays(n int) Date { return dateOf(d.number() + int64(n)) }

// DaysUntil counts the calendar days from d to o; it is negative when o is
// before d.
func (d Date) DaysUntil(o Date) int { return int(o.number() - d.number()) }

// Before reports whether d is an earlier date than o.
func (d Date) Before(o Date) bool { return d.number() < o.number() }

// Weekday gives the day of the week.
func (d Date) Weekday() time.Weekday {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).Weekday()
}

// String writes the date as in 2027-03-18.
func (d Date) String() string {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
}

// Start gives the first moment of the local day, also where a clock change skips
// midnight. For a day that the zone skips as a whole it is the moment of the
// change, which is the start of the next day too.
func (d Date) Start(zone *time.Location) Moment { return d.At(0, zone) }

// Span gives the whole local day, from its start to the start of the next: 23,
// 24 or 25 hours for the most part, and empty for a day that the zone skips.
// Where a clock goes back over midnight, the repeated end of the old day lies in
// the span of the new one, so that days never overlap.
func (d Date) Span(zone *time.Location) Span {
	return Span{d.Start(zone), d.AddDays(1).Start(zone)}
}

// At gives the moment of a daily or weekly time, or of a window's edge. A time
// that a clock change skips is the moment of the change, one that it repeats is
// the first, and 24:00 is the start of the next day.
func (d Date) At(c Clock, zone *time.Location) Moment {
	w := wallClock{zone: zone}
	return w.at(d, c)
}

// Written gives the moment that somebody wrote as a date and a time. It is the
// same as [Date.At], but says when a clock change skips that time, which the
// caller reports as an error: there is no such moment.
func (d Date) Written(c Clock, zone *time.Location) (m Moment, skipped bool) {
	w := wallClock{zone: zone}
	m = w.at(d, c)
	return m, w.reading(m) != d.number()*dayMinutes+int64(c)
}

// Days gives every local date that has a moment in the span, in order. A date
// that the zone skips as a whole is not among them; an empty span has none.
func Days(within Span, zone *time.Location) []Date {
	w := wallClock{zone: zone}
	return w.days(within)
}
