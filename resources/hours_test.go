package resources_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ripeby/resources"
)

// on writes a window of hours on the days named, or on all when none is.
func on(from, until resources.Clock, days ...time.Weekday) resources.Hours {
	set := resources.Daily
	if len(days) > 0 {
		set = 0
		for _, d := range days {
			set = set.With(d)
		}
	}
	return resources.Hours{Days: set, From: from, Until: until}
}

func TestWindows(t *testing.T) {
	night := on(clockAt(22, 0), clockAt(2, 0))
	tests := []struct {
		name, zone, within string
		hours              []resources.Hours
		away, want         []string
	}{
		{"no hours", "Europe/Dublin", "2027-03-01T00:00Z/2027-03-02T00:00Z", nil, nil, nil},
		{"empty span", "Europe/Dublin", "2027-03-01T08:00Z/2027-03-01T08:00Z",
			[]resources.Hours{on(clockAt(6, 0), clockAt(9, 0))}, nil, nil},
		{"only on its days", "Europe/Dublin", "2027-03-04T00:00Z/2027-03-09T00:00Z", // Thursday to Monday
			[]resources.Hours{on(clockAt(7, 0), clockAt(20, 0), time.Saturday, time.Sunday)}, nil,
			[]string{"2027-03-06T07:00Z/2027-03-06T20:00Z", "2027-03-07T07:00Z/2027-03-07T20:00Z"}},
		{"overlapping and touching windows are one", "UTC", "2027-03-01T00:00Z/2027-03-02T00:00Z",
			[]resources.Hours{on(clockAt(9, 0), clockAt(12, 0)), on(clockAt(6, 0), clockAt(8, 0)), on(clockAt(8, 0), clockAt(10, 0))}, nil,
			[]string{"2027-03-01T06:00Z/2027-03-01T12:00Z"}},
		{"clipped on both sides", "UTC", "2027-03-01T07:00Z/2027-03-02T07:00Z",
			[]resources.Hours{on(clockAt(6, 0), clockAt(8, 0))}, nil,
			[]string{"2027-03-01T07:00Z/2027-03-01T08:00Z", "2027-03-02T06:00Z/2027-03-02T07:00Z"}},
		{"past midnight belongs to the day it opens", "UTC", "2027-03-01T00:00Z/2027-03-04T00:00Z", // Monday to Wednesday
			[]resources.Hours{on(clockAt(22, 0), clockAt(2, 0), time.Monday)}, nil,
			[]string{"2027-03-01T22:00Z/2027-03-02T02:00Z"}},
		{"opened before the span", "UTC", "2027-03-02T00:30Z/2027-03-02T01:00Z",
			[]resources.Hours{on(clockAt(22, 0), clockAt(2, 0), time.Monday)}, nil,
			[]string{"2027-03-02T00:30Z/2027-03-02T01:00Z"}},
		{"opened almost a day before", "UTC", "2027-03-02T23:57Z/2027-03-03T06:00Z",
			[]resources.Hours{on(clockAt(23, 59), clockAt(23, 58), time.Monday)}, nil,
			[]string{"2027-03-02T23:57Z/2027-03-02T23:58Z"}},
		{"opened more than 24 elapsed hours before", "Europe/Paris", "2027-10-31T23:30+01:00/2027-11-01T00:00+01:00",
			[]resources.Hours{on(clockAt(23, 50), clockAt(23, 45), time.Saturday)}, nil,
			[]string{"2027-10-31T23:30+01:00/2027-10-31T23:45+01:00"}},
		{"opened almost two elapsed days before", "Pacific/Kwajalein", "1969-09-30T23:40+11:00/1969-10-02T00:00-12:00",
			[]resources.Hours{on(clockAt(23, 50), clockAt(23, 45), time.Tuesday)}, nil,
			[]string{"1969-09-30T23:50+11:00/1969-10-01T23:45-12:00"}}, // the day came twice
		{"24 hours from an hour to itself", "UTC", "2027-03-01T00:00Z/2027-03-03T00:00Z",
			[]resources.Hours{on(clockAt(6, 0), clockAt(6, 0), time.Monday)}, nil,
			[]string{"2027-03-01T06:00Z/2027-03-02T06:00Z"}},
		{"all hours over a change are one", "Europe/Paris", "2027-03-26T23:00Z/2027-03-30T22:00Z",
			[]resources.Hours{on(0, clockAt(24, 0))}, nil,
			[]string{"2027-03-27T00:00+01:00/2027-03-31T00:00+02:00"}},
		{"evening and morning touch at midnight", "UTC", "2027-03-01T12:00Z/2027-03-02T12:00Z",
			[]resources.Hours{on(clockAt(20, 0), clockAt(24, 0)), on(0, clockAt(4, 0))}, nil,
			[]string{"2027-03-01T20:00Z/2027-03-02T04:00Z"}},

		{"night over a short night", "Europe/Paris", "2027-03-27T12:00+01:00/2027-03-28T12:00+02:00",
			[]resources.Hours{on(clockAt(22, 0), clockAt(4, 0))}, nil,
			[]string{"2027-03-27T22:00+01:00/2027-03-28T04:00+02:00"}}, // 5 h
		{"night over a long night", "Europe/Paris", "2027-10-30T12:00+02:00/2027-10-31T12:00+01:00",
			[]resources.Hours{on(clockAt(22, 0), clockAt(4, 0))}, nil,
			[]string{"2027-10-30T22:00+02:00/2027-10-31T04:00+01:00"}}, // 7 h
		{"closes as the hour is skipped", "Europe/Paris", "2027-03-27T12:00+01:00/2027-03-28T12:00+02:00",
			[]resources.Hours{night}, nil,
			[]string{"2027-03-27T22:00+01:00/2027-03-28T03:00+02:00"}}, // 02:00 does not come
		{"closes as the hour comes first", "Europe/Paris", "2027-10-30T12:00+02:00/2027-10-31T12:00+01:00",
			[]resources.Hours{night}, nil,
			[]string{"2027-10-30T22:00+02:00/2027-10-31T02:00+02:00"}},
		{"opens in the skipped hour", "Europe/Paris", "2027-03-28T00:00+01:00/2027-03-28T12:00+02:00",
			[]resources.Hours{on(clockAt(2, 30), clockAt(5, 0))}, nil,
			[]string{"2027-03-28T03:00+02:00/2027-03-28T05:00+02:00"}},
		{"wholly in the skipped hour", "Europe/Paris", "2027-03-28T00:00+01:00/2027-03-28T12:00+02:00",
			[]resources.Hours{on(clockAt(2, 10), clockAt(2, 50))}, nil, nil},
		{"opens in the repeated hour, the first time", "Europe/Paris", "2027-10-31T00:00+02:00/2027-10-31T12:00+01:00",
			[]resources.Hours{on(clockAt(2, 30), clockAt(5, 0))}, nil,
			[]string{"2027-10-31T02:30+02:00/2027-10-31T05:00+01:00"}}, // 3.5 h
		{"half an hour is skipped", "Australia/Lord_Howe", "2026-10-04T00:00+10:30/2026-10-04T12:00+11:00",
			[]resources.Hours{on(clockAt(1, 0), clockAt(2, 15)), on(clockAt(2, 20), clockAt(4, 0))}, nil,
			[]string{"2026-10-04T01:00+10:30/2026-10-04T04:00+11:00"}}, // both edges are the change
		{"half an hour is repeated", "Australia/Lord_Howe", "2026-04-05T00:00+11:00/2026-04-05T12:00+10:30",
			[]resources.Hours{on(clockAt(1, 40), clockAt(2, 0))}, nil,
			[]string{"2026-04-05T01:40+11:00/2026-04-05T02:00+10:30"}}, // 50 min
		{"southern spring", "Australia/Sydney", "2026-10-03T12:00+10:00/2026-10-04T12:00+11:00",
			[]resources.Hours{on(clockAt(22, 0), clockAt(6, 0))}, nil,
			[]string{"2026-10-03T22:00+10:00/2026-10-04T06:00+11:00"}},
		{"opens at a midnight that is skipped", "America/Sao_Paulo", "2018-11-03T12:00-03:00/2018-11-04T12:00-02:00",
			[]resources.Hours{on(0, clockAt(4, 0))}, nil,
			[]string{"2018-11-04T01:00-02:00/2018-11-04T04:00-02:00"}},
		{"closes at a midnight that is skipped", "America/Sao_Paulo", "2018-11-03T12:00-03:00/2018-11-04T12:00-02:00",
			[]resources.Hours{on(clockAt(20, 0), clockAt(24, 0))}, nil,
			[]string{"2018-11-03T20:00-03:00/2018-11-04T01:00-02:00"}},
		{"a day that is skipped opens nothing", "Pacific/Apia", "2011-12-29T00:00-10:00/2012-01-01T00:00+14:00",
			[]resources.Hours{on(clockAt(6, 0), clockAt(8, 0)), on(clockAt(22, 0), clockAt(2, 0), time.Friday)}, nil,
			[]string{"2011-12-29T06:00-10:00/2011-12-29T08:00-10:00", "2011-12-31T06:00+14:00/2011-12-31T08:00+14:00"}},
		{"a night into a day that is skipped", "Pacific/Apia", "2011-12-29T00:00-10:00/2012-01-01T00:00+14:00",
			[]resources.Hours{on(clockAt(22, 0), clockAt(2, 0), time.Thursday)}, nil,
			[]string{"2011-12-29T22:00-10:00/2011-12-31T00:00+14:00"}},

		{"away in the middle", "UTC", "2027-03-01T00:00Z/2027-03-02T00:00Z",
			[]resources.Hours{on(clockAt(8, 0), clockAt(18, 0))}, []string{"2027-03-01T10:00Z/2027-03-01T12:00Z"},
			[]string{"2027-03-01T08:00Z/2027-03-01T10:00Z", "2027-03-01T12:00Z/2027-03-01T18:00Z"}},
		{"away the day, not the night before", "UTC", "2027-03-01T12:00Z/2027-03-03T00:00Z",
			[]resources.Hours{night}, []string{"2027-03-02T00:00Z/2027-03-03T00:00Z"},
			[]string{"2027-03-01T22:00Z/2027-03-02T00:00Z"}},
		{"away all the time", "UTC", "2027-03-01T00:00Z/2027-03-02T00:00Z",
			[]resources.Hours{on(clockAt(8, 0), clockAt(18, 0))}, []string{"2027-02-01T00:00Z/2027-04-01T00:00Z"}, nil},
	}
	for _, tt := range tests {
		zone := zoneOf(t, tt.zone)
		p := resources.Person{Hours: tt.hours, Away: spansAt(t, tt.away...)}
		got := p.Windows(spanAt(t, tt.within), zone)
		if want := spansAt(t, tt.want...); !slices.Equal(got, want) {
			t.Errorf("%s: got\n%s\nwant\n%s", tt.name, showSpans(got, zone), showSpans(want, zone))
		}
	}
}

