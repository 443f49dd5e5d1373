package resources

import (
	"math/big"
	"strings"
)

func lengths() dimension {
	return dimension{
		what: "a length of time", units: []string{"min", "h", "d"}, unitSize: timeUnit,
		max: int64(MaxElapsed), most: FormatMinutes(MaxElapsed),
	}
}

// timeUnit gives a unit's size in minutes. A day is 24 elapsed hours, also across
// a clock change.
func timeUnit(unit string) (num, den int64, ok bool) {
	switch unit {
	case "min":
		return 1, 1, true
	case "h":
		return int64(Hour), 1, true
	case "d":
		return int64(Day), 1, true
	}
	return 0, 0, false
}

// ParseMinutes reads an elapsed time: "90 min", "24 h", "1 d 6 h", "1.5 h". It
// must come out at whole minutes.
func ParseMinutes(text string) (Minutes, error) {
	r, err := elapsed(text)
	if err != nil {
		return 0, err
	}
	if !r.IsInt() {
		return 0, &QuantityError{"this length of time must be whole minutes", text, FormatMinutes(max(1, Minutes(nearest(r))))}
	}
	return Minutes(nearest(r)), nil
}

// ParseRate reads a length of work to the thousandth of a minute: "40 min",
// "0.4 min".
func ParseRate(text string) (Rate, error) {
	r, err := elapsed(text)
	if err != nil {
		return 0, err
	}
	r.Mul(r, big.NewRat(1000, 1))
	if !r.IsInt() {
		return 0, &QuantityError{"work is counted to a thousandth of a minute", text, FormatRate(max(1, Rate(nearest(r))))}
	}
	return Rate(nearest(r)), nil
}

// elapsed reads numbers with units, the larger units first and none twice, and
// gives their sum in minutes.
func elapsed(text string) (*big.Rat, error) {
	d := lengths()
	t, err := tidy(text, d.what)
	if err != nil {
		return nil, err
	}
	sum, last := new(big.Rat), int64(MaxElapsed)
	for first := true; first || t != ""; first = false {
		var number, unit string
		if number, t, err = d.leading(t); err != nil {
			return nil, err
		}
		unit, t = splitWord(t)
		part, err := d.size(number, unit, text)
		if err != nil {
			return nil, err
		}
		if number[0] == '-' {
			return nil, &QuantityError{d.what + " cannot be less than 0", text, ""}
		}
		num, _, _ := d.unitSize(unit)
		if num >= last {
			return nil, &QuantityError{"days come before hours and hours before minutes, each once", text, "1 d 6 h 30 min"}
		}
		last = num
		sum.Add(sum, part)
	}
	return d.within(sum, text)
}

// splitWord splits a unit off the front: up to a space or a digit.
func splitWord(t string) (word, rest string) {
	n := strings.IndexAny(t, " 0123456789-")
	if n < 0 {
		n = len(t)
	}
	return t[:n], strings.TrimSpace(t[n:])
}
