package resources_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ripeby/resources"
)

// A written time, the moment it means and whether it is skipped. The changes are
// those of the IANA tz database (files europe, northamerica, southamerica,
// africa, australasia).
func TestWrittenAndAt(t *testing.T) {
	tests := []struct {
		name, zone, date string
		clock            resources.Clock
		want             string
		skipped          bool
	}{
		{"plain", "Europe/Dublin", "2027-03-27", clockAt(7, 0), "2027-03-27T07:00Z", false},
		{"24:00 is the next day", "Europe/Dublin", "2027-03-26", clockAt(24, 0), "2027-03-27T00:00Z", false},
		{"last before a change", "Europe/Paris", "2027-03-28", clockAt(1, 59), "2027-03-28T01:59+01:00", false},
		{"first skipped", "Europe/Paris", "2027-03-28", clockAt(2, 0), "2027-03-28T03:00+02:00", true},
		{"last skipped", "Europe/Paris", "2027-03-28", clockAt(2, 59), "2027-03-28T03:00+02:00", true},
		{"first after a change", "Europe/Paris", "2027-03-28", clockAt(3, 0), "2027-03-28T03:00+02:00", false},
		{"first repeated", "Europe/Paris", "2026-10-25", clockAt(2, 0), "2026-10-25T02:00+02:00", false},
		{"last repeated", "Europe/Paris", "2026-10-25", clockAt(2, 59), "2026-10-25T02:59+02:00", false},
		{"after what is repeated", "Europe/Paris", "2026-10-25", clockAt(3, 0), "2026-10-25T03:00+01:00", false},
		{"New York, skipped", "America/New_York", "2027-03-14", clockAt(2, 30), "2027-03-14T03:00-04:00", true},
		{"New York, repeated", "America/New_York", "2026-11-01", clockAt(1, 30), "2026-11-01T01:30-04:00", false},
		{"southern spring", "Australia/Sydney", "2026-10-04", clockAt(2, 15), "2026-10-04T03:00+11:00", true},
		{"southern autumn", "Pacific/Auckland", "2026-04-05", clockAt(2, 15), "2026-04-05T02:15+13:00", false},
		{"half an hour skipped", "Australia/Lord_Howe", "2026-10-04", clockAt(2, 10), "2026-10-04T02:30+11:00", true},
		{"after the half hour", "Australia/Lord_Howe", "2026-10-04", clockAt(2, 30), "2026-10-04T02:30+11:00", false},
		{"half an hour repeated", "Australia/Lord_Howe", "2026-04-05", clockAt(1, 45), "2026-04-05T01:45+11:00", false},
		{"before the half hour repeats", "Australia/Lord_Howe", "2026-04-05", clockAt(1, 29), "2026-04-05T01:29+11:00", false},
		{"after the half hour repeats", "Australia/Lord_Howe", "2026-04-05", clockAt(2, 0), "2026-04-05T02:00+10:30", false},
		{"midnight skipped", "America/Sao_Paulo", "2018-11-04", 0, "2018-11-04T01:00-02:00", true},
		{"24:00 skipped", "America/Sao_Paulo", "2018-11-03", clockAt(24, 0), "2018-11-04T01:00-02:00", true},
		{"back from midnight to 23:00", "America/Sao_Paulo", "2018-02-17", clockAt(23, 30), "2018-02-17T23:30-02:00", false},
		{"24:00 after 23:00 came twice", "America/Sao_Paulo", "2018-02-17", clockAt(24, 0), "2018-02-18T00:00-03:00", false},
		{"midnight repeated", "America/Havana", "2026-11-01", 0, "2026-11-01T00:00-04:00", false},
		{"a minute of the new day, then back", "America/St_Johns", "2006-10-29", 0, "2006-10-29T00:00-02:30", false},
		{"second minute of the new day", "America/St_Johns", "2006-10-29", 1, "2006-10-29T00:01-03:30", false},
		{"end of the old day comes twice", "America/St_Johns", "2006-10-28", clockAt(23, 30), "2006-10-28T23:30-02:30", false},
		{"noon of a day that is skipped", "Pacific/Apia", "2011-12-30", clockAt(12, 0), "2011-12-31T00:00+14:00", true},
		{"end of the day before it", "Pacific/Apia", "2011-12-29", clockAt(24, 0), "2011-12-31T00:00+14:00", true},
		{"end of the day that is skipped", "Pacific/Apia", "2011-12-30", clockAt(24, 0), "2011-12-31T00:00+14:00", false},
		{"a day that came twice", "Pacific/Kwajalein", "1969-09-30", clockAt(6, 0), "1969-09-30T06:00+11:00", false},
		{"the day after it", "Pacific/Kwajalein", "1969-10-01", 0, "1969-10-01T00:00-12:00", false},
		{"between two changes a week apart", "America/Recife", "2000-10-08", clockAt(12, 0), "2000-10-08T12:00-02:00", false},
		{"after both of them", "America/Recife", "2000-10-15", clockAt(12, 0), "2000-10-15T12:00-03:00", false},
		{"off by half minutes", "Africa/Monrovia", "1972-01-07", 0, "1972-01-07T00:45Z", true},
		// Where the standard library's ZoneBounds ends the year after 365 days.
		{"last day of a leap year", "America/New_York", "2044-12-31", clockAt(9, 0), "2044-12-31T09:00-05:00", false},
		{"last minute of a leap year", "Australia/Sydney", "2044-12-31", clockAt(23, 59), "2044-12-31T23:59+11:00", false},
	}
	for _, tt := range tests {
		zone, d := zoneOf(t, tt.zone), dateAt(t, tt.date)
		want := momentAt(t, tt.want)
		if got := d.At(tt.clock, zone); got != want {
			t.Errorf("%s: %s At(%d) in %s = %s, want %s", tt.name, tt.date, tt.clock, tt.zone, show(got, zone), tt.want)
		}
		got, skipped := d.Written(tt.clock, zone)
		if got != want || skipped != tt.skipped {
			t.Errorf("%s: %s Written(%d) in %s = %s, skipped %v, want %s, %v",
				tt.name, tt.date, tt.clock, tt.zone, show(got, zone), skipped, tt.want, tt.skipped)
		}
	}
}

