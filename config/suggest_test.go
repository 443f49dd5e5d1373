package config

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"ripeby/config/fault"
	"ripeby/schedule/testrun"
)

// written are values of the example folder, each by what stands before it in its file.
func written() map[string][][2]string {
	return map[string][][2]string{
		"kitchen.yaml": {{"name: ", "Saltgrass Lane"}, {"timezone: ", "Europe/Dublin"}, {"step: ", "5 min"}, {"room: ", "20 °C"},
			{"hours: [", `"mon-fri 06:00-08:00"`}, {"most_per_day: ", "6 h"}, {"{from: 2027-03-12, until: ", "2027-03-14"},
			{"until: 2027-03-14}                 # whole days, both included\n      - {from: ", "2027-03-20 14:00"},
			{"{at: ", `"07:00"`}, {"for: ", "20 min"}, {"holds: ", "10 L"}, {"holds: 10 L, clean: ", "20 min"}, {"{name: hook, count: ", "4"}, {"takes: ", "6 L"},
			{"size: ", "40 x 30 x 12 cm"}, {"temperature: ", "4 °C"}, {"boxes: ", "12}"}, {"days: [", "tue"}, {"ready: ", `"07:30"`},
			{"most: ", "40 L"}, {"keeps: ", "2 d"}, {"order: ", "2 d"}, {"closed: [", "2027-03-26"}},
		"recipes/ash-button.yaml": {{"yield: {pieces: ", "9"}, {"from: ", "5 L"}, {"piece: ", "75 g"}, {"spare: ", "1"}, {"least: ", "5 L"}, {"most: ", "15 L"},
			{"step: ", "1 L"}, {"takes: ", "8"}, {"keeps: ", "6 d"}, {"fixed: ", "40 min"}, {"per_litre: ", "2 min"}, {"hold: {least: ", "18 h"},
			{"at: ", "2-6 °C"}, {"every: ", "2 d"}},
		"targets.yaml": {{"by: ", "2027-03-27 07:00"}, {"pieces: ", "24"}, {"price: ", "6.50"}, {"promised: ", "true"}, {"every: ", "week"},
			{"until: ", "2027-04-24"}, {"feast: ", "easter"}, {"days: ", "-2"}, {"time: ", `"15:00"`}},
		"begun.yaml": {{"litres: ", "8"}, {"make: ", "2027-03-12 07:30"}, {"cheese: Ash button, pieces: ", "12"}, {"packed: ", "2027-03-18 19:00"},
			{"boxes: ", "2"}, {"day: ", "2027-03-19"}, {"litres: ", "24}"}},
	}
}

// A suggestion, written where the mistake was, is read: none repeats the mistake, and every
// fault of a value has one.
func TestSuggestionsAreRead(t *testing.T) {
	bad := []string{"-1", "4.5 L", "4,5", "0", "a lot", "2027-02-30", "-1 L", "-5 min", "4,5 L", "0 L", "0 min", "12", "12 parsec", "1e9", "99999999999999", "99999 L", "1.23456789",
		"yes", "25:00", "7", "2027-3-1", "12.03.2027", "mon-fri", "freitag", "40 x 30", "-4 x 30 x 12 cm", "6-2 °C", "2-6", "  a name", strings.Repeat("long ", 40)}
	bad = bad[:testrun.Rounds(6, len(bad))]
	tried := 0
	for file, places := range written() {
		for _, place := range places {
			for _, value := range bad {
				at := place[0] + strings.TrimSuffix(place[1], "}")
				with := func(value string) Faults {
					files := saltgrass(t)
					edit(t, files, file, at, place[0]+fmt.Sprintf("%q", value))
					return faultsIn(files)
				}
				faults := with(value)
				if len(faults) == 0 {
					continue
				}
				tried++
				f := faults[0]
				ways := append(fault.WaysOf(f.Want), f.Near)
				if list, some := strings.CutPrefix(f.Want, "one of "); some {
					ways = strings.Split(strings.ReplaceAll(list, `"`, ""), ", ")
				}
				if f.Want == "" && f.Near == "" {
					if !strings.Contains(f.What, ";") && !strings.Contains(f.What, "most") && !strings.Contains(f.What, "least") {
						t.Errorf("%s with %q: got %v, want how to write it", at, value, f)
					}
					continue
				}
				ok := false
				for _, way := range ways {
					again := with(way)
					ok = ok || way != "" && (len(again) == 0 || again[0].What != f.What)
				}
				if !ok {
					t.Errorf("%s with %q: got %v, which is refused as well: %v", at, value, f, with(ways[0]))
				}
			}
		}
	}
	if least := testrun.Rounds(200, 1000); tried < least {
		t.Errorf("got %d mistakes, want %d", tried, least)
	}
}

// faultsIn are the faults of a folder.
func faultsIn(files fstest.MapFS) Faults {
	_, err := LoadFS(files, Options{From: saltgrassFrom})
	var faults Faults
	errors.As(err, &faults)
	return faults
}

// What is wrong with a whole file is told with what to do, and the file that is given as an
// example is read.
func TestWholeFilesHaveSuggestions(t *testing.T) {
	for _, file := range []string{"kitchen.yaml", "targets.yaml", "begun.yaml", "recipes/ash-button.yaml"} {
		for _, text := range []string{strings.Repeat("[", 60) + strings.Repeat("]", 60), "a: [", "a: b: c", "\tx: 1", "%", "a: &x *x", "a: *y", "- a\nb: c"} {
			files := saltgrass(t)
			files[file] = &fstest.MapFile{Data: []byte(text)}
			faults := faultsIn(files)
			if len(faults) == 0 {
				t.Fatalf("%s with %q: got no fault", file, text)
			}
			if f := faults[0]; f.File == file && f.Want == "" && f.Near == "" {
				t.Errorf("%s with %q: got %v, want how to write it", file, text, f)
			}
		}
		files := saltgrass(t)
		files[file] = &fstest.MapFile{Data: []byte(exampleOf(file))}
		for _, f := range faultsIn(files) {
			if f.File == file && strings.Contains(f.What, "not YAML") {
				t.Errorf("%s with %q: got %v, want an example that is YAML", file, exampleOf(file), f)
			}
		}
	}
}
