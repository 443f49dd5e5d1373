package config

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// leaves loads a folder with one cheese and the targets, and gives each target's
// name and moment in the local time of the zone, with its offset.
func leaves(t *testing.T, zone, from, targets string) (got []string, warnings []schedule.Warning) {
	t.Helper()
	files := small()
	edit(t, files, "kitchen.yaml", "", "kitchen: {timezone: "+zone+"}\npeople: [{name: Nell, hours: ['daily 06:00-22:00']}]\npots: [{name: tall pot, holds: 10 L}]")
	edit(t, files, "recipes/a.yaml", "", minimalRecipe)
	edit(t, files, "targets.yaml", "", "targets:\n"+targets)
	p := loaded(t, files, from)
	for _, target := range p.Targets {
		got = append(got, target.Name+" "+target.By.In(p.Kitchen.Zone).Format("2006-01-02 15:04 -0700"))
	}
	return got, p.Warnings
}

const wantSecond = ", want: [{cheese: Second, pieces: 1}]}\n"

func TestRepetitionsKeepTheLocalTime(t *testing.T) {
	for _, c := range []struct {
		name, zone, from, target string
		want                     []string
	}{
		{"across a clock change, until included", "Europe/Dublin", "2027-03-01", "{name: Stall, by: 2027-03-20 07:00, every: week, until: 2027-04-03",
			[]string{"Stall 2027-03-20 2027-03-20 07:00 +0000", "Stall 2027-03-27 2027-03-27 07:00 +0000", "Stall 2027-04-03 2027-04-03 07:00 +0100"}},
		{"until a day short", "Europe/Dublin", "2027-03-01", "{name: Stall, by: 2027-03-20 07:00, every: week, until: 2027-04-02",
			[]string{"Stall 2027-03-20 2027-03-20 07:00 +0000", "Stall 2027-03-27 2027-03-27 07:00 +0000"}},
		{"every second week", "Europe/Dublin", "2027-03-01", "{name: Stall, by: 2027-03-20 07:00, every: 2 weeks, until: 2027-04-30",
			[]string{"Stall 2027-03-20 2027-03-20 07:00 +0000", "Stall 2027-04-03 2027-04-03 07:00 +0100", "Stall 2027-04-17 2027-04-17 07:00 +0100"}},
		{"a skipped time moves to the change", "Europe/Dublin", "2027-03-01", "{name: Night, by: 2027-03-21 01:30, every: week, until: 2027-04-04",
			[]string{"Night 2027-03-21 2027-03-21 01:30 +0000", "Night 2027-03-28 2027-03-28 02:00 +0100", "Night 2027-04-04 2027-04-04 01:30 +0100"}},
		{"a repeated time is the first", "Europe/Dublin", "2027-10-01", "{name: Night, by: 2027-10-24 01:30, every: week, until: 2027-11-07",
			[]string{"Night 2027-10-24 2027-10-24 01:30 +0100", "Night 2027-10-31 2027-10-31 01:30 +0100", "Night 2027-11-07 2027-11-07 01:30 +0000"}},
		{"those before the start are left out", "Europe/Dublin", "2027-03-27 07:00", "{name: Stall, by: 2020-01-04 07:00, every: week, until: 2027-04-03",
			[]string{"Stall 2027-03-27 2027-03-27 07:00 +0000", "Stall 2027-04-03 2027-04-03 07:00 +0100"}},
		{"a minute after one", "Europe/Dublin", "2027-03-27 07:01", "{name: Stall, by: 2020-01-04 07:00, every: 3 weeks, until: 2027-04-20",
			[]string{"Stall 2027-04-03 2027-04-03 07:00 +0100"}},
		{"south of the line", "Australia/Lord_Howe", "2027-04-01", "{name: Stall, by: 2027-04-03 07:00, every: week, until: 2027-04-10",
			[]string{"Stall 2027-04-03 2027-04-03 07:00 +1100", "Stall 2027-04-10 2027-04-10 07:00 +1030"}},
		{"without end, as far as is planned ahead", "Europe/Dublin", "2027-03-01 06:00", "{name: Stall, by: 2027-03-20 07:00, every: 4 weeks",
			[]string{"Stall 2027-03-20 2027-03-20 07:00 +0000", "Stall 2027-04-17 2027-04-17 07:00 +0100", "Stall 2027-05-15 2027-05-15 07:00 +0100"}},
		{"without end, the last day of what is planned ahead", "Europe/Dublin", "2027-03-13 08:00", "{name: Stall, by: 2027-03-20 07:00, every: 11 weeks",
			[]string{"Stall 2027-03-20 2027-03-20 07:00 +0000", "Stall 2027-06-05 2027-06-05 07:00 +0100"}},
		{"but for some", "Europe/Dublin", "2027-03-01", "{name: Stall, by: 2027-03-20 07:00, every: week, until: 2027-04-10, except: [2027-04-03, 2027-03-20]",
			[]string{"Stall 2027-03-27 2027-03-27 07:00 +0000", "Stall 2027-04-10 2027-04-10 07:00 +0100"}},
		{"but for one of the past", "Europe/Dublin", "2027-04-01", "{name: Stall, by: 2027-03-20 07:00, every: week, until: 2027-04-03, except: [2027-03-20]",
			[]string{"Stall 2027-04-03 2027-04-03 07:00 +0100"}},
		{"all over", "Europe/Dublin", "2027-06-01", "{name: Stall, by: 2027-03-20 07:00, every: week, until: 2027-04-03", nil},
	} {
		got, warnings := leaves(t, c.zone, c.from, "  - "+c.target+wantSecond)
		same(t, c.name, got, c.want)
		same(t, c.name+": warnings", warnings, []schedule.Warning(nil))
	}
}

