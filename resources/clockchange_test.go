package resources_test

import (
	"testing"

	"ripeby/resources"
)

// Elapsed hours over a clock change: a hold that starts at a local time ends so
// many hours later on the clock that hangs on the wall. Offsets and dates of the
// changes: IANA tz database (files europe, northamerica, australasia).
func TestElapsedHoursOverAChange(t *testing.T) {
	tests := []struct {
		zone, date string
		clock      resources.Clock
		hours      resources.Minutes
		want       string
	}{
		{"Europe/London", "2026-03-28", clockAt(18, 0), 18, "2026-03-29T13:00+01:00"},
		{"Europe/London", "2026-10-24", clockAt(18, 0), 18, "2026-10-25T11:00Z"},
		{"Europe/Paris", "2027-03-27", clockAt(20, 0), 24, "2027-03-28T21:00+02:00"},
		{"America/New_York", "2026-03-07", clockAt(17, 0), 20, "2026-03-08T14:00-04:00"},
		{"America/New_York", "2026-10-31", clockAt(17, 0), 20, "2026-11-01T12:00-05:00"},
		{"Australia/Sydney", "2026-04-04", clockAt(18, 0), 18, "2026-04-05T11:00+10:00"},
		{"Australia/Sydney", "2026-10-03", clockAt(18, 0), 18, "2026-10-04T13:00+11:00"},
		{"Pacific/Auckland", "2026-09-26", clockAt(18, 0), 18, "2026-09-27T13:00+13:00"},
		{"Europe/London", "2027-03-28", clockAt(8, 0), -24, "2027-03-27T07:00Z"},
		{"Europe/London", "2026-10-25", clockAt(8, 0), -24, "2026-10-24T09:00+01:00"},
		{"America/New_York", "2026-11-01", clockAt(8, 0), -24, "2026-10-31T09:00-04:00"},
	}
	for _, tt := range tests {
		zone := zoneOf(t, tt.zone)
		start := dateAt(t, tt.date).At(tt.clock, zone)
		if got := show(start.Add(tt.hours*resources.Hour), zone); got != tt.want {
			t.Errorf("%s, %s and %d h: got %s, want %s", tt.zone, show(start, zone), tt.hours, got, tt.want)
		}
	}
}

// The changes of 2026 and 2027, by the local day on which each falls. Rules of
// the IANA tz database: EU last Sunday of March and October at 01:00 UTC; US
// second Sunday of March and first of November at 02:00; Australia first Sunday
// of October and April at 02:00 standard time; New Zealand last Sunday of
// September and first of April, likewise.
func TestChangesOfTwoYears(t *testing.T) {
	forward, back := map[string]bool{}, map[string]bool{}
	tests := []struct {
		zones         []string
		forward, back []string
		by            resources.Minutes
	}{
		{[]string{"Europe/London", "Europe/Paris", "Europe/Berlin", "Europe/Athens"},
			[]string{"2026-03-29", "2027-03-28"}, []string{"2026-10-25", "2027-10-31"}, 60},
		{[]string{"America/New_York", "America/Chicago", "America/Denver", "America/Los_Angeles"},
			[]string{"2026-03-08", "2027-03-14"}, []string{"2026-11-01", "2027-11-07"}, 60},
		{[]string{"Australia/Sydney", "Australia/Melbourne", "Australia/Hobart", "Australia/Adelaide"},
			[]string{"2026-10-04", "2027-10-03"}, []string{"2026-04-05", "2027-04-04"}, 60},
		{[]string{"Australia/Lord_Howe"},
			[]string{"2026-10-04", "2027-10-03"}, []string{"2026-04-05", "2027-04-04"}, 30},
		{[]string{"Pacific/Auckland"},
			[]string{"2026-09-27", "2027-09-26"}, []string{"2026-04-05", "2027-04-04"}, 60},
		{[]string{"America/Phoenix", "Australia/Brisbane", "Australia/Perth", "Asia/Kolkata",
			"America/Sao_Paulo", "America/Mexico_City"}, nil, nil, 0},
	}
	for _, tt := range tests {
		clear(forward)
		clear(back)
		for _, d := range tt.forward {
			forward[d] = true
		}
		for _, d := range tt.back {
			back[d] = true
		}
		for _, name := range tt.zones {
			zone := zoneOf(t, name)
			for d := dateAt(t, "2026-01-01"); d.Year < 2028; d = d.AddDays(1) {
				want := resources.Day
				if forward[d.String()] {
					want -= tt.by
				}
				if back[d.String()] {
					want += tt.by
				}
				if got := d.Span(zone).Length(); got != want {
					t.Errorf("%s: %v is %d min long, want %d", name, d, got, want)
				}
			}
		}
	}
}

// Where the clock jumps from and to, in the same rules.
func TestHourOfTheChange(t *testing.T) {
	tests := []struct {
		zone, date   string
		from, to     resources.Clock // the clock jumps from one to the other
		before, then string          // the minute before the jump, and the jump
	}{
		{"Europe/London", "2026-03-29", clockAt(1, 0), clockAt(2, 0), "2026-03-29T00:59Z", "2026-03-29T02:00+01:00"},
		{"Europe/Paris", "2026-03-29", clockAt(2, 0), clockAt(3, 0), "2026-03-29T01:59+01:00", "2026-03-29T03:00+02:00"},
		{"Europe/Athens", "2026-03-29", clockAt(3, 0), clockAt(4, 0), "2026-03-29T02:59+02:00", "2026-03-29T04:00+03:00"},
		{"America/New_York", "2026-03-08", clockAt(2, 0), clockAt(3, 0), "2026-03-08T01:59-05:00", "2026-03-08T03:00-04:00"},
		{"Australia/Sydney", "2026-10-04", clockAt(2, 0), clockAt(3, 0), "2026-10-04T01:59+10:00", "2026-10-04T03:00+11:00"},
		{"Pacific/Auckland", "2026-09-27", clockAt(2, 0), clockAt(3, 0), "2026-09-27T01:59+12:00", "2026-09-27T03:00+13:00"},
		{"Australia/Lord_Howe", "2026-10-04", clockAt(2, 0), clockAt(2, 30), "2026-10-04T01:59+10:30", "2026-10-04T02:30+11:00"},
	}
	for _, tt := range tests {
		zone, d := zoneOf(t, tt.zone), dateAt(t, tt.date)
		for c := tt.from - 1; c <= tt.to; c++ {
			want := tt.then
			if c < tt.from {
				want = tt.before
			}
			got, skipped := d.Written(c, zone)
			if show(got, zone) != want || skipped != (c >= tt.from && c < tt.to) {
				t.Errorf("%s %s, minute %d: got %s, skipped %v, want %s", tt.zone, tt.date, c, show(got, zone), skipped, want)
			}
		}
	}
}
