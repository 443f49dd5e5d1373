package resources

import (
	"fmt"
	"math/big"
	"strings"
)

// How a quantity is written
//
// Every quantity carries its unit: "4 L", "1 d 6 h", "39 °F". The number is a
// plain decimal with a point. All sums are made in rationals, so that "1 gal
// (US)" is 3785.411784 mL until it is rounded once, to the nearest millilitre,
// halves up. The space before the unit may be left out ("4L"), and so may be the
// difference between a common space and a hard one.
//
// quantity_time.go reads lengths of time, quantity_clock.go hours and days,
// quantity_moment.go dates and moments, quantity_size.go sizes and temperatures;
// quantity_format.go prints all of them so that they can be read back.

// The largest quantities that are read. They are far beyond any small kitchen and
// keep every sum of the planner within 64 bits.
const (
	MaxElapsed     Minutes      = 1500 * Day
	MaxVolume      Millilitres  = 100_000_000       // 100,000 L
	MaxMass        Milligrams   = 1_000_000_000_000 // 1,000,000 kg
	MaxLength      Micrometres  = 100_000_000       // 100 m
	MaxMoney       Money        = 100_000_000       // 1,000,000.00
	MinTemperature MilliCelsius = -100_000
	MaxTemperature MilliCelsius = 200_000
	// MaxQuantityText is how many bytes one written quantity may have.
	MaxQuantityText = 120
	// MaxDigits is how many digits may stand on either side of the decimal point.
	MaxDigits = 9
)

// QuantityError says what is wrong with a quantity as somebody wrote it.
type QuantityError struct {
	What string // the fault, in the maker's words
	Got  string // as written
	Want string // how to write it; "" when What says it all
}

// Error gives the three parts in one line.
func (e *QuantityError) Error() string {
	s := fmt.Sprintf("%s: got %q", e.What, e.Got)
	if e.Want != "" {
		s += "; write " + e.Want
	}
	return s
}

// dimension is a kind of quantity with the units in which it is written.
type dimension struct {
	what  string   // "a volume"
	units []string // as written, the usual one first
	// unitSize gives a unit's size in base units as a fraction; false when unknown.
	unitSize func(unit string) (num, den int64, ok bool)
	max      int64 // in base units
	most     string
}

// measure reads one number with one unit; the result is in base units, exact.
func (d dimension) measure(text string) (*big.Rat, error) {
	t, err := tidy(text, d.what)
	if err != nil {
		return nil, err
	}
	number, unit, err := d.leading(t)
	if err != nil {
		return nil, err
	}
	size, err := d.size(number, unit, text)
	if err != nil {
		return nil, err
	}
	return d.within(size, text)
}

// leading takes the number off the front of a tidy text.
func (d dimension) leading(t string) (number, rest string, err error) {
	number, rest = splitNumber(t)
	if number == "" {
		return "", "", &QuantityError{d.what + " starts with a number", t, d.example("4")}
	}
	if err := checkNumber(number, rest, t, d.what, d.example); err != nil {
		return "", "", err
	}
	return number, strings.TrimSpace(rest), nil
}

// size gives number x unit in base units.
func (d dimension) size(number, unit, text string) (*big.Rat, error) {
	if unit == "" {
		return nil, &QuantityError{d.what + " needs its unit", text, d.example(number)}
	}
	num, den, ok := d.unitSize(unit)
	if !ok {
		if unit == "gal" || unit == "qt" {
			return nil, &QuantityError{"there are two sizes of " + unit, text,
				fmt.Sprintf("%s %s (US) or %s %s (imp)", number, unit, number, unit)}
		}
		what := fmt.Sprintf("%q is not a unit for %s", unit, d.what)
		if meant := d.meant(unit); meant != "" {
			return nil, &QuantityError{what, text, number + " " + meant}
		}
		return nil, &QuantityError{what, text, d.example(number)}
	}
	r := decimal(number)
	return r.Mul(r, big.NewRat(num, den)), nil
}

// within refuses what is negative or beyond the largest size.
func (d dimension) within(size *big.Rat, text string) (*big.Rat, error) {
	if size.Sign() < 0 {
		return nil, &QuantityError{d.what + " cannot be less than 0", text, ""}
	}
	if size.Cmp(new(big.Rat).SetInt64(d.max)) > 0 {
		return nil, &QuantityError{"more than the limit of " + d.most, text, ""}
	}
	return size, nil
}

