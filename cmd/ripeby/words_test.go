package main

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

func TestWords(t *testing.T) {
	for _, c := range []struct{ name, got, want string }{
		{"one", schedule.Counted(1, "batch"), "1 batch"},
		{"an s already", schedule.Counted(4, "address"), "4 addresses"},
		{"none", schedule.Counted(0, "box"), "0 boxes"},
		{"several", schedule.Counted(3, "piece"), "3 pieces"},
		{"whole litres", litres(64_000), "64 L"},
		{"a millilitre", litres(1), "0.001 L"},
		{"no litres", litres(0), "0 L"},
		{"below freezing", degrees(-500), "-0.5 °C"},
		{"tens stay", litres(100_000), "100 L"},
		{"inches", centimetres(254_000), "25.4"},
		{"money", money(650), "6.50"},
		{"cents", money(5), "0.05"},
		{"no time", length(0), "0 min"},
		{"a day and more", length(30 * resources.Hour), "1 d 6 h"},
		{"minutes", length(95), "1 h 35 min"},
		{"hours", hoursLong(30 * resources.Hour), "30 h"},
		{"hours and minutes", hoursLong(95), "1 h 35 min"},
		{"a day", day(resources.Date{Year: 2027, Month: 3, Day: 19}), "Fri 19 Mar 2027"},
		{"steering", plain("a\x1b[2J\r\nb\u202ec\u009bd"), "a?[2J??b?c?d"},
		{"letters of all kinds", plain("Käse 奶酪 🧀"), "Käse 奶酪 🧀"},
		{"a plain word", shellWord("my-kitchen/plan_1.2"), "my-kitchen/plan_1.2"},
		{"a word with a blank", shellWord("my kitchen"), "'my kitchen'"},
		{"a word with a quote", shellWord("it's"), `'it'\''s'`},
		{"wide letters", wrapped("奶酪 奶酪 奶酪", 9, "  "), "奶酪 奶酪\n  奶酪"},
		{"a word that is too long", wrapped("a bcdefghij k", 5, ""), "a\nbcdefghij\nk"},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, c.got, c.want)
		}
	}
}

func TestWeeklyHours(t *testing.T) {
	weekdays := resources.Weekdays(0b0111110)
	for _, c := range []struct {
		name string
		in   []resources.Hours
		want resources.Minutes
	}{
		{"none", nil, 0},
		{"weekdays", []resources.Hours{{Days: weekdays, From: 360, Until: 480}}, 10 * resources.Hour},
		{"overlap counts once", []resources.Hours{{Days: weekdays, From: 360, Until: 480}, {Days: resources.Daily, From: 420, Until: 480}}, 12 * resources.Hour},
		{"past midnight, Saturday into Sunday", []resources.Hours{{Days: resources.Weekdays(0).With(6), From: 1320, Until: 120}}, 4 * resources.Hour},
		{"all day", []resources.Hours{{Days: resources.Daily, From: 0, Until: 1440}}, 7 * resources.Day},
	} {
		if got := weekly(c.in); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, length(got), length(c.want))
		}
	}
}