func TestDaySpan(t *testing.T) {
	tests := []struct {
		name, zone, date, want string
		length                 resources.Minutes
	}{
		{"plain", "Europe/Dublin", "2027-03-27", "2027-03-27T00:00Z/2027-03-28T00:00Z", resources.Day},
		{"short", "Europe/Dublin", "2027-03-28", "2027-03-28T00:00Z/2027-03-29T00:00+01:00", 23 * resources.Hour},
		{"long", "Europe/Dublin", "2027-10-31", "2027-10-31T00:00+01:00/2027-11-01T00:00Z", 25 * resources.Hour},
		{"short, midnight skipped", "America/Sao_Paulo", "2018-11-04", "2018-11-04T01:00-02:00/2018-11-05T00:00-02:00", 23 * resources.Hour},
		{"long, 23:00 repeated", "America/Sao_Paulo", "2018-02-17", "2018-02-17T00:00-02:00/2018-02-18T00:00-03:00", 25 * resources.Hour},
		{"long, midnight repeated", "America/Havana", "2026-11-01", "2026-11-01T00:00-04:00/2026-11-02T00:00-05:00", 25 * resources.Hour},
		{"half an hour short", "Australia/Lord_Howe", "2026-10-04", "2026-10-04T00:00+10:30/2026-10-05T00:00+11:00", 23*resources.Hour + 30},
		{"half an hour long", "Australia/Lord_Howe", "2026-04-05", "2026-04-05T00:00+11:00/2026-04-06T00:00+10:30", 24*resources.Hour + 30},
		{"skipped", "Pacific/Apia", "2011-12-30", "2011-12-31T00:00+14:00/2011-12-31T00:00+14:00", 0},
		{"twice", "Pacific/Kwajalein", "1969-09-30", "1969-09-30T00:00+11:00/1969-10-01T00:00-12:00", 47 * resources.Hour},
	}
	for _, tt := range tests {
		zone, d := zoneOf(t, tt.zone), dateAt(t, tt.date)
		got := d.Span(zone)
		if want := spanAt(t, tt.want); got != want || got.Length() != tt.length {
			t.Errorf("%s: %s Span() in %s = %s (%d min), want %s (%d min)", tt.name, tt.date, tt.zone,
				showSpans([]resources.Span{got}, zone), got.Length(), tt.want, tt.length)
		}
		if start := d.Start(zone); start != got.From {
			t.Errorf("%s: Start() = %s, want the start of Span()", tt.name, show(start, zone))
		}
	}
}

