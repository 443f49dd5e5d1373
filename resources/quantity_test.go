package resources

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"
)

// parsed gives a quantity's number, or the error's text.
func parsed[T any](v T, err error) string {
	if err != nil {
		return err.Error()
	}
	return fmt.Sprintf("%v", v)
}

// quantityCase is one way of writing a quantity: want is the number, or the error.
type quantityCase struct{ in, want string }

func checkQuantities[T any](t *testing.T, kind string, parse func(string) (T, error), cases []quantityCase) {
	t.Helper()
	for _, c := range cases {
		v, err := parse(c.in)
		if got := parsed(v, err); got != c.want {
			t.Errorf("%s %q:\n got %s\nwant %s", kind, c.in, got, c.want)
		}
		var q *QuantityError
		if err != nil && !errors.As(err, &q) {
			t.Errorf("%s %q: got error %T, want a QuantityError", kind, c.in, err)
		}
	}
}

// The US measures as NIST Handbook 44, Appendix C has them (1 gal = 231 cubic
// inches = 3785.411784 mL, 1 qt = 946.352946 mL); the imperial gallon of 4.54609 L
// is from memory of the UK Weights and Measures Act 1985.
func TestVolumesOfTheNISTHandbook44AppendixC(t *testing.T) {
	checkQuantities(t, "volume", ParseVolume, []quantityCase{
		{"1 gal (US)", "3785"},
		{"1000 gal (US)", "3785412"},
		{"1000000000 mL", `a number has at most 9 digits on either side of the point: got "1000000000 mL"`},
		{"10000 gal (US)", "37854118"},
		{"1 qt (US)", "946"},
		{"4 qt (US)", "3785"},
		{"1000 qt (US)", "946353"},
		{"1 gal (imp)", "4546"},
		{"100 gal (imp)", "454609"},
		{"1 qt (imp)", "1137"}, // 1136.5225
		{"2 qt (imp)", "2273"}, // 2273.045
		{"10000 qt (imp)", "11365225"},
		{"1gal(US)", "3785"},
	})
}

func TestParseVolume(t *testing.T) {
	const units = ` L (or mL, gal (US), gal (imp), qt (US), qt (imp))`
	checkQuantities(t, "volume", ParseVolume, []quantityCase{
		{"4 L", "4000"}, {"4L", "4000"}, {"4 l", "4000"}, {"4\u00a0L", "4000"}, {"  4   L ", "4000"}, {"0.75 L", "750"},
		{"750 mL", "750"}, {"0 L", "0"}, {"0.5 mL", "1"}, {"0.4 mL", "0"}, {"1.4995 L", "1500"}, {"1.4994999 L", "1499"},
		{"100000 L", "100000000"}, {"100000.001 L", `more than the limit of 100000 L: got "100000.001 L"`},
		{"4", `a volume needs its unit: got "4"; write 4` + units},
		{"4 liters", `"liters" is not a unit for a volume: got "4 liters"; write 4 L`},
		{"4 cups", `"cups" is not a unit for a volume: got "4 cups"; write 4` + units},
		{"4 gal", `there are two sizes of gal: got "4 gal"; write 4 gal (US) or 4 gal (imp)`},
		{"4,5 L", `decimals come after a point, and thousands have no comma: got "4,5 L"; write 4.5 L`},
		{"1/2 L", `a volume is written as a plain decimal number: got "1/2 L"; write 1.5` + units},
		{"1.2.3 L", `a volume is written as a plain decimal number: got "1.2.3 L"; write 1.5` + units},
		{"-4 L", `a volume cannot be less than 0: got "-4 L"`}, {"−4 L", `a volume cannot be less than 0: got "−4 L"`},
		{"L", `a volume starts with a number: got "L"; write 4` + units},
		{"", `a volume starts with a number: got ""; write 4` + units},
		{"1e3 L", `"e3 L" is not a unit for a volume: got "1e3 L"; write 1` + units},
		{strings.Repeat("4", 121), `a volume is written in at most 120 characters: got "44444444444444444444…"`},
	})
}

