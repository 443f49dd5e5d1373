package resources_test

import (
	"testing"

	"ripeby/resources"
)

// Dates and their ISO 8601 weeks as published: 1977, 1978, 1996-1997, 1999, 2006,
// 2012 and 2019 stand in encyclopaedia articles on the ISO week date and in
// M. Kuhn, "A summary of the international standard date and time notation"; the
// others follow from the rule that week 1 holds the year's first Thursday.
func TestISOWeek(t *testing.T) {
	tests := []struct {
		date               string
		year, week, dayNum int
	}{
		{"1977-01-01", 1976, 53, 6},
		{"1978-01-01", 1977, 52, 7},
		{"1996-12-30", 1997, 1, 1},
		{"1997-01-05", 1997, 1, 7},
		{"1999-12-27", 1999, 52, 1},
		{"2000-01-02", 1999, 52, 7},
		{"2005-01-01", 2004, 53, 6},
		{"2006-12-31", 2006, 52, 7},
		{"2008-12-29", 2009, 1, 1},
		{"2010-01-03", 2009, 53, 7},
		{"2012-12-31", 2013, 1, 1},
		{"2019-12-30", 2020, 1, 1},
		{"2020-12-31", 2020, 53, 4},
		{"2021-01-03", 2020, 53, 7},
		{"2022-12-31", 2022, 52, 6}, // a page in circulation has 2023-W01-6, which is wrong
		{"2024-12-30", 2025, 1, 1},
		{"2025-12-29", 2026, 1, 1},
		{"2026-12-27", 2026, 52, 7},
		{"2026-12-28", 2026, 53, 1},
		{"2027-01-01", 2026, 53, 5},
		{"2027-01-03", 2026, 53, 7},
		{"2027-01-04", 2027, 1, 1},
		{"2028-01-01", 2027, 52, 6},
	}
	for _, tt := range tests {
		d := dateAt(t, tt.date)
		if year, week := d.ISOWeek(); year != tt.year || week != tt.week {
			t.Errorf("%s: ISOWeek() = %d, %d, want %d, %d", tt.date, year, week, tt.year, tt.week)
		}
		if got, want := d.Monday(), d.AddDays(1-tt.dayNum); got != want {
			t.Errorf("%s: Monday() = %v, want %v", tt.date, got, want)
		}
	}
}

// Within 400 years 71 have a week 53 (ISO 8601's calendar repeats after 400
// years of 20,871 weeks: 400 x 52 + 71); those of our time are listed.
func TestLongYears(t *testing.T) {
	long := 0
	named := map[int]bool{2015: true, 2020: true, 2026: true, 2032: true, 2037: true, 2043: true, 2048: true}
	for year := 2001; year <= 2400; year++ {
		// 28 December is always in its year's last week.
		_, last := resources.Date{Year: year, Month: 12, Day: 28}.ISOWeek()
		if last == 53 {
			long++
		}
		if year >= 2015 && year <= 2048 && (last == 53) != named[year] {
			t.Errorf("%d: last week %d, want a week 53: %v", year, last, named[year])
		}
	}
	if long != 71 {
		t.Errorf("%d of 400 years have a week 53, want 71", long)
	}
}

func TestMondayOfEveryDay(t *testing.T) {
	monday := dateAt(t, "2026-12-21")
	for week := range 4 {
		for day := range 7 {
			d := monday.AddDays(7*week + day)
			if got, want := d.Monday(), monday.AddDays(7*week); got != want {
				t.Errorf("%v: Monday() = %v, want %v", d, got, want)
			}
		}
	}
}
