package ical

import (
	"fmt"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"

	"ripeby/resources"
	"ripeby/schedule/testrun"
)

// Every local time of three years, of one in a quick run, that comes only once means the same moment to a
// reader that has nothing but the VTIMEZONE as to the zone data; and a local time
// is called repeated exactly when two moments have it.
//
//	22:00  23:00  00:00  01:00 01:30 | 01:00 01:30  02:00     Dublin, 31 October 2027
//	                     `-- first --'`-- again --'           both are repeated
func TestZoneOfItsOwn(t *testing.T) {
	zones := []string{
		"Europe/Dublin",       // its winter is an hour of negative saving
		"Africa/Casablanca",   // changes twice a year around Ramadan
		"America/New_York",    // behind UTC
		"America/St_Johns",    // half an hour behind
		"Pacific/Auckland",    // southern
		"Pacific/Chatham",     // three quarters of an hour
		"Australia/Lord_Howe", // half an hour's change
		"Asia/Kolkata",        // no change since 1945
		"America/Sao_Paulo",   // none since 2019
		"Africa/Cairo",        // at midnight
		"Antarctica/Troll",    // two hours' change
		"Pacific/Kiritimati",  // 14 hours ahead
		"Pacific/Pago_Pago",   // 11 hours behind
		"UTC",
	}
	for _, name := range zones {
		t.Run(name, func(t *testing.T) {
			p := kitchenIn(t, name)
			zone := p.Kitchen.Zone
			first, last := momentAt(t, "2026-01-02 00:00"), momentAt(t, fmt.Sprintf("%d-12-30 00:00", testrun.Rounds(2026, 2028)))
			data, err := write(block{name: "VCALENDAR", blocks: []block{zoneOf(name, zone, first, last)}})
			if err != nil {
				t.Fatal(err)
			}
			clock := ownZone(t, data)
			const grid = 15 * resources.Minutes(1)
			times := map[string]int{}
			for m := first; m < last; m = m.Add(grid) {
				times[m.In(zone).Format(localTime)]++
			}
			for m := first.Add(resources.Day); m < last.Add(-resources.Day); m = m.Add(grid) {
				at := m.In(zone)
				local := at.Format(localTime)
				if got, want := repeated(at), times[local] > 1; got != want {
					t.Fatalf("%s: repeated %v, want %v", at, got, want)
				}
				if times[local] > 1 {
					continue
				}
				got, err := clock(&ical.Prop{Name: "DTSTART", Value: local, Params: ical.Params{"TZID": {name}}})
				if err != nil || !got.Equal(at) {
					t.Fatalf("%s: got %s, %v", at, got, err)
				}
			}
		})
	}
}

// Ireland's winter is written as standard time, whichever way the zone data were
// compiled (IANA tz, file europe, comment on Ireland's negative saving).
func TestZoneKindOfIreland(t *testing.T) {
	zone := kitchenIn(t, "Europe/Dublin").Kitchen.Zone
	got := observances(time.Date(2027, 1, 1, 0, 0, 0, 0, zone), time.Date(2028, 1, 1, 0, 0, 0, 0, zone))
	want := []observance{
		{"20261025T020000", 3600, 0, "GMT", false},
		{"20270328T010000", 0, 3600, "IST", true},
		{"20271031T020000", 3600, 0, "GMT", false},
	}
	if len(got) != len(want) {
		t.Fatalf("got %+v, want %+v", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("got %+v, want %+v", got[i], want[i])
		}
	}
}

func TestOffset(t *testing.T) {
	for _, c := range []struct {
		in   int
		want string
	}{{0, "+0000"}, {3600, "+0100"}, {-12600, "-0330"}, {20700, "+0545"}, {-75, "-000115"}, {50400, "+1400"}} {
		if got := offset(c.in); got != c.want {
			t.Errorf("%d: got %s, want %s", c.in, got, c.want)
		}
	}
}

func TestWording(t *testing.T) {
	w := wording{kitchenIn(t, "Europe/Dublin").Kitchen.Zone}
	for _, c := range []struct{ got, want string }{
		{w.length(5), "5 min"}, {w.length(90), "90 min"}, {w.length(120), "2 h"}, {w.length(150), "2 h 30 min"},
		{w.length(30 * 60), "30 h"}, {w.length(48 * 60), "2 d"}, {w.length(49*60 + 5), "2 d 1 h 5 min"}, {w.length(0), "0 min"}, {w.length(-200), "-3 h 20 min"},
		{w.litres(8000), "8 L"}, {w.litres(7500), "7.5 L"}, {w.litres(100_000), "100 L"}, {w.litres(3785), "3.785 L"},
		{w.pieces(1), "1 piece"}, {w.pieces(0), "0 pieces"},
		{w.moment(momentAt(t, "2027-10-31 00:30")), "Sun 31 Oct 2027 01:30 IST"},
		{w.moment(momentAt(t, "2027-10-31 01:30")), "Sun 31 Oct 2027 01:30 GMT"},
		{w.moment(momentAt(t, "2027-10-31 02:00")), "Sun 31 Oct 2027 02:00"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