func TestATargetOfThePastIsAWarning(t *testing.T) {
	got, warnings := leaves(t, "Europe/Dublin", "2027-03-01 06:00",
		"  - {name: Gone, by: 2027-03-01 05:59"+wantSecond+"  - {name: Now, by: 2027-03-01 06:00"+wantSecond)
	same(t, "targets", got, []string{"Now 2027-03-01 06:00 +0000"})
	same(t, "warnings", warnings, []schedule.Warning{{Code: "target-past", At: at(t, "2027-03-01 05:59"),
		Text: "Gone was due 2027-03-01 05:59, before the planning start, and is left out"}})
}

func TestFeasts(t *testing.T) {
	for _, c := range []struct{ name, from, by, want string }{
		{"Good Friday", "2027-03-01", `{feast: easter, days: -2, time: "15:00"}`, "2027-03-26 15:00 +0000"},
		{"at the start itself", "2027-03-26 15:00", `{feast: easter, days: -2, time: "15:00"}`, "2027-03-26 15:00 +0000"},
		{"next year's, 26 weeks before", "2027-10-15", `{feast: easter, days: -2, time: "15:00"}`, "2028-04-14 15:00 +0100"},
		{"orthodox", "2027-03-01", `{feast: orthodox easter, time: "09:00"}`, "2027-05-02 09:00 +0100"},
		{"in an hour that is skipped", "2027-03-01", `{feast: easter, time: "01:30"}`, "2027-03-28 02:00 +0100"},
		{"a year after the feast", "2027-03-01", `{feast: easter, days: 350, time: "09:00"}`, "2027-03-21 09:00 +0000"},
		{"a year before the feast", "2027-03-01", `{feast: easter, days: -350, time: "09:00"}`, "2027-05-02 09:00 +0100"},
	} {
		got, _ := leaves(t, "Europe/Dublin", c.from, "  - {name: Feast, by: "+c.by+wantSecond)
		same(t, c.name, got, []string{"Feast " + c.want})
	}
}

