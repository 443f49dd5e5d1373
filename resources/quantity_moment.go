package resources

import (
	"strings"
	"time"
)

// Written dates lie within these years.
const (
	FirstYear = 1970
	LastYear  = 2199
)

// ParseMoment reads "2027-03-27 07:00" as the zone's local time, or RFC 3339 with
// an offset. A local time that a clock change skips is an error, one that it
// repeats means the first. Seconds other than 0 are an error.
func ParseMoment(text string, zone *time.Location) (Moment, error) {
	m, past, err := parseMoment(text, zone)
	if err == nil && past {
		err = &QuantityError{"moments are whole minutes", text, FormatMoment(m, zone)}
	}
	return m, err
}

// ParseStart reads a planning start: a moment as in [ParseMoment], or a date,
// which means its first moment. A part of a minute goes up to the next minute,
// since nothing can be planned before the start.
func ParseStart(text string, zone *time.Location) (Moment, error) {
	d, err := ParseDate(text)
	if err == nil {
		return d.Start(zone), nil
	}
	if t, _ := tidy(text, ""); dateShaped(t) {
		return 0, err
	}
	m, past, err := parseMoment(text, zone)
	if err == nil && past {
		m++
	}
	return m, err
}

// parseMoment gives the minute, and whether seconds were written past it.
func parseMoment(text string, zone *time.Location) (m Moment, past bool, err error) {
	const want = "2027-03-27 07:00, or with an offset 2027-03-27T07:00:00+00:00"
	t, err := tidy(text, "a moment")
	if err != nil {
		return 0, false, err
	}
	bad := &QuantityError{"a moment is a date and a time", text, want}
	if len(t) <= len(time.DateOnly) {
		if _, err := ParseDate(t); err == nil {
			bad = &QuantityError{"a moment needs the time too", text, t + " 07:00"}
		}
		return 0, false, bad
	}
	split := strings.IndexAny(t, " Tt")
	if split < 0 {
		return 0, false, bad
	}
	day, err := ParseDate(t[:split])
	if err != nil {
		return 0, false, &QuantityError{err.(*QuantityError).What, text, want}
	}
	rest := t[split+1:]
	if strings.ContainsAny(rest, "Zz+") || strings.Contains(rest, "-") {
		return offsetMoment(t[:split], rest, bad)
	}
	if clock, zero := strings.CutSuffix(rest, ":00"); zero && strings.Count(rest, ":") == 2 {
		rest = clock
	}
	c, err := ParseClock(rest)
	if err != nil {
		return 0, false, &QuantityError{err.(*QuantityError).What, text, want}
	}
	m, skipped := day.Written(c, zone)
	if skipped {
		return 0, false, &QuantityError{"the clocks go forward over this time, so there is no such moment", text,
			FormatMoment(m, zone) + " or later"}
	}
	return m, false, nil
}

// offsetMoment reads a moment that says its offset from UTC; seconds may be left
// out.
func offsetMoment(day, rest string, bad error) (Moment, bool, error) {
	text := day + "T" + strings.ToUpper(strings.ReplaceAll(rest, " ", ""))
	t, err := time.Parse(time.RFC3339Nano, text)
	if err != nil {
		if t, err = time.Parse("2006-01-02T15:04Z07:00", text); err != nil {
			return 0, false, bad
		}
	}
	return MomentOf(t), t.Second() != 0 || t.Nanosecond() != 0, nil
}
