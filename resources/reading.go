package resources

import (
	"math/big"
	"strings"
)

// Reading is a number that was measured, or a limit of one: Num/Den of a unit, in lowest terms, so that equal
// readings are equal values. Unit is "" where the number has none, as a pH, "°C" or "°F", or a unit of amounts.
// The zero Reading is what nobody said; 0 itself has Den 1.
type Reading struct {
	Num, Den int64
	Unit     string
}

// The units of a temperature that was measured.
const (
	Celsius    = "°C"
	Fahrenheit = "°F"
)

const (
	aReading      = "what is measured"
	readingSample = "4.6, 26 °C, 12 g, 1.5 % or 3"
)

// Rat is the reading as a fraction of its unit.
func (r Reading) Rat() *big.Rat {
	if r.Den == 0 {
		return new(big.Rat)
	}
	return big.NewRat(r.Num, r.Den)
}

// IsZero reports whether nothing was said.
func (r Reading) IsZero() bool { return r == Reading{} }

// ParseReading reads what is measured: "4.6", "26 °C", "79 °F", "-1 °C", "12 g", "1.5 %", "3 holes". It is at most
// [MostAmount] either way. The error is a [QuantityError].
func ParseReading(text string) (Reading, error) {
	t, err := tidy(text, aReading)
	if err != nil {
		return Reading{}, err
	}
	number, rest := splitNumber(t)
	if number == "" {
		return Reading{}, &QuantityError{aReading + " starts with a number", text, readingSample}
	}
	if err := checkNumber(number, rest, text, aReading, func(n string) string { return n }); err != nil {
		return Reading{}, err
	}
	unit, err := readingUnit(strings.TrimSpace(rest), number, text)
	if err != nil {
		return Reading{}, err
	}
	size := decimal(number)
	if new(big.Rat).Abs(size).Cmp(big.NewRat(MostAmount, 1)) > 0 {
		return Reading{}, &QuantityError{"beyond the limit of " + FormatReading(Reading{MostAmount, 1, unit}), text, ""}
	}
	return Reading{size.Num().Int64(), size.Denom().Int64(), unit}, nil
}

// readingUnit is the unit behind the number of a reading.
func readingUnit(rest, number, text string) (string, error) {
	switch unit := degreeUnit(rest); {
	case rest == "":
		return "", nil
	case unit != "":
		return unit, nil
	case strings.EqualFold(rest, "pH"):
		return "", &QuantityError{"a pH has no unit", text, number}
	}
	return amountUnit(rest, text)
}

// degreeUnit is the unit of a temperature as somebody writes it, spaces and look-alikes of the sign included; "" for
// what is none.
func degreeUnit(unit string) string {
	// The masculine ordinal and the ring above are what some keyboards offer.
	switch strings.ReplaceAll(strings.NewReplacer("º", "°", "˚", "°", "℃", "°C", "℉", "°F").Replace(unit), " ", "") {
	case "°C", "C":
		return Celsius
	case "°F", "F":
		return Fahrenheit
	}
	return ""
}

// FormatReading prints a reading so that [ParseReading] reads the same: "4.6", "26 °C", "3 holes"; "" for the zero one.
func FormatReading(r Reading) string {
	if r.IsZero() {
		return ""
	}
	number := ReadingNumber(r)
	switch r.Unit {
	case "":
		return number
	case Celsius, Fahrenheit:
		return number + " " + r.Unit
	}
	return number + " " + UnitWord(r.Unit, new(big.Rat).Abs(r.Rat()).Cmp(big.NewRat(1, 1)) <= 0)
}

// ReadingNumber is the number of a reading without its unit.
func ReadingNumber(r Reading) string {
	s := r.Rat().FloatString(MaxDigits) // no number that is read has more places
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// CompareReadings says by its sign whether a is less than b, as much, or more: exactly, in one unit. It is false
// where the two are not of one kind: a pH and a temperature, or a number with a unit and one without.
func CompareReadings(a, b Reading) (int, bool) {
	if a.IsZero() || b.IsZero() {
		return 0, false
	}
	x, y := a.Rat(), b.Rat()
	isDegree := func(unit string) bool { return unit == Celsius || unit == Fahrenheit }
	if isDegree(a.Unit) && isDegree(b.Unit) {
		return inCelsius(x, a.Unit).Cmp(inCelsius(y, b.Unit)), true
	}
	x, ok := InUnit(x, a.Unit, b.Unit)
	if !ok {
		return 0, false
	}
	return x.Cmp(y), true
}

// inCelsius is a temperature in degrees Celsius, exact: (F - 32) x 5/9 (from memory: the definition of the degree
// Fahrenheit, NIST SP 811, B.8).
func inCelsius(size *big.Rat, unit string) *big.Rat {
	if unit == Celsius {
		return size
	}
	r := new(big.Rat).Sub(size, big.NewRat(32, 1))
	return r.Mul(r, big.NewRat(5, 9))
}