// What somebody would rather not do is not cut to their hours or by their
// absence.
func TestAvoids(t *testing.T) {
	p := resources.Person{
		Hours:     []resources.Hours{on(clockAt(8, 0), clockAt(12, 0))},
		RatherNot: []resources.Hours{on(clockAt(5, 0), clockAt(7, 0)), on(clockAt(6, 0), clockAt(9, 0), time.Monday)},
		Away:      spansAt(t, "2027-03-01T00:00Z/2027-03-03T00:00Z"),
	}
	got := p.Avoids(spanAt(t, "2027-03-01T06:30Z/2027-03-03T00:00Z"), time.UTC)
	want := spansAt(t, "2027-03-01T06:30Z/2027-03-01T09:00Z", "2027-03-02T05:00Z/2027-03-02T07:00Z")
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", showSpans(got, time.UTC), showSpans(want, time.UTC))
	}
	if got := (resources.Person{}).Avoids(want[0], time.UTC); got != nil {
		t.Errorf("nothing written: got %v, want nil", got)
	}
}

var anyHours = rapid.Custom(func(t *rapid.T) resources.Hours {
	return resources.Hours{
		Days:  resources.Weekdays(rapid.IntRange(1, int(resources.Daily)).Draw(t, "days")),
		From:  resources.Clock(rapid.IntRange(0, 1439).Draw(t, "from")),
		Until: resources.Clock(rapid.IntRange(0, 1440).Draw(t, "until")),
	}
})