func TestParseLitres(t *testing.T) {
	checkQuantities(t, "litres", ParseLitres, []quantityCase{
		{"8", "8000"}, {"7.5", "7500"}, {"3.785411784", "3785"}, {"0", "0"},
		{"8 L", `litres here are a plain number, without a unit: got "8 L"; write 8`},
		{"500 mL", `litres here are a plain number, without a unit: got "500 mL"; write 0.5`},
		{"8 cups", `litres here are a plain number, without a unit: got "8 cups"; write 8`},
		{"many", `litres here are a plain number: got "many"; write 8 or 7.5`},
		{"-1", `a volume cannot be less than 0: got "-1"`},
		{"100001", `more than the limit of 100000 L: got "100001"`},
	})
}

// 1 lb = 0.45359237 kg exactly and 1 oz = 28.349523125 g (NIST Handbook 44,
// Appendix C; NIST SP 811, Appendix B).
func TestMassesOfTheNISTHandbook44AppendixC(t *testing.T) {
	checkQuantities(t, "mass", ParseMass, []quantityCase{
		{"1 lb", "453592"}, {"1000 lb", "453592370"}, {"1 oz", "28350"}, {"8 oz", "226796"}, {"16 oz", "453592"}, {"1000 oz", "28349523"},
		{"75 g", "75000"}, {"1.2 kg", "1200000"}, {"0.0005 g", "1"},
		{"75", `a mass needs its unit: got "75"; write 75 g (or kg, oz, lb)`},
	})
}

// The two scales meet at -40; the Fahrenheit figures are those of the cold chain,
// by the definition t/°C = (t/°F - 32) x 5/9 (NIST SP 811, Appendix B).
func TestParseTemperature(t *testing.T) {
	checkQuantities(t, "temperature", ParseTemperature, []quantityCase{
		{"4 °C", "4000"}, {"4 C", "4000"}, {"4°C", "4000"}, {"4 ºC", "4000"}, {"4 ℃", "4000"}, {"-1.5 °C", "-1500"}, {"−1.5 °C", "-1500"},
		{"39 °F", "3889"}, {"39 F", "3889"}, {"41 °F", "5000"}, {"45 °F", "7222"}, {"40 °F", "4444"}, {"35 °F", "1667"},
		{"32 F", "0"}, {"-40 F", "-40000"}, {"145 °F", "62778"}, {"161 °F", "71667"}, {"212 °F", "100000"},
		{"4", `a temperature needs its unit: got "4"; write 4 °C (or °F)`},
		{"4 K", `"K" is not a unit for a temperature: got "4 K"; write 4 °C (or °F)`},
		{"cold", `a temperature starts with a number: got "cold"; write 4 °C (or 4 C, 39 °F, 39 F)`},
		{"200 °C", "200000"}, {"200.001 °C", `beyond the limits of -100 °C and 200 °C: got "200.001 °C"`},
	})
}

func TestParseTemperatureRange(t *testing.T) {
	both := func(text string) (string, error) {
		low, high, err := ParseTemperatureRange(text)
		return fmt.Sprint(low, " ", high), err
	}
	checkQuantities(t, "range", both, []quantityCase{
		{"2-6 °C", "2000 6000"}, {"2 – 6 °C", "2000 6000"}, {"2 °C - 6 °C", "2000 6000"}, {"36-43 °F", "2222 6111"},
		{"-2-4 °C", "-2000 4000"}, {"-4--2 °C", "-4000 -2000"}, {"10-14C", "10000 14000"}, {"4 °C", "4000 4000"}, {"2.5-2.5 C", "2500 2500"},
		{"2-6", `a temperature range needs its unit: got "2-6"; write 2-6 °C (or °F)`},
		{"6-2 °C", `a temperature range goes from cold to warm: got "6-2 °C"; write 2-6 °C`},
		{"2- °C", `a temperature range ends with a number and its unit: got "2- °C"; write 2-6 °C`},
		{"cold", `a temperature range starts with a number: got "cold"; write 2-6 °C`},
	})
}

