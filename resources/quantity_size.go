package resources

import (
	"fmt"
	"math/big"
	"strings"
)

// ParseSize reads "40 x 30 x 12 cm" (width x depth x height), in cm, mm or in.
// Each side is above 0 and read to the nearest micrometre.
func ParseSize(text string) (Size, error) {
	sides, err := parseSides(text, 3, "a size has three sides, width x depth x height", "40 x 30 x 12 cm")
	if err != nil {
		return Size{}, err
	}
	return Size{sides[0], sides[1], sides[2]}, nil
}

// ParseArea reads "60 x 40 mm" (width x height) likewise.
func ParseArea(text string) (Area, error) {
	sides, err := parseSides(text, 2, "this size has two sides, width x height", "60 x 40 mm")
	if err != nil {
		return Area{}, err
	}
	return Area{sides[0], sides[1]}, nil
}

// ParseDistance reads "7 mm", in mm, cm or in; 0 is one.
func ParseDistance(text string) (Micrometres, error) {
	r, err := spaceLengths("a distance", "mm", "cm", "in").measure(text)
	if err != nil {
		return 0, err
	}
	return Micrometres(nearest(r)), nil
}

// spaceLengths is the dimension of lengths in space.
func spaceLengths(what string, units ...string) dimension {
	return dimension{what: what, units: units, unitSize: lengthUnit, max: int64(MaxLength), most: FormatLength(MaxLength)}
}

// parseSides reads so many sides, the last one's unit holding for those without.
func parseSides(text string, count int, what, example string) ([]Micrometres, error) {
	t, err := tidy(text, "a size")
	if err != nil {
		return nil, err
	}
	d := spaceLengths("a size", "cm", "mm", "in")
	d.most += " a side"
	sides := strings.Split(strings.NewReplacer("×", "x", "X", "x").Replace(t), "x")
	if len(sides) != count {
		return nil, &QuantityError{what, text, example}
	}
	last := strings.TrimSpace(sides[count-1])
	_, common := splitNumber(last)
	common = strings.TrimSpace(common)
	if common == "" {
		unit := strings.TrimLeft(example[strings.LastIndexByte(example, ' '):], " ")
		others := map[string]string{"cm": "mm, in", "mm": "cm, in"}[unit]
		return nil, &QuantityError{"a size needs its unit", text, t + " " + unit + " (or " + others + ")"}
	}
	out := make([]Micrometres, count)
	for i, side := range sides {
		side = strings.TrimSpace(side)
		if n, rest := splitNumber(side); n != "" && rest == "" {
			side += " " + common
		}
		r, err := d.measure(side)
		if err != nil {
			e := err.(*QuantityError)
			return nil, &QuantityError{e.What, text, example}
		}
		if out[i] = Micrometres(nearest(r)); out[i] == 0 {
			return nil, &QuantityError{"each side of a size is more than 0", text, example}
		}
	}
	return out, nil
}

// lengthUnit gives a unit's size in micrometres. The inch is 25.4 mm exactly
// (NIST Handbook 44, Appendix C).
func lengthUnit(unit string) (num, den int64, ok bool) {
	switch unit {
	case "cm":
		return int64(Centimetre), 1, true
	case "mm":
		return 1000, 1, true
	case "in":
		return 25_400, 1, true
	}
	return 0, 0, false
}

const wantDegrees = "4 °C (or 4 C, 39 °F, 39 F)"

// ParseTemperature reads "4 °C", "4 C", "39 °F" or "39 F" to the nearest
// thousandth of a degree Celsius, halves up.
func ParseTemperature(text string) (MilliCelsius, error) {
	t, err := tidy(text, "a temperature")
	if err != nil {
		return 0, err
	}
	number, rest := splitNumber(t)
	if number == "" {
		return 0, &QuantityError{"a temperature starts with a number", text, wantDegrees}
	}
	return degrees(number, strings.TrimSpace(rest), text)
}

// ParseTemperatureRange reads "2-6 °C", or a single temperature, which is a range
// of its own. Either side may be below zero: "-2 - 4 °C".
func ParseTemperatureRange(text string) (low, high MilliCelsius, err error) {
	t, err := tidy(text, "a temperature range")
	if err != nil {
		return 0, 0, err
	}
	first, rest := splitNumber(strings.ReplaceAll(t, "–", "-"))
	if first == "" {
		return 0, 0, &QuantityError{"a temperature range starts with a number", text, "2-6 °C"}
	}
	unit, second, ranged := strings.Cut(strings.TrimSpace(rest), "-")
	if !ranged {
		low, err = degrees(first, strings.TrimSpace(rest), text)
		return low, low, err
	}
	number, rest := splitNumber(strings.TrimSpace(second))
	last := strings.TrimSpace(rest)
	if number == "" {
		return 0, 0, &QuantityError{"a temperature range ends with a number and its unit", text, "2-6 °C"}
	}
	if unit = strings.TrimSpace(unit); unit == "" {
		unit = last
	}
	if last == "" {
		return 0, 0, &QuantityError{"a temperature range needs its unit", text, first + "-" + number + " °C (or °F)"}
	}
	if low, err = degrees(first, unit, text); err != nil {
		return 0, 0, err
	}
	if high, err = degrees(number, last, text); err != nil {
		return 0, 0, err
	}
	if high < low {
		return 0, 0, &QuantityError{"a temperature range goes from cold to warm", text, fmt.Sprintf("%s-%s %s", number, first, last)}
	}
	return low, high, nil
}

// degrees turns a number and its unit into thousandths of a degree Celsius.
func degrees(number, unit, text string) (MilliCelsius, error) {
	again := func(n string) string { return n + " °C (or °F)" }
	if err := checkNumber(number, unit, text, "a temperature", again); err != nil {
		return 0, err
	}
	r := decimal(number)
	switch of := degreeUnit(unit); {
	case strings.TrimSpace(unit) == "":
		return 0, &QuantityError{"a temperature needs its unit", text, again(number)}
	case of == "":
		return 0, &QuantityError{fmt.Sprintf("%q is not a unit for a temperature", unit), text, again(number)}
	default:
		r = inCelsius(r, of)
	}
	r.Mul(r, big.NewRat(1000, 1))
	if r.Cmp(big.NewRat(int64(MinTemperature), 1)) < 0 || r.Cmp(big.NewRat(int64(MaxTemperature), 1)) > 0 {
		return 0, &QuantityError{fmt.Sprintf("beyond the limits of %s and %s",
			FormatTemperature(MinTemperature), FormatTemperature(MaxTemperature)), text, ""}
	}
	return MilliCelsius(nearest(r)), nil
}