// freeByMinute goes through the minutes of a span one by one and asks of each
// whether the hours are open and nobody is away. The edges are passed when the
// highest reading that the wall clock has shown so far is at or past them.
func freeByMinute(p resources.Person, within resources.Span, zone *time.Location) map[resources.Moment]bool {
	const lead = 4 * 24 * 60 // so that windows which opened before are seen to open
	free := map[resources.Moment]bool{}
	exists := map[resources.Date]bool{}
	highest := wallReading(within.From-lead, zone)
	for m := within.From - lead; m < within.Until; m++ {
		exists[m.DateIn(zone)] = true
		highest = max(highest, wallReading(m, zone))
		today := resources.Moment(highest).DateIn(time.UTC)
		open := false
		for back := range 3 {
			d := today.AddDays(-back)
			for _, h := range p.Hours {
				closes := readingOf(d, h.Until)
				if h.Until <= h.From {
					closes += 24 * 60
				}
				if exists[d] && h.Days.Has(d.Weekday()) && readingOf(d, h.From) <= highest && highest < closes {
					open = true
				}
			}
		}
		for _, a := range p.Away {
			open = open && !a.Contains(resources.Span{From: m, Until: m + 1})
		}
		if open && m >= within.From {
			free[m] = true
		}
	}
	return free
}