// meant is the unit of this kind that a word surely means, "" when there is none:
// "hours" is h. It is offered, never taken, so that a folder reads the same to
// everybody.
func (d dimension) meant(word string) string {
	word = strings.ToLower(strings.TrimSuffix(word, "."))
	for _, unit := range d.units {
		for _, name := range unitNames(unit) {
			if word == name || word == name+"s" {
				return unit
			}
		}
	}
	return ""
}

// unitNames are the other names of a unit, in lower case and one of them only.
func unitNames(unit string) []string {
	switch unit {
	case "min":
		return []string{"minute", "mn", "m", "min"}
	case "h":
		return []string{"hour", "hr", "std", "h"}
	case "d":
		return []string{"day", "d"}
	case "L":
		return []string{"litre", "liter", "ltr"}
	case "mL":
		return []string{"millilitre", "milliliter"}
	case "g":
		return []string{"gram", "gramme", "gr", "g"}
	case "kg":
		return []string{"kilo", "kilogram", "kilogramme", "kg"}
	case "oz":
		return []string{"ounce", "oz"}
	case "lb":
		return []string{"pound", "lb"}
	}
	return nil
}

// example shows how the number would look with its unit.
func (d dimension) example(number string) string {
	if len(d.units) == 1 {
		return number + " " + d.units[0]
	}
	return fmt.Sprintf("%s %s (or %s)", number, d.units[0], strings.Join(d.units[1:], ", "))
}

// tidy makes all spaces common and single, and refuses a text that is too long
// to be a quantity or empty.
func tidy(text, what string) (string, error) {
	if len(text) > MaxQuantityText {
		return "", &QuantityError{fmt.Sprintf("%s is written in at most %d characters", what, MaxQuantityText), text[:20] + "…", ""}
	}
	// Fields cuts at every Unicode space, hard and thin ones included.
	t := strings.Join(strings.Fields(text), " ")
	t = strings.ReplaceAll(t, "−", "-") // the true minus sign
	return t, nil
}

// splitNumber splits off a leading sign, digits and point; number is "" when the
// text does not start with one.
func splitNumber(t string) (number, rest string) {
	i := 0
	if i < len(t) && t[i] == '-' {
		i++
	}
	digits := countDigits(t[i:])
	if digits == 0 {
		return "", t
	}
	i += digits
	if i < len(t) && t[i] == '.' {
		if n := countDigits(t[i+1:]); n > 0 {
			i += 1 + n
		}
	}
	return t[:i], t[i:]
}

// countDigits counts the ASCII digits at the front.
func countDigits(t string) int {
	n := 0
	for n < len(t) && t[n] >= '0' && t[n] <= '9' {
		n++
	}
	return n
}

// checkNumber refuses a decimal comma, a second point, and numbers that are
// longer than any quantity needs.
func checkNumber(number, rest, text, what string, example func(string) string) error {
	if len(rest) > 1 && rest[0] == ',' && countDigits(rest[1:]) > 0 {
		want := number + "." + rest[1:]
		if countDigits(rest[1:]) == len(rest)-1 {
			want = example(want) // no unit either
		}
		return &QuantityError{"decimals come after a point, and thousands have no comma", text, want}
	}
	if rest != "" && (rest[0] == '.' || rest[0] == ',' || rest[0] == '/') {
		return &QuantityError{what + " is written as a plain decimal number", text, example("1.5")}
	}
	whole, part, _ := strings.Cut(strings.TrimPrefix(number, "-"), ".")
	if len(whole) > MaxDigits || len(part) > MaxDigits {
		return &QuantityError{fmt.Sprintf("a number has at most %d digits on either side of the point", MaxDigits), text, ""}
	}
	return nil
}

// decimal turns a checked number into a fraction.
func decimal(number string) *big.Rat {
	r, ok := new(big.Rat).SetString(number)
	if !ok { // not reached: splitNumber gives digits and at most one point
		return new(big.Rat)
	}
	return r
}

// nearest rounds to a whole number, halves up.
func nearest(r *big.Rat) int64 {
	twice := new(big.Rat).Add(r, big.NewRat(1, 2))
	return new(big.Int).Div(twice.Num(), twice.Denom()).Int64()
}
