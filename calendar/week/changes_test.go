package week

import (
	"strings"
	"testing"
	"time"

	"ripeby/calendar/sample"
	"ripeby/calendar/words"
	"ripeby/resources"
)

// ISO 8601 weeks; checked against the standard's rule that week 1 holds 4 January.
func TestISOWeekInTitle(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	for _, c := range []struct {
		y    int
		m    int
		d    int
		want string
		days string
	}{
		{2026, 12, 28, "week 53 of 2026 (2026-W53)", "Mon 28 Dec to Sun 3 Jan 2027"},
		{2027, 1, 3, "week 53 of 2026 (2026-W53)", "Mon 28 Dec to Sun 3 Jan 2027"},
		{2027, 1, 4, "week 1 of 2027 (2027-W01)", "Mon 4 Jan to Sun 10 Jan 2027"},
		{2024, 12, 30, "week 1 of 2025 (2025-W01)", "Mon 30 Dec to Sun 5 Jan 2025"},
		{2022, 12, 31, "week 52 of 2022 (2022-W52)", "Mon 26 Dec to Sun 1 Jan 2023"},
	} {
		day := resources.Date{Year: c.y, Month: time.Month(c.m), Day: c.d}
		got := tableText(t, p, plan, Options{Of: day})
		if !strings.Contains(got, c.want) || !strings.Contains(got, c.days) {
			t.Errorf("%v: got\n%s\nwant %q and %q", day, got, c.want, c.days)
		}
	}
}

func TestClockChangesOfADay(t *testing.T) {
	for _, c := range []struct {
		zone    string
		y, m, d int
		want    []string
	}{
		{"Europe/Dublin", 2027, 3, 28, []string{"Clocks go forward 1 h at 01:00."}},
		{"Europe/Dublin", 2027, 3, 27, nil},
		{"Europe/Dublin", 2027, 10, 31, []string{"Clocks go back 1 h at 02:00: 01:00 to 02:00 comes twice."}},
		{"Europe/Paris", 2027, 3, 28, []string{"Clocks go forward 1 h at 02:00."}},
		{"America/New_York", 2026, 3, 8, []string{"Clocks go forward 1 h at 02:00."}},
		{"Australia/Sydney", 2026, 4, 5, []string{"Clocks go back 1 h at 03:00: 02:00 to 03:00 comes twice."}},
		{"Australia/Lord_Howe", 2026, 10, 4, []string{"Clocks go forward 30 min at 02:00."}},
		{"Asia/Kolkata", 2026, 10, 4, nil},
	} {
		zone := sample.Zone(c.zone)
		day := resources.Date{Year: c.y, Month: time.Month(c.m), Day: c.d}
		var got []string
		for _, change := range changesWithin(day.Span(zone), zone) {
			got = append(got, words.Unglue(change.text()))
		}
		if strings.Join(got, "|") != strings.Join(c.want, "|") {
			t.Errorf("%s on %v: got %q, want %q", c.zone, day, got, c.want)
		}
	}
}

// Both passes of the repeated hour stand on their day, in their true order.
func TestWeekOfTheRepeatedHour(t *testing.T) {
	p := sample.Kitchen()
	utc := sample.Zone("UTC")
	plan := sample.Plan(p)
	first, second := sample.At(utc, "2027-10-31 00:30"), sample.At(utc, "2027-10-31 01:30")
	plan.Batches = plan.Batches[:1]
	plan.Batches[0].Stages[0].Start = second
	plan.Batches[0].Stages[2].Start = first
	got := tableText(t, p, plan, Options{Of: resources.Date{Year: 2027, Month: 10, Day: 31}})
	a, b := strings.Index(got, "01:30 IST"), strings.Index(got, "01:30 GMT")
	if a < 0 || b < a {
		t.Errorf("want 01:30 IST before 01:30 GMT in\n%s", got)
	}
	if !strings.Contains(got, "! Clocks go back 1 h at 02:00") {
		t.Errorf("no note of the clock change in\n%s", got)
	}
}
