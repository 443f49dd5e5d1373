package resources

import (
	"fmt"
	"strings"
)

// GTIN is a Global Trade Item Number in 14 digits, shorter ones with zeros in front, as the GS1
// General Specifications have them in element strings; "" for none.
type GTIN string

// ParseGTIN reads one of 8, 12, 13 or 14 digits, spaces between them left aside, and holds it
// against its check digit.
func ParseGTIN(text string) (GTIN, error) {
	digits := strings.ReplaceAll(text, " ", "")
	if countDigits(digits) != len(digits) || len(digits) != 8 && (len(digits) < 12 || len(digits) > 14) {
		return "", &QuantityError{"a GTIN has 8, 12, 13 or 14 digits", text, ""}
	}
	body, last := digits[:len(digits)-1], digits[len(digits)-1:]
	if want := CheckDigit(body); want != last {
		return "", &QuantityError{fmt.Sprintf("the last digit of a GTIN follows from the others, and here it would be %s: one of them is wrong", want), text, ""}
	}
	return GTIN(strings.Repeat("0", 14-len(digits)) + digits), nil
}

// CheckDigit is the digit that ends a GS1 number whose other digits are given: from the right they
// count three times and once in turn, and with it the sum is a multiple of ten (GS1 General
// Specifications, 7.9).
func CheckDigit(digits string) string {
	sum := 0
	for i := range len(digits) {
		d := int(digits[len(digits)-1-i] - '0')
		if i%2 == 0 {
			d *= 3
		}
		sum += d
	}
	return fmt.Sprint((10 - sum%10) % 10)
}
