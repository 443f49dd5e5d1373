package measured_test

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/measured"
)

// asked makes a measure of its limits as a recipe writes them; "" for none.
func asked(t *testing.T, what, from, to, otherwise string) *schedule.Measure {
	t.Helper()
	limit := func(text string) (r resources.Reading) {
		if text == "" {
			return r
		}
		r, err := resources.ParseReading(text)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	return &schedule.Measure{What: what, Stage: "drain", From: limit(from), To: limit(to), Else: otherwise}
}

func TestWhereAValueLies(t *testing.T) {
	for _, c := range []struct {
		from, to, is string
		want         measured.Side
	}{
		{"4.4", "4.7", "4.5", measured.Inside}, {"4.4", "4.7", "4.4", measured.Inside}, {"4.4", "4.7", "4.70", measured.Inside},
		{"4.4", "4.7", "4.39999", measured.Below}, {"4.4", "4.7", "4.9", measured.Above}, {"4.4", "4.7", "4,9", measured.Above}, {"4.4", "4.7", "4,55", measured.Inside},
		{"4.4", "4.7", "4.9 pH", measured.Above}, {"4.4", "4.7", "+4.5", measured.Inside},
		{"", "4.7", "3", measured.Inside}, {"", "4.7", "5", measured.Above}, {"4.4", "", "3", measured.Below}, {"4.4", "", "9", measured.Inside},
		{"25 °C", "27 °C", "26 C", measured.Inside}, {"25 °C", "27 °C", "80 °F", measured.Inside}, {"25 °C", "27 °C", "81 F", measured.Above}, {"-1 °C", "4 °C", "−2 °C", measured.Below},
		{"1 kg", "2 kg", "900 g", measured.Below}, {"1 kg", "2 kg", "1,5 kg", measured.Inside}, {"200 mL", "", "0.25 L", measured.Inside},
		// Compared with nothing: no number, no unit where the limit has one, another kind, what may be thousands.
		{"4.4", "4.7", "sour", measured.NotCompared}, {"4.4", "4.7", "about 4.5", measured.NotCompared}, {"4.4", "4.7", "<4.4", measured.NotCompared}, {"4.4", "4.7", "4.4-4.6", measured.NotCompared},
		{"25 °C", "27 °C", "26", measured.NotCompared}, {"4.4", "4.7", "26 °C", measured.NotCompared}, {"1 g", "2 g", "1 mL", measured.NotCompared}, {"4.4", "4.7", "4,500", measured.NotCompared},
		{"", "", "4.5", measured.NotCompared}, {"4.4", "4.7", "", measured.NotCompared}, {"4.4", "4.7", "4.5.", measured.NotCompared},
	} {
		if got := measured.Of(asked(t, "it", c.from, c.to, ""), c.is); got != c.want {
			t.Errorf("%s of %s to %s: got %d, want %d", c.is, c.from, c.to, got, c.want)
		}
	}
}

func TestHowItIsTold(t *testing.T) {
	ph := asked(t, "pH", "4.4", "4.7", "wait an hour and look again")
	for _, c := range []struct {
		m                 *schedule.Measure
		is, line, outside string
	}{
		{ph, "4.9", "pH 4.4 to 4.7", "pH 4.9: above 4.7, the recipe says: wait an hour and look again"},
		{ph, "4,2", "pH 4.4 to 4.7", "pH 4,2: below 4.4, the recipe says: wait an hour and look again"},
		{ph, "4.5", "pH 4.4 to 4.7", ""},
		{ph, "sour", "pH 4.4 to 4.7", ""},
		{asked(t, "curd temperature", "25 °C", "27 °C", ""), "28 °C", "curd temperature 25 to 27 °C", "curd temperature 28 °C: above 27 °C"},
		{asked(t, "curd temperature", "77 °F", "27 °C", ""), "24 °C", "curd temperature 77 °F to 27 °C", "curd temperature 24 °C: below 77 °F"},
		{asked(t, "room", "18 °C", "", ""), "17.5 °C", "room from 18 °C", "room 17.5 °C: below 18 °C"},
		{asked(t, "holes", "", "3 holes", ""), "4 holes", "holes up to 3 holes", "holes 4 holes: above 3 holes"},
		{asked(t, "smell", "", "", ""), "sharp", "smell", ""},
	} {
		if got := measured.Line(c.m); got != c.line {
			t.Errorf("got %q, want %q", got, c.line)
		}
		if got := measured.Outside(c.m, c.is); got != c.outside {
			t.Errorf("got %q, want %q", got, c.outside)
		}
	}
}

// judged are words that no answer may have: the program compares numbers, and judges no cheese.
var judged = []string{"safe", "ok", "fine", "good", "bad", "danger", "wrong", "fail"}

// For any limits and any value the answer is that of whole hundredths counted in the smaller unit, and no answer
// judges.
func TestAnyValueLiesWhereItIsCountedTo(t *testing.T) {
	kinds := []struct {
		small, large string
		times        int64
	}{{"", "", 1}, {"°C", "°C", 1}, {"g", "kg", 1000}, {"mL", "L", 1000}, {"%", "%", 1}, {"hole", "hole", 1}}
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(kinds).Draw(t, "kind")
		text := func(n int64, label string) string { // n hundredths of the smaller unit, in either
			unit, of := k.small, big.NewRat(n, 100)
			if rapid.Bool().Draw(t, label+" in the larger unit") {
				unit, of = k.large, of.Quo(of, big.NewRat(k.times, 1))
			}
			s := of.FloatString(5)
			// A comma may part no three figures, which could be thousands.
			if places := len(s) - 1 - strings.IndexByte(s, '.'); places == 5 && label == "is" && rapid.Bool().Draw(t, "with a comma") {
				s = strings.Replace(s, ".", ",", 1)
			}
			return strings.TrimSpace(s + " " + unit)
		}
		from := rapid.Int64Range(-9_000, 9_000).Draw(t, "from")
		to := rapid.Int64Range(from, 9_000).Draw(t, "to")
		is := rapid.Int64Range(-9_999, 9_999).Draw(t, "is")
		m := &schedule.Measure{What: "it"}
		var err error
		if m.From, err = resources.ParseReading(text(from, "from")); err != nil {
			t.Fatal(err)
		}
		if m.To, err = resources.ParseReading(text(to, "to")); err != nil {
			t.Fatal(err)
		}
		want := measured.Inside
		switch {
		case is < from:
			want = measured.Below
		case is > to:
			want = measured.Above
		}
		written := text(is, "is")
		if got := measured.Of(m, written); got != want {
			t.Fatalf("%s of %s: got %d, want %d", written, measured.Limits(m), got, want)
		}
		told := measured.Outside(m, written)
		if (told == "") != (want == measured.Inside) {
			t.Fatalf("%s of %s: told %q", written, measured.Limits(m), told)
		}
		for _, word := range strings.FieldsFunc(told, func(r rune) bool { return r < 'a' || r > 'z' }) {
			for _, j := range judged {
				if word == j {
					t.Fatalf("%q judges", told)
				}
			}
		}
	})
}

