package resources

import (
	"testing"
	"time"
)

// FuzzQuantity reads any text as every kind of quantity. What can be read can be
// printed, and what is printed is read as the same.
func FuzzQuantity(f *testing.F) {
	for _, text := range []string{"4 L", "750 mL", "1 gal (US)", "4 qt (imp)", "1 d 6 h", "90 min", "0.4 min", "75 g", "8 oz", "4 °C", "-39.5 °F",
		"2-6 °C", "-4--2 C", "40 x 30 x 12 cm", "16 x 12 x 4.5 in", "06:00", "mon-fri 06:00-08:00", "fri-mon, wed 22:00-02:00", "6.50", "3 pieces",
		"2027-03-27 07:00", "2027-03-27T07:00:00+01:00", "2028-02-29", "−4 L", "4\u00a0L", "1,5 h",
		"0.12 g", "1/8 tsp", "1 1/2 tsp (metric)", "3 drops", "2 sachets", "1.5 %", "200 IMCU/mL", "25 DCU/sachet", "1/3 box"} {
		f.Add(text)
	}
	zone := time.FixedZone("half an hour", 1800)
	f.Fuzz(func(t *testing.T, text string) {
		readBack(t, text, ParseVolume, FormatVolume)
		readBack(t, text, ParseLitres, FormatLitres)
		readBack(t, text, ParseMass, FormatMass)
		readBack(t, text, ParseMinutes, FormatMinutes)
		readBack(t, text, ParseRate, FormatRate)
		readBack(t, text, ParseTemperature, FormatTemperature)
		readBack(t, text, ParseSize, formatSize)
		readBack(t, text, ParseMoney, FormatMoney)
		readBack(t, text, ParseAmount, FormatAmount)
		readBack(t, text, ParseStrength, FormatStrength)
		readBack(t, text, ParseClock, FormatClock)
		readBack(t, text, ParseWeekdays, FormatWeekdays)
		readBack(t, text, ParseHours, formatHours)
		readBack(t, text, ParseDate, Date.String)
		readBack(t, text, func(s string) (Moment, error) { return ParseMoment(s, zone) }, func(m Moment) string { return FormatMoment(m, zone) })
		readBack(t, text, parseRange, func(r [2]MilliCelsius) string { return formatTemperatureRange(r[0], r[1]) })
		if v, n, err := ParseTakes(text); err == nil && (v > 0) == (n > 0) {
			t.Errorf("takes %q: got %d mL and %d pieces, want one of them", text, v, n)
		}
	})
}

func parseRange(text string) ([2]MilliCelsius, error) {
	low, high, err := ParseTemperatureRange(text)
	return [2]MilliCelsius{low, high}, err
}

func readBack[T comparable](t *testing.T, text string, parse func(string) (T, error), format func(T) string) {
	t.Helper()
	v, err := parse(text)
	if err != nil {
		return
	}
	again, err := parse(format(v))
	if err != nil || again != v {
		t.Errorf("%q is read as %v and printed as %q, which is read as %v, %v", text, v, format(v), again, err)
	}
}
