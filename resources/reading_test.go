package resources_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
)

func TestReadings(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"4.6", "4.6"}, {"4.60", "4.6"}, {"0", "0"}, {"-0.5 °C", "-0.5 °C"}, {"26C", "26 °C"}, {"79 F", "79 °F"}, {"12 g", "12 g"}, {"1.5 %", "1.5 %"},
		{"3 holes", "3 holes"}, {"1 hole", "1 hole"}, {"100000", "100000"}, {"0.000000001", "0.000000001"}, {"−2 °C", "-2 °C"},
	} {
		r, err := resources.ParseReading(c.text)
		if got := resources.FormatReading(r); err != nil || got != c.want {
			t.Errorf("%q: got %q, %v; want %q", c.text, got, err, c.want)
		}
	}
	for _, c := range []struct{ text, want string }{
		{"4,6", `decimals come after a point, and thousands have no comma: got "4,6"; write 4.6`},
		{"sour", `what is measured starts with a number: got "sour"; write 4.6, 26 °C, 12 g, 1.5 % or 3`},
		{"", `what is measured starts with a number: got ""; write 4.6, 26 °C, 12 g, 1.5 % or 3`},
		{"4.6 pH", `a pH has no unit: got "4.6 pH"; write 4.6`},
		{"4.4-4.7", `this is not a unit, nor a word for what is counted: got "4.4-4.7"; write 0.12 g, 2 mL, 1/8 tsp or 1 sachet`},
		{"100001 g", `beyond the limit of 100000 g: got "100001 g"`},
		{"-100001", `beyond the limit of 100000: got "-100001"`},
		{"1/2", `what is measured is written as a plain decimal number: got "1/2"; write 1.5`},
		{"12 grams", `"grams" is not how this unit is written: got "12 grams"; write 12 g`},
	} {
		if r, err := resources.ParseReading(c.text); err == nil || err.Error() != c.want {
			t.Errorf("%q: got %v, %v; want %s", c.text, r, err, c.want)
		}
	}
}

func TestReadingsCompared(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
		ok   bool
	}{
		{"4.6", "4.7", -1, true}, {"4.70", "4.7", 0, true}, {"4.7000001", "4.7", 1, true},
		// Fixed points of the two scales, by definition: 32 °F is 0 °C, 212 °F is 100 °C, -40 is both.
		{"32 °F", "0 °C", 0, true}, {"212 °F", "100 °C", 0, true}, {"-40 °F", "-40 °C", 0, true}, {"78.8 °F", "26 °C", 0, true}, {"78.9 °F", "26 °C", 1, true},
		{"1.2 kg", "1200 g", 0, true}, {"999 mg", "1 g", -1, true}, {"0.25 L", "250 mL", 0, true}, {"251 mL", "0.25 L", 1, true}, {"20 drops", "1 mL", 0, true},
		{"2 %", "1.5 %", 1, true}, {"3 holes", "4 holes", -1, true}, {"1 hole", "1 hole", 0, true},
		{"26", "26 °C", 0, false}, {"26 °C", "26", 0, false}, {"1 g", "1 mL", 0, false}, {"3 holes", "3 eyes", 0, false}, {"3", "3 holes", 0, false}, {"4 IMCU", "4 DCU", 0, false}, {"2 %", "2", 0, false},
	} {
		a, err := resources.ParseReading(c.a)
		if err != nil {
			t.Fatal(err)
		}
		b, err := resources.ParseReading(c.b)
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := resources.CompareReadings(a, b); got != c.want || ok != c.ok {
			t.Errorf("%s against %s: got %d, %v; want %d, %v", c.a, c.b, got, ok, c.want, c.ok)
		}
	}
	if _, ok := resources.CompareReadings(resources.Reading{}, resources.Reading{Num: 1, Den: 1}); ok {
		t.Error("what nobody said is compared")
	}
}

// What is printed is read as the same, and the order of readings is that of what they are of, whatever the unit.
func TestEveryReadingIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(label string) resources.Reading {
			n := rapid.Int64Range(-100_000_000, 100_000_000).Draw(t, label)
			r := big.NewRat(n, rapid.SampledFrom([]int64{1, 10, 1000, 1_000_000}).Draw(t, label+" places"))
			if r.Cmp(big.NewRat(resources.MostAmount, 1)) > 0 || r.Cmp(big.NewRat(-resources.MostAmount, 1)) < 0 {
				r.SetInt64(n % resources.MostAmount)
			}
			return resources.Reading{Num: r.Num().Int64(), Den: r.Denom().Int64(), Unit: rapid.SampledFrom([]string{"", "°C", "°F", "g", "kg", "mL", "L", "%", "hole", "drops"}).Draw(t, label+" unit")}
		}
		a, b := draw("a"), draw("b")
		text := resources.FormatReading(a)
		if back, err := resources.ParseReading(text); err != nil || back != a {
			t.Fatalf("%+v is printed %q and read %+v, %v", a, text, back, err)
		}
		ab, ok := resources.CompareReadings(a, b)
		ba, ko := resources.CompareReadings(b, a)
		if ok != ko || ok && ab != -ba {
			t.Fatalf("%s against %s: got %d, %v and the other way %d, %v", resources.FormatReading(a), resources.FormatReading(b), ab, ok, ba, ko)
		}
	})
}
