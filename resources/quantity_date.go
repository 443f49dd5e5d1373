package resources

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// ParseDate reads a local day, "2027-03-12".
func ParseDate(text string) (Date, error) {
	t, err := tidy(text, "a date")
	if err != nil {
		return Date{}, err
	}
	if len(t) > len(time.DateOnly) && dateShaped(t[:len(time.DateOnly)]) {
		return Date{}, &QuantityError{"a day has no time with it", text, t[:len(time.DateOnly)]}
	}
	if !dateShaped(t) {
		return Date{}, &QuantityError{"a date is written year-month-day", text, meantDate(t)}
	}
	day, err := time.Parse(time.DateOnly, t)
	if err != nil {
		return Date{}, &QuantityError{"this is not a date of the calendar", text, nearDate(t)}
	}
	if day.Year() < FirstYear || day.Year() > LastYear {
		return Date{}, &QuantityError{fmt.Sprintf("years lie between %d and %d", FirstYear, LastYear), text, "2027-03-12 (year-month-day)"}
	}
	return Date{day.Year(), day.Month(), day.Day()}, nil
}

// dateShaped reports whether a text is digits in the shape of a date, be it of the
// calendar or not.
func dateShaped(t string) bool {
	return len(t) == len(time.DateOnly) && countDigits(t) == 4 && t[4] == '-' &&
		countDigits(t[5:]) == 2 && t[7] == '-' && countDigits(t[8:]) == 2
}

// meantDate is what a text most likely means that has day, month and year in another
// order, or both where it may be either; else any date.
func meantDate(t string) string {
	parts := strings.FieldsFunc(t, func(r rune) bool { return r == '/' || r == '.' || r == '-' || r == ' ' })
	var n [3]int
	for i, part := range parts {
		var err error
		if i == len(n) {
			return "2027-03-12"
		}
		if n[i], err = strconv.Atoi(part); err != nil {
			return "2027-03-12"
		}
	}
	var found []string
	for _, o := range [][3]int{{0, 1, 2}, {2, 1, 0}, {2, 0, 1}} {
		year, month, day := n[o[0]], n[o[1]], n[o[2]]
		d := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
		if year < FirstYear || year > LastYear || d.Month() != time.Month(month) || d.Day() != day {
			continue
		}
		if one := d.Format(time.DateOnly); len(found) == 0 || found[0] != one {
			found = append(found, one)
		}
	}
	if len(found) == 0 {
		return "2027-03-12"
	}
	return strings.Join(found, " or ")
}

// nearDate is the last day of the month in place of one that it has not; of a month that
// there is not, any date.
func nearDate(t string) string {
	month, err := time.Parse("2006-01", t[:7])
	if err != nil || t[8:] == "00" {
		return "2027-03-12 (year-month-day)"
	}
	return month.AddDate(0, 1, -1).Format(time.DateOnly)
}
