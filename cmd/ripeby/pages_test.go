package main

import (
	"slices"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

func TestMondayOf(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"2027-03-01", "2027-03-01"}, // a Monday
		{"2027-03-07", "2027-03-01"}, // the Sunday of the same week
		{"2027-03-08", "2027-03-08"},
		{"2027-01-01", "2026-12-28"}, // ISO week 53 of 2026 (ISO 8601, first week has a Thursday)
		{"2028-03-01", "2028-02-28"}, // past a leap day
	} {
		in, err := parseDay(c.in)
		if err != nil {
			t.Fatal(err)
		}
		want, err := parseDay(c.want)
		if err != nil {
			t.Fatal(err)
		}
		if got := mondayOf(in); got != want {
			t.Errorf("%s: got %v, want %v", c.in, got, want)
		}
	}
}

// at is a moment of 2027 in UTC.
func at(month time.Month, day, hour int) resources.Moment {
	return resources.MomentOf(time.Date(2027, month, day, hour, 0, 0, 0, time.UTC))
}

func TestWeeksOf(t *testing.T) {
	monday := func(month time.Month, day int) resources.Date {
		return resources.Date{Year: 2027, Month: month, Day: day}
	}
	apia := time.FixedZone("UTC+13", 13*3600)
	for _, c := range []struct {
		name string
		plan schedule.Plan
		zone *time.Location
		want []resources.Date
	}{
		{"nothing to do", schedule.Plan{From: at(3, 3, 6)}, time.UTC, []resources.Date{monday(3, 1)}},
		{"work, a round and a target, each week once", schedule.Plan{From: at(3, 1, 6),
			Batches: []schedule.Batch{{Stages: []schedule.Task{{Start: at(3, 9, 7), Work: 30}, {Start: at(3, 10, 7), Work: 30}}}},
			Rounds:  []schedule.RoundBlock{{Start: at(3, 16, 7)}},
			Targets: []schedule.WantResult{{By: at(4, 2, 7)}}}, time.UTC,
			[]resources.Date{monday(3, 8), monday(3, 15), monday(3, 29)}},
		{"what has begun and what needs no hands is no week of its own", schedule.Plan{From: at(3, 8, 6),
			Batches: []schedule.Batch{{Stages: []schedule.Task{{Start: at(3, 1, 7), Work: 30}, {Start: at(3, 16, 7)}}}},
			Targets: []schedule.WantResult{{By: at(4, 2, 7)}}}, time.UTC, []resources.Date{monday(3, 29)}},
		{"Sunday evening in UTC is Monday in Apia", schedule.Plan{From: at(3, 7, 12),
			Targets: []schedule.WantResult{{By: at(3, 7, 20)}}}, apia, []resources.Date{monday(3, 8)}},
	} {
		if got := weeksOf(&c.plan, c.zone); !slices.Equal(got, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

func TestPresentWeek(t *testing.T) {
	plan := &schedule.Plan{From: at(3, 1, 6), Targets: []schedule.WantResult{{By: at(3, 2, 7)}, {By: at(3, 26, 7)}}}
	first := resources.Date{Year: 2027, Month: 3, Day: 1}
	for _, c := range []struct {
		name string
		now  time.Time
		want resources.Date
	}{
		{"long before", time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC), first},
		{"within, though nothing is to be done", time.Date(2027, 3, 12, 0, 0, 0, 0, time.UTC), resources.Date{Year: 2027, Month: 3, Day: 8}},
		{"in the last week", time.Date(2027, 3, 28, 23, 0, 0, 0, time.UTC), resources.Date{Year: 2027, Month: 3, Day: 22}},
		{"after the last week", time.Date(2027, 3, 29, 0, 0, 0, 0, time.UTC), first},
	} {
		if got := presentWeek(plan, time.UTC, c.now); got != c.want {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}
