package words

import (
	"testing"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

	"ripeby/calendar/sample"
	"ripeby/resources"
)

// Clock names the zone only in an hour that comes twice.
func TestClockTextInRepeatedHour(t *testing.T) {
	for _, c := range []struct {
		zone string
		utc  string // the moment
		want string
	}{
		{"Europe/London", "2026-10-24 23:59", "00:59"},
		{"Europe/London", "2026-10-25 00:00", "01:00 BST"},
		{"Europe/London", "2026-10-25 00:59", "01:59 BST"},
		{"Europe/London", "2026-10-25 01:00", "01:00 GMT"},
		{"Europe/London", "2026-10-25 01:59", "01:59 GMT"},
		{"Europe/London", "2026-10-25 02:00", "02:00"},
		{"Europe/London", "2026-03-29 00:59", "00:59"},
		{"Europe/London", "2026-03-29 01:00", "02:00"},
		{"America/New_York", "2026-11-01 05:30", "01:30 EDT"},
		{"America/New_York", "2026-11-01 06:30", "01:30 EST"},
		{"Australia/Lord_Howe", "2026-04-04 14:45", "01:45 +11:00"},
		{"Australia/Lord_Howe", "2026-04-04 15:15", "01:45 +10:30"},
		{"Australia/Lord_Howe", "2026-04-04 14:15", "01:15"},
		{"America/Phoenix", "2026-11-01 08:30", "01:30"},
	} {
		utc := sample.Zone("UTC")
		got := Unglue(Clock(sample.At(utc, c.utc), sample.Zone(c.zone)))
		if got != c.want {
			t.Errorf("%s at %s UTC: got %q, want %q", c.zone, c.utc, got, c.want)
		}
	}
}

func TestLatestText(t *testing.T) {
	p := sample.Kitchen()
	zone := p.Kitchen.Zone
	from := resources.Date{Year: 2027, Month: 3, Day: 16}
	for _, c := range []struct{ in, want string }{
		{"2027-03-16 23:55", "23:55"}, {"2027-03-17 06:30", "Wed 06:30"}, {"2027-03-22 06:30", "Mon 06:30"},
		{"2027-03-23 06:30", "Tue 23 Mar 06:30"},
	} {
		if got := Latest(sample.At(zone, c.in), from, zone); got != c.want {
			t.Errorf("%s: got %q, want %q", c.in, got, c.want)
		}
	}
}
