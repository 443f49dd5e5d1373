package resources

import (
	"fmt"
	"math/big"
	"strings"
)

// Amount is so much of something that goes into cheese: Num/Den of a unit, in lowest terms, so that equal
// amounts are equal values. Unit is one of the table of units, or a word that is counted, in the singular: "sachet".
// The zero Amount is what nobody said.
type Amount struct {
	Num, Den int64
	Unit     string
}

// MostAmount is the largest amount that is read, of any unit, and so of what is reckoned of it.
const MostAmount = 100_000

// Rat is the amount as a fraction of its unit.
func (a Amount) Rat() *big.Rat {
	if a.Den == 0 {
		return new(big.Rat)
	}
	return big.NewRat(a.Num, a.Den)
}

// IsZero reports whether nothing was said.
func (a Amount) IsZero() bool { return a == Amount{} }

const (
	anAmount     = "an amount"
	amountSample = "0.12 g, 2 mL, 1/8 tsp or 1 sachet"
)

// ParseAmount reads what goes in: "0.12 g", "1.5 mL", "1/8 tsp", "1 1/2 tsp", "3 drops", "4.5 IMCU", "1.5 %",
// "1 sachet". It is more than 0 and at most [MostAmount]. A word that is no unit is something that is counted.
// The error is a [QuantityError].
func ParseAmount(text string) (Amount, error) {
	t, err := tidy(text, anAmount)
	if err != nil {
		return Amount{}, err
	}
	size, rest, err := amountNumber(t)
	if err != nil {
		return Amount{}, err
	}
	unit, err := amountUnit(rest, t)
	if err != nil {
		return Amount{}, err
	}
	switch {
	case size.Sign() <= 0:
		return Amount{}, &QuantityError{"an amount is more than 0", text, ""}
	case size.Cmp(big.NewRat(MostAmount, 1)) > 0:
		return Amount{}, &QuantityError{"more than the limit of " + FormatAmount(Amount{MostAmount, 1, unit}), text, ""}
	}
	return Amount{size.Num().Int64(), size.Denom().Int64(), unit}, nil
}

// amountNumber takes the number off the front: a decimal, a fraction, or a whole number with one.
func amountNumber(t string) (*big.Rat, string, error) {
	example := func(number string) string {
		return number + " g, " + number + " mL, " + number + " tsp or " + number + " sachet"
	}
	number, rest := splitNumber(t)
	if number == "" {
		return nil, "", &QuantityError{"an amount starts with a number", t, amountSample}
	}
	if over, after, ok := fraction(rest); ok && !strings.Contains(number, ".") {
		r, err := divided(number, over, t)
		return r, after, err
	}
	if err := checkNumber(number, rest, t, anAmount, example); err != nil {
		return nil, "", err
	}
	size, rest := decimal(number), strings.TrimSpace(rest)
	if top, after := splitNumber(rest); top != "" && top[0] != '-' && !strings.Contains(number+top, ".") {
		if over, last, ok := fraction(after); ok {
			part, err := divided(top, over, t)
			if err != nil || size.Sign() < 0 {
				return size, last, err
			}
			return part.Add(part, size), last, nil
		}
	}
	return size, rest, nil
}

// fraction takes "/8" off the front.
func fraction(t string) (over, rest string, ok bool) {
	if t == "" || t[0] != '/' {
		return "", t, false
	}
	n := countDigits(t[1:])
	return t[1 : 1+n], strings.TrimSpace(t[1+n:]), n > 0
}

// divided is a fraction of two whole numbers.
func divided(top, over, text string) (*big.Rat, error) {
	if len(strings.TrimPrefix(top, "-")) > MaxDigits || len(over) > MaxDigits {
		return nil, &QuantityError{fmt.Sprintf("a number has at most %d digits", MaxDigits), text, ""}
	}
	below := decimal(over)
	if below.Sign() == 0 {
		return nil, &QuantityError{"nothing is divided by 0", text, "1/8 tsp"}
	}
	return new(big.Rat).Quo(decimal(top), below), nil
}

// FormatAmount prints an amount so that [ParseAmount] reads the same: "0.12 g", "1 1/2 tsp", "2 sachets". Spoons
// are printed as fractions, all else as a decimal wherever it comes to an end; of what nobody said there is nothing
// to print.
func FormatAmount(a Amount) string {
	if a.IsZero() {
		return ""
	}
	number := ""
	places, ends := endsAfter(a.Den)
	switch {
	case a.Den == 1:
		number = fmt.Sprint(a.Num)
	case ends && !IsSpoon(a.Unit):
		number = strings.TrimRight(a.Rat().FloatString(places), "0")
	case a.Num > a.Den:
		number = fmt.Sprintf("%d %d/%d", a.Num/a.Den, a.Num%a.Den, a.Den)
	default:
		number = fmt.Sprintf("%d/%d", a.Num, a.Den)
	}
	return number + " " + UnitWord(a.Unit, a.Num <= a.Den)
}

// endsAfter is after how many places a fraction with that denominator ends as a decimal that can be read back.
func endsAfter(den int64) (places int, ends bool) {
	power := int64(1)
	for ; places <= MaxDigits; places++ {
		if power%den == 0 {
			return places, true
		}
		power *= 10
	}
	return 0, false
}

// Strength is how strong something is: so much of its activity in one of what it is measured in, as in 200 IMCU
// in each mL. The zero Strength is what nobody said.
type Strength struct {
	Holds Amount // 200 IMCU
	In    string // mL
}

// IsZero reports whether nothing was said.
func (s Strength) IsZero() bool { return s == Strength{} }

// ParseStrength reads "200 IMCU/mL" or "25 DCU/sachet". The error is a [QuantityError].
func ParseStrength(text string) (Strength, error) {
	const want = "200 IMCU/mL or 25 DCU/sachet"
	at := strings.LastIndex(text, "/")
	if at < 0 || countDigits(strings.TrimSpace(text[at+1:])) > 0 {
		return Strength{}, &QuantityError{"a strength is so much in one of something", text, want}
	}
	holds, err := ParseAmount(text[:at])
	if err != nil {
		return Strength{}, &QuantityError{err.(*QuantityError).What, text, want}
	}
	t, err := tidy(text[at+1:], "a strength")
	if err != nil {
		return Strength{}, err
	}
	in, err := amountUnit(t, t)
	switch {
	case err != nil:
		return Strength{}, &QuantityError{err.(*QuantityError).What, text, want}
	case in == Percent || in == holds.Unit || holds.Unit == Percent:
		return Strength{}, &QuantityError{"a strength is so much in one of something else", text, want}
	case holds.Rat().Cmp(big.NewRat(1, 10)) < 0: // so that no dose outgrows its millionths
		return Strength{}, &QuantityError{"a strength is at least 0.1", text, want}
	}
	return Strength{holds, in}, nil
}

// FormatStrength prints a strength so that [ParseStrength] reads the same.
func FormatStrength(s Strength) string {
	return FormatAmount(s.Holds) + "/" + UnitWord(s.In, true)
}
