package resources

import "math/big"

// Factor is a number without a unit, in thousandths: 1.18 is 1180, and 15 % is 150.
type Factor int64

// ParseFactor reads a plain number with at most three decimals: "1.18". The error is a
// [QuantityError].
func ParseFactor(text string) (Factor, error) {
	const what = "a factor"
	t, err := tidy(text, what)
	if err != nil {
		return 0, err
	}
	number, rest := splitNumber(t)
	if number == "" {
		return 0, &QuantityError{"a factor is a plain number", text, "1.18"}
	}
	if err := checkNumber(number, rest, text, what, func(number string) string { return number }); err != nil {
		return 0, err
	}
	if rest != "" {
		return 0, &QuantityError{"a factor is a plain number, without a unit", text, number}
	}
	return thousandths(decimal(number), "a factor has at most three decimals", text, FormatFactor)
}

// ParsePercent reads "15 %" with at most one decimal. The error is a [QuantityError].
func ParsePercent(text string) (Factor, error) {
	const what = "a share"
	t, err := tidy(text, what)
	if err != nil {
		return 0, err
	}
	number, rest := splitNumber(t)
	if number == "" {
		return 0, &QuantityError{"a share starts with a number", text, "15 %"}
	}
	sample := func(number string) string { return number + " %" }
	if err := checkNumber(number, rest, text, what, sample); err != nil {
		return 0, err
	}
	if rest != "%" && rest != " %" {
		return 0, &QuantityError{"a share is told in percent", text, sample(number)}
	}
	size := decimal(number)
	return thousandths(size.Quo(size, big.NewRat(100, 1)), "a share has at most one decimal", text, FormatPercent)
}

// thousandths is a number that has no finer part.
func thousandths(r *big.Rat, fault, text string, format func(Factor) string) (Factor, error) {
	r.Mul(r, big.NewRat(1000, 1))
	f := Factor(nearest(r))
	if !r.IsInt() {
		return 0, &QuantityError{fault, text, format(f)}
	}
	return f, nil
}

// FormatFactor prints a factor so that [ParseFactor] reads the same: "1.18".
func FormatFactor(f Factor) string { return decimals(int64(f), 3) }

// FormatPercent prints a factor so that [ParsePercent] reads the same: "15 %".
func FormatPercent(f Factor) string { return decimals(int64(f), 1) + " %" }
