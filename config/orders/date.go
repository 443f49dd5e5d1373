package orders

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"ripeby/config"
	"ripeby/config/fault"
	"ripeby/resources"
	"ripeby/schedule"
)

// noon is when an order leaves of which only the day is given.
const noon resources.Clock = 12 * 60

// leaves reads when an order leaves: a moment, or a day for its noon. It gives how targets.yaml
// has it too, a moment as it was written.
func leaves(text string, kitchen *schedule.Problem) (by string, at resources.Moment, err error) {
	zone := kitchen.Kitchen.Zone
	if day, err := resources.ParseDate(text); err == nil {
		at = day.At(noon, zone)
		by = resources.FormatMoment(at, zone)
	} else if at, err = resources.ParseMoment(text, zone); err == nil {
		by = strings.Join(strings.Fields(text), " ")
	} else {
		return "", 0, otherwise(text, err)
	}
	switch {
	case at < kitchen.From:
		err = config.Fault{What: "this is before the planning start, " + resources.FormatMoment(kitchen.From, zone), Got: fault.Clip(text)}
	case at.Sub(kitchen.From) > config.MaxHorizonDays*resources.Day:
		err = config.Fault{What: fmt.Sprintf("this is further ahead of the planning start, %s, than the limit of %d days", resources.FormatMoment(kitchen.From, zone), config.MaxHorizonDays), Got: fault.Clip(text)}
	}
	return by, at, err
}

// otherwise says how a date is to be written that spreadsheets write otherwise. One that could
// be of two months is not guessed: both are shown.
func otherwise(text string, err error) error {
	day, clock, timed := strings.Cut(strings.Join(strings.Fields(text), " "), " ")
	_, bad := resources.ParseDate(wholeYear(day))
	var q *resources.QuantityError
	if !errors.As(bad, &q) {
		return err // the day is right, and the time is not
	}
	f := config.Fault{What: q.What, Got: fault.Clip(text), Want: strings.TrimSuffix(q.Want, " (year-month-day)")}
	if counted := countedDay(day); counted != "" {
		f.What, f.Want = "a date is written year-month-day, and not counted in days", counted
	}
	if timed {
		if c, err := resources.ParseClock(strings.TrimSuffix(clock, ":00")); err == nil {
			f.Want = strings.ReplaceAll(f.Want, " or ", " "+resources.FormatClock(c)+" or ") + " " + resources.FormatClock(c)
		}
	}
	return f
}

// wholeYear has the year of this century in place of its last two digits, where a date ends with
// them and has other signs between its parts than ours.
func wholeYear(day string) string {
	cut := strings.LastIndexAny(day, "/.")
	if cut < 0 || !digits(day[cut+1:]) || len(day)-cut != len("/27") || strings.IndexAny(day, "/.") > len("27") {
		return day
	}
	return day[:cut+1] + "20" + day[cut+1:]
}

// countedDay is the date that a spreadsheet means by a bare number of this century: the days
// since 30 December 1899 (OpenDocument 1.3, part 3, section 9.4.2, null-date); "" for any other.
func countedDay(text string) string {
	n, err := strconv.Atoi(text)
	if err != nil || len(text) != 5 || n < 36526 { // 1 January 2000
		return ""
	}
	return resources.Date{Year: 1899, Month: 12, Day: 30}.AddDays(n).String()
}