func TestDays(t *testing.T) {
	tests := []struct {
		name, zone, within string
		want               []string
	}{
		{"empty", "Europe/Dublin", "2027-03-27T07:00Z/2027-03-27T07:00Z", nil},
		{"a minute", "Europe/Dublin", "2027-03-27T23:59Z/2027-03-28T00:00Z", []string{"2027-03-27"}},
		{"over midnight by a minute", "Europe/Dublin", "2027-03-27T23:59Z/2027-03-28T00:01Z", []string{"2027-03-27", "2027-03-28"}},
		{"local, not UTC", "Pacific/Auckland", "2026-09-26T10:00Z/2026-09-26T13:00Z", []string{"2026-09-26", "2026-09-27"}},
		{"over a leap day", "UTC", "2028-02-28T12:00Z/2028-03-01T12:00Z", []string{"2028-02-28", "2028-02-29", "2028-03-01"}},
		{"over a day that is skipped", "Pacific/Apia", "2011-12-29T12:00-10:00/2011-12-31T12:00+14:00", []string{"2011-12-29", "2011-12-31"}},
		{"back over midnight", "America/St_Johns", "2006-10-29T00:00-02:30/2006-10-28T23:30-03:30", []string{"2006-10-28", "2006-10-29"}},
		{"before 1970", "UTC", "1969-12-30T23:00Z/1970-01-01T00:00Z", []string{"1969-12-30", "1969-12-31"}},
	}
	for _, tt := range tests {
		var got []string
		for _, d := range resources.Days(spanAt(t, tt.within), zoneOf(t, tt.zone)) {
			got = append(got, d.String())
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: Days(%s) in %s = %v, want %v", tt.name, tt.within, tt.zone, got, tt.want)
		}
	}
}

func TestDate(t *testing.T) {
	tests := []struct {
		name, date string
		add        int
		want       string
		weekday    time.Weekday // of want
	}{
		{"no day", "2027-03-18", 0, "2027-03-18", time.Thursday},
		{"over a month", "2027-03-31", 1, "2027-04-01", time.Thursday},
		{"back over a year", "2027-01-01", -1, "2026-12-31", time.Thursday},
		{"a leap year", "2028-02-28", 1, "2028-02-29", time.Tuesday},
		{"no leap year", "2027-02-28", 1, "2027-03-01", time.Monday},
		{"no leap year in 2100", "2100-02-28", 1, "2100-03-01", time.Monday},
		{"over a clock change", "2027-03-27", 2, "2027-03-29", time.Monday},
		{"back before 1970", "1970-01-02", -3, "1969-12-30", time.Tuesday},
		{"400 years", "2000-01-01", 146097, "2400-01-01", time.Saturday}, // the Gregorian cycle
	}
	for _, tt := range tests {
		d, want := dateAt(t, tt.date), dateAt(t, tt.want)
		got := d.AddDays(tt.add)
		if got != want || got.String() != tt.want {
			t.Errorf("%s: %s AddDays(%d) = %v, want %s", tt.name, tt.date, tt.add, got, tt.want)
		}
		if days := d.DaysUntil(want); days != tt.add {
			t.Errorf("%s: %s DaysUntil(%s) = %d, want %d", tt.name, tt.date, tt.want, days, tt.add)
		}
		if before := d.Before(want); before != (tt.add > 0) {
			t.Errorf("%s: %s Before(%s) = %v, want %v", tt.name, tt.date, tt.want, before, tt.add > 0)
		}
		if day := want.Weekday(); day != tt.weekday {
			t.Errorf("%s: %s Weekday() = %v, want %v", tt.name, tt.want, day, tt.weekday)
		}
	}
}

