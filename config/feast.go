package config

import (
	"strings"
	"time"

	"ripeby/resources"
)

// westernEaster gives Easter Sunday of the Gregorian computus. The steps are those
// of the anonymous rule of 1876 (Butcher, "The Ecclesiastical Calendar"), as
// reprinted by Smith, "Practical Astronomy with your Calculator", 1979; no table,
// no exception, any year of the Gregorian calendar.
func westernEaster(year int) resources.Date {
	golden := year % 19
	century, inCentury := year/100, year%100
	leapCenturies, restCenturies := century/4, century%4
	moonDrift := (century - (century+8)/25 + 1) / 3
	epact := (19*golden + century - leapCenturies - moonDrift + 15) % 30
	toSunday := (32 + 2*restCenturies + 2*(inCentury/4) - epact - inCentury%4) % 7
	late := (golden + 11*epact + 22*toSunday) / 451
	n := epact + toSunday - 7*late + 114
	return resources.Date{Year: year, Month: time.Month(n / 31), Day: n%31 + 1}
}

// orthodoxEaster gives Easter Sunday of the Julian computus as a date of the
// Gregorian calendar (Meeus, "Astronomical Algorithms", 1991, chapter 8).
func orthodoxEaster(year int) resources.Date {
	d := (19*(year%19) + 15) % 30
	e := (2*(year%4) + 4*(year%7) - d + 34) % 7
	n := d + e + 114
	julian := resources.Date{Year: year, Month: time.Month(n / 31), Day: n%31 + 1}
	// How far the Julian calendar is behind, from the March of each century on;
	// Easter is never before March.
	return julian.AddDays(year/100 - year/400 - 2)
}

// feasts are the names of the feasts that can be written.
func feasts() []string { return []string{"easter", "orthodox easter"} }

// feast reads the name of a feast and gives its date by year.
func feast(text string) (func(year int) resources.Date, error) {
	switch strings.ToLower(strings.Join(strings.Fields(text), " ")) {
	case "easter":
		return westernEaster, nil
	case "orthodox easter":
		return orthodoxEaster, nil
	}
	f := Fault{What: "this feast is not known", Got: clip(text), Near: nearest(text, feasts())}
	if f.Near == "" {
		f.Want = "easter or orthodox easter"
	}
	return nil, f
}

// maxFeastDays is how far from its feast a day can be.
const maxFeastDays = 366

// feastMoment gives the moment of a feast's day in the first year in which it is
// not before from. A time that a clock change skips is the moment of the change,
// as with everything that comes again.
func feastMoment(date func(year int) resources.Date, days int, c resources.Clock, zone *time.Location, from resources.Moment) resources.Moment {
	// The day can lie a year to either side of the feast.
	for year := from.DateIn(zone).Year - 2; ; year++ {
		if m := date(year).AddDays(days).At(c, zone); m >= from {
			return m
		}
	}
}

// feastWeeks is how far ahead of the planning start a feast is planned at the least.
// Without it next year's would be planned while this year's is still leaving.
const feastWeeks = 26

// feastAhead is how many weeks ahead a feast is planned in this kitchen.
func (l *loader) feastAhead() int { return max(feastWeeks, l.problem.Kitchen.Ahead) }

// feastPlannedFrom is the first date from which a target that leaves at by is planned;
// false where it does not go by a feast.
func (l *loader) feastPlannedFrom(f *object, by resources.Moment) (from resources.Date, feast bool) {
	if _, plain := scalarText(f.get("by")); plain {
		return resources.Date{}, false
	}
	return by.DateIn(l.problem.Kitchen.Zone).AddDays(-7 * l.feastAhead()), true
}