// While this year's feast is still leaving, next year's is not planned yet; one line says
// from when on it is.
func TestNextYearsFeastIsLeftOut(t *testing.T) {
	const later = "Feast is 2028-04-14 15:00, more than 26 weeks ahead, and is left out; it is planned from 2027-10-15 on"
	for _, from := range []string{"2027-03-26 15:01", "2027-10-14 23:59"} {
		got, warnings := leaves(t, "Europe/Dublin", from, `  - {name: Feast, by: {feast: easter, days: -2, time: "15:00"}`+wantSecond)
		same(t, from, got, []string(nil))
		same(t, from+": warnings", warnings, []schedule.Warning{{Code: "target-later", At: at(t, "2028-04-14 15:00"), Text: later}})
	}
	got, _ := leaves(t, "Europe/Dublin", "2027-03-01", "  - {name: Far, by: 2028-04-14 15:00"+wantSecond)
	same(t, "a date of its own", got, []string{"Far 2028-04-14 15:00 +0100"})
}

// Western Easter of 2024-2034: an episode list by date of Easter (podbean.com); of
// 2020: "Holidays related to Easter" (rosettacode.org). The other years, and the
// orthodox ones, as the easter module of python-dateutil gives them, which agrees
// with both.
func TestEasterOfThePublishedTables(t *testing.T) {
	western := []string{"2020-04-12", "2021-04-04", "2022-04-17", "2023-04-09", "2024-03-31", "2025-04-20", "2026-04-05",
		"2027-03-28", "2028-04-16", "2029-04-01", "2030-04-21", "2031-04-13", "2032-03-28", "2033-04-17", "2034-04-09",
		"2035-03-25", "2036-04-13", "2037-04-05", "2038-04-25", "2039-04-10", "2040-04-01"}
	orthodox := []string{"2020-04-19", "2021-05-02", "2022-04-24", "2023-04-16", "2024-05-05", "2025-04-20", "2026-04-12",
		"2027-05-02", "2028-04-16", "2029-04-08", "2030-04-28", "2031-04-13", "2032-05-02", "2033-04-24", "2034-04-09",
		"2035-04-29", "2036-04-20", "2037-04-05", "2038-04-25", "2039-04-17", "2040-05-06"}
	for i := range western {
		if got := westernEaster(2020 + i).String(); got != western[i] {
			t.Errorf("western Easter of %d: got %s, want %s", 2020+i, got, western[i])
		}
		if got := orthodoxEaster(2020 + i).String(); got != orthodox[i] {
			t.Errorf("orthodox Easter of %d: got %s, want %s", 2020+i, got, orthodox[i])
		}
	}
	// The earliest and the latest that the rule allows, and other turns.
	for _, want := range []resources.Date{{Year: 1818, Month: 3, Day: 22}, {Year: 2285, Month: 3, Day: 22},
		{Year: 1943, Month: 4, Day: 25}, {Year: 1954, Month: 4, Day: 18}, {Year: 1961, Month: 4, Day: 2},
		{Year: 1981, Month: 4, Day: 19}, {Year: 2000, Month: 4, Day: 23}} {
		if got := westernEaster(want.Year); got != want {
			t.Errorf("western Easter of %d: got %s, want %s", want.Year, got, want)
		}
	}
}

// Easter is a Sunday between 22 March and 25 April; the orthodox one a Sunday that
// is never before it.
func TestEasterOfEveryYear(t *testing.T) {
	for year := resources.FirstYear; year <= resources.LastYear; year++ {
		w, o := westernEaster(year), orthodoxEaster(year)
		day := int(w.Month)*100 + w.Day
		if w.Weekday() != 0 || day < 322 || day > 425 {
			t.Errorf("western Easter of %d: got %s, a %s", year, w, w.Weekday())
		}
		if o.Weekday() != 0 || o.Before(w) {
			t.Errorf("orthodox Easter of %d: got %s, a %s, western Easter is %s", year, o, o.Weekday(), w)
		}
	}
}
