package judge

import (
	"testing"
	"time"

	"ripeby/resources"
)

// The changes of 2027: Dublin 28 March 01:00 UTC and 31 October 01:00 UTC; Hobart
// 4 April and 3 October at 02:00 standard time; Lord Howe the same days by half an
// hour (tz database, rules EU, AT and LH).
func TestWallClockAcrossChanges(t *testing.T) {
	for _, x := range []struct {
		name, zone string
		day        resources.Date
		clock      resources.Clock
		want       string // UTC
	}{
		{"Dublin, winter", "Europe/Dublin", resources.Date{Year: 2027, Month: 3, Day: 27}, hm(1, 30), "2027-03-27T01:30:00Z"},
		{"Dublin, before the change", "Europe/Dublin", resources.Date{Year: 2027, Month: 3, Day: 28}, hm(0, 59), "2027-03-28T00:59:00Z"},
		{"Dublin, skipped", "Europe/Dublin", resources.Date{Year: 2027, Month: 3, Day: 28}, hm(1, 30), "2027-03-28T01:00:00Z"},
		{"Dublin, after the change", "Europe/Dublin", resources.Date{Year: 2027, Month: 3, Day: 28}, hm(2, 0), "2027-03-28T01:00:00Z"},
		{"Dublin, repeated: the first", "Europe/Dublin", resources.Date{Year: 2027, Month: 10, Day: 31}, hm(1, 30), "2027-10-31T00:30:00Z"},
		{"Dublin, after the repetition", "Europe/Dublin", resources.Date{Year: 2027, Month: 10, Day: 31}, hm(2, 0), "2027-10-31T02:00:00Z"},
		{"Dublin, midnight that ends a day", "Europe/Dublin", resources.Date{Year: 2027, Month: 3, Day: 28}, hm(24, 0), "2027-03-28T23:00:00Z"},
		{"Hobart, skipped", "Australia/Hobart", resources.Date{Year: 2027, Month: 10, Day: 3}, hm(2, 45), "2027-10-02T16:00:00Z"},
		{"Hobart, repeated: the first", "Australia/Hobart", resources.Date{Year: 2027, Month: 4, Day: 4}, hm(2, 45), "2027-04-03T15:45:00Z"},
		{"Hobart, after the repetition", "Australia/Hobart", resources.Date{Year: 2027, Month: 4, Day: 4}, hm(3, 0), "2027-04-03T17:00:00Z"},
		{"Lord Howe, half an hour skipped", "Australia/Lord_Howe", resources.Date{Year: 2027, Month: 10, Day: 3}, hm(2, 15), "2027-10-02T15:30:00Z"},
		{"Lord Howe, half an hour repeated", "Australia/Lord_Howe", resources.Date{Year: 2027, Month: 4, Day: 4}, hm(1, 45), "2027-04-03T14:45:00Z"},
		{"Kolkata, no change", "Asia/Kolkata", resources.Date{Year: 2027, Month: 3, Day: 28}, hm(7, 0), "2027-03-28T01:30:00Z"},
		{"Kiritimati, far ahead", "Pacific/Kiritimati", resources.Date{Year: 2027, Month: 3, Day: 28}, hm(7, 0), "2027-03-27T17:00:00Z"},
		{"Midway, far behind", "Pacific/Midway", resources.Date{Year: 2027, Month: 3, Day: 28}, hm(7, 0), "2027-03-28T18:00:00Z"},
		{"UTC", "UTC", resources.Date{Year: 2027, Month: 3, Day: 28}, hm(7, 0), "2027-03-28T07:00:00Z"},
	} {
		t.Run(x.name, func(t *testing.T) {
			got := time.Unix(int64(wallClock(zoneOf(t, x.zone), dayOf(x.day), x.clock))*60, 0).UTC().Format(time.RFC3339)
			if got != x.want {
				t.Errorf("got %s, want %s", got, x.want)
			}
		})
	}
}

