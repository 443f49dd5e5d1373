package resources

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Each of these prints a quantity so that its Parse function reads the same
// quantity back.

// FormatMinutes prints an elapsed time in days, hours and minutes, leaving out
// what is 0: "1 d 6 h", "90 min" as "1 h 30 min", and "0 min" for nothing.
func FormatMinutes(m Minutes) string {
	sign := ""
	if m < 0 {
		sign, m = "-", -m
	}
	var parts []string
	for _, u := range []struct {
		size Minutes
		name string
	}{{Day, "d"}, {Hour, "h"}, {1, "min"}} {
		if n := m / u.size; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, u.name))
			m %= u.size
		}
	}
	if len(parts) == 0 {
		return "0 min"
	}
	return sign + strings.Join(parts, " ")
}

// FormatRate prints thousandths of a minute as minutes: "0.4 min".
func FormatRate(r Rate) string { return decimals(int64(r), 3) + " min" }

// FormatVolume prints litres, or millilitres below one litre: "4 L", "750 mL".
func FormatVolume(v Millilitres) string {
	if v > -1000 && v < 1000 && v != 0 {
		return strconv.FormatInt(int64(v), 10) + " mL"
	}
	return FormatLitres(v) + " L"
}

// FormatLitres prints a plain number of litres: "8", "7.5", "3.785".
func FormatLitres(v Millilitres) string { return decimals(int64(v), 3) }

// FormatMass prints grams, or kilograms from one kilogram: "75 g", "1.2 kg".
func FormatMass(m Milligrams) string {
	if m >= 1_000_000 || m <= -1_000_000 {
		return decimals(int64(m), 6) + " kg"
	}
	return decimals(int64(m), 3) + " g"
}

// FormatTemperature prints degrees Celsius: "4 °C", "-1.5 °C".
func FormatTemperature(t MilliCelsius) string { return decimals(int64(t), 3) + " °C" }

// ShowTemperature writes a temperature for people, to a tenth of a degree: a
// kitchen's thermometer tells no more, and 39 °F is not a round number of °C.
func ShowTemperature(t MilliCelsius) string {
	half := MilliCelsius(50)
	if t < 0 {
		half = -half
	}
	return FormatTemperature((t + half) / 100 * 100)
}

// FormatMoney prints two decimals and no sign of the money: "6.50".
func FormatMoney(m Money) string {
	sign, n := split(int64(m))
	return fmt.Sprintf("%s%d.%02d", sign, n/100, n%100)
}

// FormatLength prints centimetres: "40 cm", "40.64 cm".
func FormatLength(l Micrometres) string { return decimals(int64(l), 4) + " cm" }

// FormatMillimetres prints millimetres: "60 mm", "63.5 mm".
func FormatMillimetres(l Micrometres) string { return decimals(int64(l), 3) + " mm" }

// FormatArea prints width x height in millimetres: "60 x 40 mm".
func FormatArea(a Area) string {
	return decimals(int64(a.Width), 3) + " x " + FormatMillimetres(a.Height)
}

// FormatClock prints hours and minutes: "06:00", "24:00".
func FormatClock(c Clock) string { return fmt.Sprintf("%02d:%02d", int(c)/60, int(c)%60) }

// FormatMoment prints the local date and time of day: "2027-03-27 07:00". In the
// hour that a clock change repeats it does not say which of the two is meant.
func FormatMoment(m Moment, zone *time.Location) string {
	return m.In(zone).Format("2006-01-02 15:04")
}

// ShowMoment names a local moment for people, its year left out: "Sat 27 Mar 07:00".
// It is not written to be read back.
func ShowMoment(m Moment, zone *time.Location) string { return m.In(zone).Format("Mon 2 Jan 15:04") }

// ShowDay names the local day of a moment likewise: "Sat 27 Mar".
func ShowDay(m Moment, zone *time.Location) string { return m.In(zone).Format("Mon 2 Jan") }

// FormatWeekdays prints "daily", "mon-fri", "sat,sun": three or more days in a row
// as a range, which may run over the week's end. No day at all is "".
func FormatWeekdays(w Weekdays) string {
	if w&Daily == Daily {
		return "daily"
	}
	var parts []string
	for i := range 7 {
		d := time.Weekday(i+1) % 7
		if !w.Has(d) || w.Has((d+6)%7) {
			continue // not the first day of a row
		}
		n := 1
		for w.Has((d + time.Weekday(n)) % 7) {
			n++
		}
		last := dayName((d + time.Weekday(n-1)) % 7)
		switch n {
		case 1:
			parts = append(parts, dayName(d))
		case 2:
			parts = append(parts, dayName(d), last)
		default:
			parts = append(parts, dayName(d)+"-"+last)
		}
	}
	return strings.Join(parts, ",")
}

// decimals prints n / 10^places without zeros at the end.
func decimals(n int64, places int) string {
	sign, u := split(n)
	digits := fmt.Sprintf("%0*d", places+1, u)
	whole, part := digits[:len(digits)-places], digits[len(digits)-places:]
	if part = strings.TrimRight(part, "0"); part != "" {
		whole += "." + part
	}
	return sign + whole
}

// split gives the sign and the size; the smallest int64 has no positive twin but
// fits a uint64.
func split(n int64) (string, uint64) {
	if n < 0 {
		return "-", -uint64(n)
	}
	return "", uint64(n)
}
