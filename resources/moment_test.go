package resources_test

import (
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the tests run where no zone database is installed, too

	"ripeby/resources"
)

// isoMinute is how the tests write moments: the offset leaves no doubt which of
// two repeated readings is meant.
const isoMinute = "2006-01-02T15:04Z07:00"

// failing is what a plain test and a property test share.
type failing interface {
	Helper()
	Fatalf(format string, args ...any)
}

func zoneOf(t failing, name string) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation(name)
	if err != nil {
		t.Fatalf("zone %s: %v", name, err)
	}
	return zone
}

// momentAt reads a moment written with its offset.
func momentAt(t testing.TB, written string) resources.Moment {
	t.Helper()
	at, err := time.Parse(isoMinute, written)
	if err != nil {
		t.Fatal(err)
	}
	return resources.MomentOf(at)
}

// spanAt reads "from/until".
func spanAt(t testing.TB, written string) resources.Span {
	t.Helper()
	from, until, ok := strings.Cut(written, "/")
	if !ok {
		t.Fatalf("span %q has no slash", written)
	}
	return resources.Span{From: momentAt(t, from), Until: momentAt(t, until)}
}

func spansAt(t testing.TB, written ...string) []resources.Span {
	t.Helper()
	var spans []resources.Span
	for _, w := range written {
		spans = append(spans, spanAt(t, w))
	}
	return spans
}

func dateAt(t testing.TB, written string) resources.Date {
	t.Helper()
	at, err := time.Parse(time.DateOnly, written)
	if err != nil {
		t.Fatal(err)
	}
	y, m, d := at.Date()
	return resources.Date{Year: y, Month: m, Day: d}
}

func clockAt(hour, minute int) resources.Clock { return resources.Clock(hour*60 + minute) }

func show(m resources.Moment, zone *time.Location) string { return m.In(zone).Format(isoMinute) }

func showSpans(spans []resources.Span, zone *time.Location) string {
	var all []string
	for _, s := range spans {
		all = append(all, show(s.From, zone)+"/"+show(s.Until, zone))
	}
	return strings.Join(all, "\n")
}

// changeable are zones with every kind of change that the tests know of: hours
// forward and back on both halves of the globe, half an hour, over midnight in
// both directions, a whole day, offsets of odd seconds, and none at all.
var changeable = []string{
	"Europe/Dublin", "Europe/Paris", "America/New_York", "America/St_Johns", "America/Havana",
	"America/Sao_Paulo", "America/Nuuk", "America/Recife", "Africa/Cairo", "Africa/Casablanca", "Africa/Monrovia",
	"Asia/Beirut", "Asia/Kathmandu", "Australia/Sydney", "Australia/Lord_Howe", "Antarctica/Troll",
	"Pacific/Auckland", "Pacific/Chatham", "Pacific/Apia", "Pacific/Kwajalein", "UTC",
}

// wallReading is what the wall clock shows at m, in minutes since 1970-01-01
// 00:00 on that clock, by way of the standard library's calendar alone.
func wallReading(m resources.Moment, zone *time.Location) int64 {
	t := m.In(zone)
	asUTC := time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), 0, 0, time.UTC)
	return asUTC.Unix() / 60
}

// readingOf is the reading that a date and a clock time ask for.
func readingOf(d resources.Date, c resources.Clock) int64 {
	return time.Date(d.Year, d.Month, d.Day, 0, int(c), 0, 0, time.UTC).Unix() / 60
}