func TestParseMinutes(t *testing.T) {
	const units = " min (or h, d)"
	checkQuantities(t, "elapsed", ParseMinutes, []quantityCase{
		{"90 min", "90"}, {"24 h", "1440"}, {"10 d", "14400"}, {"1 d 6 h", "1800"}, {"1d6h", "1800"}, {"1 d 6 h 30 min", "1830"},
		{"1.5 h", "90"}, {"0.25 d", "360"}, {"0 min", "0"}, {"1500 d", "2160000"},
		{"1500 d 1 min", `more than the limit of 1500 d: got "1500 d 1 min"`},
		{"90", `a length of time needs its unit: got "90"; write 90` + units},
		{"1 d 6", `a length of time needs its unit: got "1 d 6"; write 6` + units},
		{"2 hours", `"hours" is not a unit for a length of time: got "2 hours"; write 2 h`},
		{"3 mins.", `"mins." is not a unit for a length of time: got "3 mins."; write 3 min`},
		{"3 fortnights", `"fortnights" is not a unit for a length of time: got "3 fortnights"; write 3` + units},
		{"6 h 1 d", `days come before hours and hours before minutes, each once: got "6 h 1 d"; write 1 d 6 h 30 min`},
		{"1 h 1 h", `days come before hours and hours before minutes, each once: got "1 h 1 h"; write 1 d 6 h 30 min`},
		{"0.4 min", `this length of time must be whole minutes: got "0.4 min"; write 1 min`},
		{"90.5 min", `this length of time must be whole minutes: got "90.5 min"; write 1 h 31 min`},
		{"-5 min", `a length of time cannot be less than 0: got "-5 min"`},
		{"a day", `a length of time starts with a number: got "a day"; write 4` + units},
		{"", `a length of time starts with a number: got ""; write 4` + units},
	})
}

func TestParseRate(t *testing.T) {
	checkQuantities(t, "rate", ParseRate, []quantityCase{
		{"2 min", "2000"}, {"0.4 min", "400"}, {"0.001 min", "1"}, {"1 h", "60000"}, {"0.0001 h", "6"}, {"0 min", "0"},
		{"0.0004 min", `work is counted to a thousandth of a minute: got "0.0004 min"; write 0.001 min`},
		{"2", `a length of time needs its unit: got "2"; write 2 min (or h, d)`},
	})
}

func TestParseSize(t *testing.T) {
	checkQuantities(t, "size", ParseSize, []quantityCase{
		{"40 x 30 x 12 cm", "{400000 300000 120000}"}, {"40x30x12cm", "{400000 300000 120000}"}, {"40 × 30 X 12 cm", "{400000 300000 120000}"},
		{"400 x 300 x 125.5 mm", "{400000 300000 125500}"}, {"16 x 12 x 4.5 in", "{406400 304800 114300}"}, {"40 cm x 300 mm x 1 in", "{400000 300000 25400}"},
		{"40 x 30 x 12", `a size needs its unit: got "40 x 30 x 12"; write 40 x 30 x 12 cm (or mm, in)`},
		{"40 x 30 cm", `a size has three sides, width x depth x height: got "40 x 30 cm"; write 40 x 30 x 12 cm`},
		{"40 x 0 x 12 cm", `each side of a size is more than 0: got "40 x 0 x 12 cm"; write 40 x 30 x 12 cm`},
		{"40 x wide x 12 cm", `a size starts with a number: got "40 x wide x 12 cm"; write 40 x 30 x 12 cm`},
		{"40 x 30 x 12 m", `"m" is not a unit for a size: got "40 x 30 x 12 m"; write 40 x 30 x 12 cm`},
		{"20000 x 30 x 12 cm", `more than the limit of 10000 cm a side: got "20000 x 30 x 12 cm"; write 40 x 30 x 12 cm`},
	})
}

func TestParseTakes(t *testing.T) {
	both := func(text string) (string, error) {
		v, n, err := ParseTakes(text)
		return fmt.Sprint(v, " ", n), err
	}
	checkQuantities(t, "takes", both, []quantityCase{
		{"6 L", "6000 0"}, {"3 pieces", "0 3"}, {"1 piece", "0 1"},
		{"3", `how much it takes needs its unit: got "3"; write 3 L of milk or 3 pieces`},
		{"0 pieces", `it takes a whole number of pieces, from 1: got "0 pieces"; write 3 pieces`},
		{"1.5 pieces", `it takes a whole number of pieces, from 1: got "1.5 pieces"; write 3 pieces`},
		{"0 L", `it must take more than 0: got "0 L"; write 6 L or 3 pieces`},
	})
}

func TestParseMoney(t *testing.T) {
	checkQuantities(t, "money", ParseMoney, []quantityCase{
		{"6.50", "650"}, {"6.5", "650"}, {"6", "600"}, {"0", "0"}, {"1000000", "100000000"},
		{"6.505", `a price has at most two decimals: got "6.505"; write 6.51`},
		{"€6", `a price is a plain number from 0: got "€6"; write 6.50`},
		{"6 EUR", `a price is a plain number, without a sign or name of the money: got "6 EUR"; write 6`},
		{"-1", `a price is a plain number from 0: got "-1"; write 6.50`},
		{"1000000.01", `more than the limit of 1000000.00: got "1000000.01"`},
		{"6,50", `decimals come after a point, and thousands have no comma: got "6,50"; write 6.50`},
	})
}