// A person with hours of all sorts, away now and then.
func anyPerson(t *rapid.T, around resources.Moment) resources.Person {
	p := resources.Person{Hours: rapid.SliceOfN(anyHours, 0, 3).Draw(t, "hours")}
	for range rapid.IntRange(0, 2).Draw(t, "absences") {
		from := around + resources.Moment(rapid.Int64Range(-1000, 4000).Draw(t, "away from"))
		p.Away = append(p.Away, resources.Span{From: from, Until: from + resources.Moment(rapid.Int64Range(0, 1500).Draw(t, "away for"))})
	}
	return p
}

func TestWindowsMinuteByMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone, from := anyMoment(t)
		from -= 1500 // the change, if there is one near, lies within
		within := resources.Span{From: from, Until: from + resources.Moment(rapid.Int64Range(0, 4000).Draw(t, "length"))}
		p := anyPerson(t, from)
		got := p.Windows(within, zone)
		if !tidy(got) {
			t.Errorf("%v: windows not sorted and apart:\n%s", zone, showSpans(got, zone))
		}
		want := freeByMinute(p, within, zone)
		count := 0
		for _, s := range got {
			for m := s.From; m < s.Until; m++ {
				count++
				if !want[m] {
					t.Fatalf("%v: %s is in the windows of %+v, and should not be", zone, show(m, zone), p)
				}
			}
		}
		if count != len(want) {
			t.Errorf("%v: windows of %+v hold %d min, want %d:\n%s", zone, p, count, len(want), showSpans(got, zone))
		}
	})
}

// A year and more of one person's windows, well under 5 ms.
func BenchmarkWindows60Weeks(b *testing.B) {
	zone := zoneOf(b, "Europe/Dublin")
	p := resources.Person{
		Hours: []resources.Hours{
			on(clockAt(6, 0), clockAt(8, 0), 1, 2, 3, 4, 5),
			on(clockAt(17, 30), clockAt(21, 30), 1, 2, 3, 4, 5),
			on(clockAt(7, 0), clockAt(20, 0), 0, 6),
		},
		Away: spansAt(b, "2027-03-12T00:00Z/2027-03-15T00:00Z", "2027-08-01T00:00+01:00/2027-08-15T00:00+01:00"),
	}
	from := momentAt(b, "2027-03-01T06:00Z")
	within := resources.Span{From: from, Until: from.Add(60 * 7 * resources.Day)}
	b.ReportAllocs()
	for b.Loop() {
		if len(p.Windows(within, zone)) == 0 {
			b.Fatal("no windows")
		}
	}
}
