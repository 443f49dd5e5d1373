package planfile

import (
	"encoding/json"
	"strconv"
	"strings"
)

// Decimal places after which litres (millilitres) and centimetres (micrometres)
// have no further digits.
const (
	litrePlaces      = 3
	degreePlaces     = 3
	factorPlaces     = 3
	centimetrePlaces = 4
)

// decimalOf writes n / 10^places exactly, without trailing zeros: 8500 in
// thousandths is 8.5.
func decimalOf(n int64, places int) json.Number {
	sign, digits := "", strconv.FormatUint(magnitude(n), 10)
	if n < 0 {
		sign = "-"
	}
	if len(digits) <= places {
		digits = strings.Repeat("0", places+1-len(digits)) + digits
	}
	whole, part := digits[:len(digits)-places], strings.TrimRight(digits[len(digits)-places:], "0")
	if part != "" {
		whole += "." + part
	}
	return json.Number(sign + whole)
}

// magnitude is |n|; it holds for the smallest int64 too, which has no positive
// twin.
func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}

// parseDecimal reads a decimal number as a whole number of 10^-places. It is
// not ok when the number has an exponent, has more digits than places (zeros
// apart), or does not fit.
func parseDecimal(text json.Number, places int) (n int64, ok bool) {
	whole, part, _ := strings.Cut(string(text), ".")
	part = strings.TrimRight(part, "0")
	if len(part) > places {
		return 0, false
	}
	n, err := strconv.ParseInt(whole+part+strings.Repeat("0", places-len(part)), 10, 64)
	return n, err == nil
}
