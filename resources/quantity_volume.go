package resources

import (
	"math/big"
	"strings"
)

func volumes() dimension {
	return dimension{
		what:     "a volume",
		units:    []string{"L", "mL", "gal (US)", "gal (imp)", "qt (US)", "qt (imp)"},
		unitSize: volumeUnit, max: int64(MaxVolume), most: FormatVolume(MaxVolume),
	}
}

// volumeUnit gives a unit's size in millilitres. US: NIST Handbook 44, Appendix C
// (the gallon of 231 cubic inches). Imperial: the gallon of 4.54609 L of the UK
// Weights and Measures Act 1985.
func volumeUnit(unit string) (num, den int64, ok bool) {
	switch strings.ReplaceAll(unit, " ", "") {
	case "L", "l":
		return 1000, 1, true
	case "mL", "ml":
		return 1, 1, true
	case "gal(US)":
		return 3_785_411_784, 1_000_000, true
	case "qt(US)":
		return 946_352_946, 1_000_000, true
	case "gal(imp)":
		return 4_546_090, 1000, true
	case "qt(imp)":
		return 11_365_225, 10_000, true
	}
	return 0, 0, false
}

// ParseVolume reads "4 L", "750 mL", "1 gal (US)", "4 qt (imp)" to the nearest
// millilitre, halves up. The error is a [QuantityError].
func ParseVolume(text string) (Millilitres, error) {
	r, err := volumes().measure(text)
	if err != nil {
		return 0, err
	}
	return Millilitres(nearest(r)), nil
}

// ParseLitres reads a plain number of litres, as begun.yaml and plan.json have
// it, to the nearest millilitre. A unit is an error.
func ParseLitres(text string) (Millilitres, error) {
	const what = "litres here"
	t, err := tidy(text, what)
	if err != nil {
		return 0, err
	}
	bare := func(number string) string { return number }
	number, rest := splitNumber(t)
	if number == "" {
		return 0, &QuantityError{what + " are a plain number", text, "8 or 7.5"}
	}
	if err := checkNumber(number, rest, text, what, bare); err != nil {
		return 0, err
	}
	if rest != "" {
		if v, err := ParseVolume(text); err == nil {
			return 0, &QuantityError{what + " are a plain number, without a unit", text, FormatLitres(v)}
		}
		return 0, &QuantityError{what + " are a plain number, without a unit", text, number}
	}
	r, err := volumes().within(new(big.Rat).Mul(decimal(number), big.NewRat(1000, 1)), text)
	if err != nil {
		return 0, err
	}
	return Millilitres(nearest(r)), nil
}

// ParseMass reads "75 g", "1.2 kg", "8 oz", "1 lb" to the nearest milligram,
// halves up. The pound is 0.45359237 kg exactly and has 16 oz (NIST Handbook 44,
// Appendix C).
func ParseMass(text string) (Milligrams, error) {
	d := dimension{
		what: "a mass", units: []string{"g", "kg", "oz", "lb"}, unitSize: massUnit,
		max: int64(MaxMass), most: FormatMass(MaxMass),
	}
	r, err := d.measure(text)
	if err != nil {
		return 0, err
	}
	return Milligrams(nearest(r)), nil
}

// massUnit gives a unit's size in milligrams.
func massUnit(unit string) (num, den int64, ok bool) {
	switch unit {
	case "g":
		return 1000, 1, true
	case "kg":
		return 1_000_000, 1, true
	case "oz":
		return 28_349_523_125, 1_000_000, true
	case "lb":
		return 45_359_237, 100, true
	}
	return 0, 0, false
}

// ParseTakes reads how much of a batch one station takes: a volume of milk, or
// "3 pieces". Exactly one of the two results is above 0.
func ParseTakes(text string) (Millilitres, int, error) {
	t, err := tidy(text, "how much it takes")
	if err != nil {
		return 0, 0, err
	}
	number, rest := splitNumber(t)
	unit := strings.TrimSpace(rest)
	if number != "" && (unit == "" || unit == "pieces" || unit == "piece") {
		if unit == "" {
			return 0, 0, &QuantityError{"how much it takes needs its unit", text, number + " L of milk or " + number + " pieces"}
		}
		if len(number) > MaxDigits || countDigits(number) != len(number) || decimal(number).Sign() == 0 {
			return 0, 0, &QuantityError{"it takes a whole number of pieces, from 1", text, "3 pieces"}
		}
		return 0, int(nearest(decimal(number))), nil
	}
	v, err := ParseVolume(text)
	if err == nil && v == 0 {
		err = &QuantityError{"it must take more than 0", text, "6 L or 3 pieces"}
	}
	return v, 0, err
}

// ParseMoney reads an amount with at most two decimals: "6.50", "6.5", "6".
func ParseMoney(text string) (Money, error) {
	const what = "a price"
	t, err := tidy(text, what)
	if err != nil {
		return 0, err
	}
	number, rest := splitNumber(t)
	bare := func(number string) string { return number }
	if number == "" || number[0] == '-' {
		return 0, &QuantityError{"a price is a plain number from 0", text, "6.50"}
	}
	if err := checkNumber(number, rest, text, what, bare); err != nil {
		return 0, err
	}
	if rest != "" {
		return 0, &QuantityError{"a price is a plain number, without a sign or name of the money", text, number}
	}
	r := new(big.Rat).Mul(decimal(number), big.NewRat(100, 1))
	if !r.IsInt() {
		return 0, &QuantityError{"a price has at most two decimals", text, FormatMoney(Money(nearest(r)))}
	}
	if r.Cmp(big.NewRat(int64(MaxMoney), 1)) > 0 {
		return 0, &QuantityError{"more than the limit of " + FormatMoney(MaxMoney), text, ""}
	}
	return Money(nearest(r)), nil
}