// Every quarter of an hour that exists comes back from its own reading, unless the
// reading is repeated: then its first does.
func TestWallClockIsTheFirstOfItsReading(t *testing.T) {
	for _, name := range []string{"Europe/Dublin", "Australia/Hobart", "Australia/Lord_Howe", "America/St_Johns"} {
		zone := zoneOf(t, name)
		seen := map[string]resources.Moment{}
		for m := clock(t, zone, "2027-01-01 12:00"); m < clock(t, zone, "2027-12-31 12:00"); m += 15 {
			at := m.In(zone)
			if m := at.Month(); m != time.April && m != time.March && m != time.October && m != time.November {
				continue // no clock changes then
			}
			first, known := seen[at.Format("2006-01-02 15:04")]
			if !known {
				first = m
				seen[at.Format("2006-01-02 15:04")] = m
			}
			if got := wallClock(zone, dayIn(m, zone), hm(at.Hour(), at.Minute())); got != first {
				t.Fatalf("%s: got %d for the reading %s, want %d", name, got, at, first)
			}
		}
	}
}

func TestDayRoundTrip(t *testing.T) {
	for _, x := range []struct {
		date    resources.Date
		day     day
		weekday time.Weekday
	}{
		{resources.Date{Year: 1970, Month: 1, Day: 1}, 0, time.Thursday},
		{resources.Date{Year: 1969, Month: 12, Day: 31}, -1, time.Wednesday},
		{resources.Date{Year: 2027, Month: 3, Day: 28}, 20905, time.Sunday},
	} {
		if got := dayOf(x.date); got != x.day || got.weekday() != x.weekday || got.date() != x.date {
			t.Errorf("got day %d, %s, %v for %v; want %d, %s", got, got.weekday(), got.date(), x.date, x.day, x.weekday)
		}
	}
}

func TestWindows(t *testing.T) {
	zone := zoneOf(t, "Europe/Dublin")
	first := dayOf(resources.Date{Year: 2027, Month: 3, Day: 27}) // a Saturday
	at := func(s string) resources.Moment { return clock(t, zone, s) }
	sat, sun := resources.Weekdays(0).With(time.Saturday), resources.Weekdays(0).With(time.Sunday)
	for _, x := range []struct {
		name  string
		hours []resources.Hours
		away  []resources.Span
		want  []resources.Span
	}{
		{"two that touch are one", []resources.Hours{{Days: sat, From: hm(6, 0), Until: hm(8, 0)}, {Days: sat, From: hm(8, 0), Until: hm(9, 0)}}, nil,
			[]resources.Span{{From: at("2027-03-27 06:00"), Until: at("2027-03-27 09:00")}}},
		{"past midnight, an hour shorter by the change", []resources.Hours{{Days: sat, From: hm(22, 0), Until: hm(4, 0)}}, nil,
			[]resources.Span{{From: at("2027-03-27 22:00"), Until: at("2027-03-27 22:00") + 300}}},
		{"to 24:00 and on from 00:00", []resources.Hours{{Days: sat, From: hm(20, 0), Until: hm(24, 0)}, {Days: sun, From: 0, Until: hm(3, 0)}}, nil,
			[]resources.Span{{From: at("2027-03-27 20:00"), Until: at("2027-03-28 03:00")}}},
		{"all in the skipped hour", []resources.Hours{{Days: sun, From: hm(1, 0), Until: hm(2, 0)}}, nil, nil},
		{"away in the middle", []resources.Hours{{Days: sat, From: hm(6, 0), Until: hm(12, 0)}},
			[]resources.Span{{From: at("2027-03-27 10:00"), Until: at("2027-03-27 11:00")}, {From: at("2027-03-27 08:00"), Until: at("2027-03-27 09:00")}},
			[]resources.Span{{From: at("2027-03-27 06:00"), Until: at("2027-03-27 08:00")}, {From: at("2027-03-27 09:00"), Until: at("2027-03-27 10:00")},
				{From: at("2027-03-27 11:00"), Until: at("2027-03-27 12:00")}}},
		{"away all day", []resources.Hours{{Days: sat, From: hm(6, 0), Until: hm(12, 0)}},
			[]resources.Span{{From: at("2027-03-27 00:00"), Until: at("2027-03-28 00:00")}}, nil},
	} {
		t.Run(x.name, func(t *testing.T) {
			got := without(windows(zone, x.hours, first, first+1), x.away)
			if len(got) != len(x.want) {
				t.Fatalf("got %v, want %v", got, x.want)
			}
			for i := range got {
				if got[i] != x.want[i] {
					t.Errorf("got %v, want %v", got, x.want)
				}
			}
		})
	}
}