// anyMoment draws a zone and a moment in it, at most times not far from a clock
// change, where there is something to get wrong.
func anyMoment(t *rapid.T) (*time.Location, resources.Moment) {
	zone := zoneOf(t, rapid.SampledFrom(changeable).Draw(t, "zone"))
	from := time.Date(1969, 1, 1, 0, 0, 0, 0, time.UTC).Unix() / 60
	until := time.Date(2045, 1, 1, 0, 0, 0, 0, time.UTC).Unix() / 60
	m := resources.Moment(rapid.Int64Range(from, until).Draw(t, "moment"))
	if _, change := m.In(zone).ZoneBounds(); !change.IsZero() && rapid.IntRange(0, 3).Draw(t, "away from a change") > 0 {
		m = resources.MomentOf(change) + resources.Moment(rapid.Int64Range(-3000, 3000).Draw(t, "off"))
	}
	return zone, m
}

// What the wall clock shows at a moment, written down and read back, is that
// moment or an earlier one that shows the same.
func TestWrittenReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone, m := anyMoment(t)
		c := resources.Clock(m.In(zone).Hour()*60 + m.In(zone).Minute())
		got, skipped := m.DateIn(zone).Written(c, zone)
		if skipped {
			t.Fatalf("%s in %v: skipped, want a moment", show(m, zone), zone)
		}
		if got > m || wallReading(got, zone) != wallReading(m, zone) {
			t.Errorf("%s in %v: written and read back as %s", show(m, zone), zone, show(got, zone))
		}
		if at := m.DateIn(zone).At(c, zone); at != got {
			t.Errorf("At gives %s, Written %s", show(at, zone), show(got, zone))
		}
	})
}

// At is the first moment at which the wall clock shows the time or a later one:
// checked by looking at every minute of the days around.
func TestAtMinuteByMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone, m := anyMoment(t)
		d := m.DateIn(zone).AddDays(rapid.IntRange(-1, 1).Draw(t, "days off"))
		c := resources.Clock(rapid.IntRange(0, 1440).Draw(t, "clock"))
		asked := readingOf(d, c)
		want := resources.Moment(asked - 30*60)
		for wallReading(want, zone) < asked {
			want++
		}
		got, skipped := d.Written(c, zone)
		if got != want || d.At(c, zone) != want {
			t.Fatalf("%v %d in %v: At = %s, want %s", d, c, zone, show(got, zone), show(want, zone))
		}
		if wantSkipped := wallReading(want, zone) != asked; skipped != wantSkipped {
			t.Errorf("%v %d in %v: skipped %v, want %v", d, c, zone, skipped, wantSkipped)
		}
	})
}

func TestDaysMinuteByMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone, from := anyMoment(t)
		within := resources.Span{From: from, Until: from + resources.Moment(rapid.Int64Range(0, 6000).Draw(t, "length"))}
		seen := map[resources.Date]bool{}
		for m := within.From; m < within.Until; m++ {
			seen[m.DateIn(zone)] = true
		}
		got := resources.Days(within, zone)
		for i, d := range got {
			if !seen[d] {
				t.Errorf("%v: %v has no moment in the span", zone, d)
			}
			if i > 0 && !got[i-1].Before(d) {
				t.Errorf("%v: %v after %v, want them in order", zone, d, got[i-1])
			}
		}
		if len(got) != len(seen) {
			t.Errorf("%v: Days(%s) = %v, want %d dates", zone, showSpans([]resources.Span{within}, zone), got, len(seen))
		}
	})
}

// Days follow each other without a gap in every zone, so that each moment is in
// the span of one day.
func TestDaysFollow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone, m := anyMoment(t)
		d := m.DateIn(zone)
		if got, want := d.Span(zone).Until, d.AddDays(1).Span(zone).From; got != want {
			t.Errorf("%v in %v ends at %s, the next day starts at %s", d, zone, show(got, zone), show(want, zone))
		}
		if d.Span(zone).Empty() {
			t.Errorf("%v in %v has a moment but an empty span", d, zone)
		}
	})
}
