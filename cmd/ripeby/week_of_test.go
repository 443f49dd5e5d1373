package main

import "testing"

func TestWeekOfReadsAnISOWeek(t *testing.T) {
	// The pairs are of ISO 8601's own rule, week 1 holding 4 January.
	for _, c := range []struct{ in, want string }{
		{"2027-W12", "2027-03-22"}, {"2026-W53", "2026-12-28"}, {"2027-W01", "2027-01-04"},
		{"2020-W53", "2020-12-28"}, {"2027-03-20", "2027-03-20"},
	} {
		got, err := parseDay(c.in)
		if err != nil || got.String() != c.want {
			t.Errorf("%s: got %s, %v, want %s", c.in, got, err, c.want)
		}
	}
	for _, in := range []string{"2027-W53", "2027-W00", "2027-W1", "W12", "2027-W123"} {
		if got, err := parseDay(in); err == nil {
			t.Errorf("%s: got %s, want an error", in, got)
		}
	}
}
