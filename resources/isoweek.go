package resources

import "time"

// ISOWeek gives the ISO 8601 week of the date and the year that the week belongs
// to, which around New Year may differ from the date's own.
func (d Date) ISOWeek() (year, week int) {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).ISOWeek()
}

// Monday gives the first day of the date's ISO week.
func (d Date) Monday() Date {
	sinceMonday := (int(d.Weekday()) + 6) % 7
	return d.AddDays(-sinceMonday)
}