// What was said with a stage is of that stage; what was said alone of the last that had begun and asks for it.
func TestWhatWasSaidOfWhich(t *testing.T) {
	measures := []schedule.Measure{{What: "pH", Stage: "make"}, {What: "curd temperature", Stage: "make"}, {What: "pH", Stage: "drain"}, {What: "smell", Stage: "pack"}}
	began := func(stage string) resources.Moment {
		return map[string]resources.Moment{"make": 100, "drain": 200, "pack": 300}[stage]
	}
	rows := measured.Rows(measures, began, []schedule.Measured{
		{What: "ph", Is: "4.6", At: 250, Nr: 4}, {What: "pH", Is: "6.5", At: 110, Nr: 1}, {What: "pH", Is: "4.9", Stage: "drain", At: 190, Nr: 3},
		{What: "pH", Is: "6.6", At: 50, Nr: 0}, {What: "smell", Is: "fresh", At: 120, Nr: 2}, {What: "smell", Is: "sharp", Stage: "drain", At: 210, Nr: 5}, {What: "rind", Is: "dry", At: 300, Nr: 6},
	})
	var got []string
	for i := range rows {
		line := rows[i].Stage + " " + rows[i].What + ":"
		for _, s := range rows[i].Said {
			line += fmt.Sprintf(" %s", s.Is)
		}
		got = append(got, line)
	}
	want := "make pH: 6.6 6.5; make curd temperature:; drain pH: 4.9 4.6; pack smell: fresh"
	if text := strings.Join(got, "; "); text != want {
		t.Errorf("got  %s\nwant %s", text, want)
	}
	if blank := measured.Blank(rows, "make"); len(blank) != 1 || blank[0].What != "curd temperature" {
		t.Errorf("blank at make: got %v, want the curd temperature", blank)
	}
	if rows[1].Last() != nil || rows[1].Outside() != "" {
		t.Errorf("a blank: got %v, %q", rows[1].Last(), rows[1].Outside())
	}
}

// A plan tells what the recipe says; of a stage that had begun what was told then stays.
func TestWhatWasToldOfABegunStageStays(t *testing.T) {
	old := []schedule.Measure{{What: "pH", Stage: "make"}}
	p := &schedule.Problem{Recipes: []schedule.Recipe{{Name: "Curd", Measures: []schedule.Measure{{What: "acidity", Stage: "make"}, {What: "smell", Stage: "drain"}}}}}
	p.Earlier = &schedule.Plan{Batches: []schedule.Batch{{ID: "C-1", Stages: []schedule.Task{{Stage: "make", Begun: true, Measures: old}, {Stage: "drain", Measures: old}}}}}
	plan := &schedule.Plan{Batches: []schedule.Batch{
		{ID: "C-1", Cheese: "Curd", Stages: []schedule.Task{{Stage: "make", Begun: true}, {Stage: "drain"}}},
		{ID: "C-2", Cheese: "Curd", Stages: []schedule.Task{{Stage: "make"}}},
		{ID: "C-3", Cheese: "Gone", Stages: []schedule.Task{{Stage: "make"}}},
	}}
	measured.Fill(p, plan)
	var got []string
	for _, b := range plan.Batches {
		got = append(got, measured.Lines(b.Measures()))
	}
	if text := strings.Join(got, "; "); text != "pH, smell; acidity; " {
		t.Errorf("got %q", text)
	}
}
