package resources

import (
	"fmt"
	"strings"
	"time"
)

// ParseClock reads a local time of day, "06:00" to "24:00".
func ParseClock(text string) (Clock, error) {
	const want = `"06:00"`
	t, err := tidy(text, "a time of day")
	if err != nil {
		return 0, err
	}
	h, m, ok := strings.Cut(t, ":")
	if !ok || len(h) < 1 || len(h) > 2 || len(m) != 2 || countDigits(h) != len(h) || countDigits(m) != 2 {
		return 0, &QuantityError{"a time of day is written as hours and minutes, 00:00 to 24:00", text, want}
	}
	hour, minute := digits(h), digits(m)
	c := Clock(hour*60 + minute)
	if minute > 59 || c > 24*60 {
		return 0, &QuantityError{"a time of day lies between 00:00 and 24:00", text, want}
	}
	return c, nil
}

// digits reads a short run of ASCII digits.
func digits(t string) int {
	n := 0
	for _, c := range []byte(t) {
		n = n*10 + int(c-'0')
	}
	return n
}

// ParseWeekdays reads "mon-fri", "sat,sun", "daily", or a mixture. A range may
// run over the week's end: "fri-mon" is four days.
func ParseWeekdays(text string) (Weekdays, error) {
	t, err := tidy(text, "days of the week")
	if err != nil {
		return 0, err
	}
	var days Weekdays
	for _, part := range strings.Split(strings.ToLower(t), ",") {
		set, ok := dayRange(strings.TrimSpace(part))
		if !ok {
			return 0, &QuantityError{"days are mon, tue, wed, thu, fri, sat, sun", text, "mon-fri, sat,sun or daily"}
		}
		days |= set
	}
	return days, nil
}

// dayRange reads one day, a range of days, or "daily".
func dayRange(part string) (Weekdays, bool) {
	if part == "daily" {
		return Daily, true
	}
	from, until, ranged := strings.Cut(strings.ReplaceAll(part, "–", "-"), "-")
	first, ok := weekday(strings.TrimSpace(from))
	if !ok {
		return 0, false
	}
	last := first
	if ranged {
		if last, ok = weekday(strings.TrimSpace(until)); !ok {
			return 0, false
		}
	}
	set := Weekdays(0).With(last)
	for d := first; d != last; d = (d + 1) % 7 {
		set = set.With(d)
	}
	return set, true
}

// weekday reads a day's three letters.
func weekday(name string) (time.Weekday, bool) {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if dayName(d) == name {
			return d, true
		}
	}
	return 0, false
}

// dayName is the day's first three letters in lower case.
func dayName(d time.Weekday) string { return strings.ToLower(d.String()[:3]) }

// ParseHours reads a weekly window: days, then from when until when, as in
// "mon-fri 06:00-08:00" or, past midnight, "sat 22:00-02:00".
func ParseHours(text string) (Hours, error) {
	t, err := tidy(text, "hours")
	if err != nil {
		return Hours{}, err
	}
	at := strings.IndexAny(t, "0123456789")
	if at < 0 {
		return Hours{}, &QuantityError{"hours say from when until when", text, `"mon-fri 06:00-08:00"`}
	}
	if at == 0 {
		return Hours{}, &QuantityError{"hours start with the days", text, fmt.Sprintf("%q", "daily "+t)}
	}
	days, err := ParseWeekdays(t[:at])
	if err != nil {
		return Hours{}, &QuantityError{err.(*QuantityError).What, text, `"mon-fri 06:00-08:00" or "daily 06:00-08:00"`}
	}
	from, until, ok := strings.Cut(strings.ReplaceAll(t[at:], "–", "-"), "-")
	if !ok {
		return Hours{}, &QuantityError{"hours say from when until when", text, `"mon-fri 06:00-08:00"`}
	}
	h := Hours{Days: days}
	for _, end := range []struct {
		text string
		into *Clock
	}{{from, &h.From}, {until, &h.Until}} {
		if *end.into, err = ParseClock(end.text); err != nil {
			return Hours{}, &QuantityError{err.(*QuantityError).What, text, `"mon-fri 06:00-08:00"`}
		}
	}
	if h.From == 24*60 {
		return Hours{}, &QuantityError{"hours open at 00:00 of the next day rather than at 24:00", text, `"mon-fri 00:00-02:00"`}
	}
	return h, nil
}