func TestParseHours(t *testing.T) {
	show := func(text string) (string, error) {
		h, err := ParseHours(text)
		return formatHours(h), err
	}
	checkQuantities(t, "hours", show, []quantityCase{
		{"mon-fri 06:00-08:00", "mon-fri 06:00-08:00"}, {"sat,sun 07:00-20:00", "sat,sun 07:00-20:00"}, {"Daily 6:00 – 24:00", "daily 06:00-24:00"},
		{"fri-mon 22:00-02:00", "fri-mon 22:00-02:00"}, {"mon, wed-thu 00:00-00:00", "mon,wed,thu 00:00-00:00"}, {"sun-sat 06:00-08:00", "daily 06:00-08:00"},
		{"06:00-08:00", `hours start with the days: got "06:00-08:00"; write "daily 06:00-08:00"`},
		{"mon-fri", `hours say from when until when: got "mon-fri"; write "mon-fri 06:00-08:00"`},
		{"mon 06:00", `hours say from when until when: got "mon 06:00"; write "mon-fri 06:00-08:00"`},
		{"mon 06:00-25:00", `a time of day lies between 00:00 and 24:00: got "mon 06:00-25:00"; write "mon-fri 06:00-08:00"`},
		{"mon 24:00-02:00", `hours open at 00:00 of the next day rather than at 24:00: got "mon 24:00-02:00"; write "mon-fri 00:00-02:00"`},
		{"workdays 06:00-08:00", `days are mon, tue, wed, thu, fri, sat, sun: got "workdays 06:00-08:00"; write "mon-fri 06:00-08:00" or "daily 06:00-08:00"`},
	})
}

func TestParseClock(t *testing.T) {
	checkQuantities(t, "clock", ParseClock, []quantityCase{
		{"06:00", "360"}, {"6:00", "360"}, {"00:00", "0"}, {"23:59", "1439"}, {"24:00", "1440"},
		{"24:01", `a time of day lies between 00:00 and 24:00: got "24:01"; write "06:00"`},
		{"06:60", `a time of day lies between 00:00 and 24:00: got "06:60"; write "06:00"`},
		{"6", `a time of day is written as hours and minutes, 00:00 to 24:00: got "6"; write "06:00"`},
		{"06:00:00", `a time of day is written as hours and minutes, 00:00 to 24:00: got "06:00:00"; write "06:00"`},
		{"6am", `a time of day is written as hours and minutes, 00:00 to 24:00: got "6am"; write "06:00"`},
	})
}

func TestParseDate(t *testing.T) {
	const want = "write 2027-03-12 (year-month-day)"
	checkQuantities(t, "date", ParseDate, []quantityCase{
		{"2027-03-12", "2027-03-12"}, {"2028-02-29", "2028-02-29"}, {"1970-01-01", "1970-01-01"}, {"2199-12-31", "2199-12-31"},
		{"2027-02-29", `this is not a date of the calendar: got "2027-02-29"; write 2027-02-28`},
		{"2027-13-01", `this is not a date of the calendar: got "2027-13-01"; ` + want},
		{"12/03/2027", `a date is written year-month-day: got "12/03/2027"; write 2027-03-12 or 2027-12-03`},
		{"26.3.2027", `a date is written year-month-day: got "26.3.2027"; write 2027-03-26`},
		{"3/3/2027", `a date is written year-month-day: got "3/3/2027"; write 2027-03-03`},
		{"easter", `a date is written year-month-day: got "easter"; write 2027-03-12`},
		{"2027-3-12", `a date is written year-month-day: got "2027-3-12"; write 2027-03-12`},
		{"2200-01-01", `years lie between 1970 and 2199: got "2200-01-01"; ` + want},
	})
}

func TestParseMoment(t *testing.T) {
	dublin, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	show := func(text string) (string, error) {
		m, err := ParseMoment(text, dublin)
		return m.In(time.UTC).Format("01-02 15:04"), err
	}
	const want = "write 2027-03-27 07:00, or with an offset 2027-03-27T07:00:00+00:00"
	checkQuantities(t, "moment", show, []quantityCase{
		{"2027-03-27 07:00", "03-27 07:00"}, {"2027-06-27 07:00", "06-27 06:00"}, {"2027-06-27T07:00", "06-27 06:00"}, {"2027-06-27 07:00:00", "06-27 06:00"},
		{"2027-06-27T07:00:00+02:00", "06-27 05:00"}, {"2027-06-27T07:00Z", "06-27 07:00"}, {"2027-06-27t07:00:00.000z", "06-27 07:00"},
		{"2027-06-27 07:00 -05:00", "06-27 12:00"}, {"2027-03-27 24:00", "03-28 00:00"},
		{"2027-03-28 00:59", "03-28 00:59"}, {"2027-03-28 02:00", "03-28 01:00"},
		{"2027-03-28 01:30", `the clocks go forward over this time, so there is no such moment: got "2027-03-28 01:30"; write 2027-03-28 02:00 or later`},
		{"2027-10-31 01:30", "10-31 00:30"}, // the first of the two
		{"2027-03-27", `a moment needs the time too: got "2027-03-27"; write 2027-03-27 07:00`},
		{"2027-03-27T07:00:30Z", `moments are whole minutes: got "2027-03-27T07:00:30Z"; write 2027-03-27 07:00`},
		{"2027-02-30 07:00", `this is not a date of the calendar: got "2027-02-30 07:00"; ` + want},
		{"2027-03-27 7 o'clock", `a time of day is written as hours and minutes, 00:00 to 24:00: got "2027-03-27 7 o'clock"; ` + want},
		{"next Saturday", `a date is written year-month-day: got "next Saturday"; ` + want},
	})
}

func TestFormats(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{FormatMinutes(0), "0 min"}, {FormatMinutes(90), "1 h 30 min"}, {FormatMinutes(1800), "1 d 6 h"}, {FormatMinutes(1440), "1 d"}, {FormatMinutes(-61), "-1 h 1 min"},
		{FormatRate(400), "0.4 min"}, {FormatRate(40_000), "40 min"},
		{FormatVolume(4000), "4 L"}, {FormatVolume(750), "750 mL"}, {FormatVolume(7500), "7.5 L"}, {FormatVolume(3785), "3.785 L"}, {FormatVolume(0), "0 L"},
		{FormatLitres(8000), "8"}, {FormatLitres(500), "0.5"},
		{FormatMass(75_000), "75 g"}, {FormatMass(1_200_000), "1.2 kg"}, {FormatMass(999_999), "999.999 g"},
		{FormatTemperature(4000), "4 °C"}, {FormatTemperature(-1500), "-1.5 °C"}, {FormatTemperature(-5), "-0.005 °C"},
		{formatTemperatureRange(2000, 6000), "2-6 °C"}, {formatTemperatureRange(4000, 4000), "4 °C"},
		{FormatMoney(650), "6.50"}, {FormatMoney(5), "0.05"}, {FormatMoney(-650), "-6.50"},
		{FormatLength(400_000), "40 cm"}, {FormatLength(406_400), "40.64 cm"}, {FormatLength(1), "0.0001 cm"},
		{formatSize(Size{400_000, 300_000, 125_000}), "40 x 30 x 12.5 cm"},
		{FormatClock(360), "06:00"}, {FormatClock(1440), "24:00"},
		{FormatWeekdays(0), ""}, {FormatWeekdays(Daily), "daily"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// Every set of days is printed in a way that is read back as the same set.
func TestEverySetOfDaysIsReadBack(t *testing.T) {
	for days := Weekdays(1); days <= Daily; days++ {
		text := FormatWeekdays(days)
		if got, err := ParseWeekdays(text); err != nil || got != days {
			t.Errorf("%07b is printed as %q, which is read as %07b, %v", days, text, got, err)
		}
	}
}

func TestShowTemperature(t *testing.T) {
	for _, c := range []struct{ in, want string }{{"39 °F", "3.9 °C"}, {"4 °C", "4 °C"}, {"54 F", "12.2 °C"}, {"5.05 °C", "5.1 °C"}, {"-0.25 °C", "-0.3 °C"}} {
		m, err := ParseTemperature(c.in)
		if got := ShowTemperature(m); err != nil || got != c.want {
			t.Errorf("%s: got %s, %v, want %s", c.in, got, err, c.want)
		}
	}
}
