package psplib

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Fault is something in a file that is not as the format says.
type Fault struct {
	Line int    // from 1; the last line for what is missing
	What string // what was read
	Got  any
	Want string
}

// Error implements error.
func (f *Fault) Error() string {
	return fmt.Sprintf("line %d: %s: got %v, want %s", f.Line, f.What, f.Got, f.Want)
}

// notBelowZero refuses a row with a number below 0.
func notBelowZero(line int, what string, row []int) error {
	if slices.ContainsFunc(row, func(n int) bool { return n < 0 }) {
		return &Fault{line, what, row, "none below 0"}
	}
	return nil
}

// numbers splits a line of whole numbers.
func numbers(line int, text string) ([]int, error) {
	var out []int
	for _, f := range strings.Fields(text) {
		n, err := strconv.Atoi(f)
		if err != nil || n > mostNumber || n < -mostNumber {
			return nil, &Fault{line, "a number", f, fmt.Sprintf("a whole number within %d of 0", mostNumber)}
		}
		out = append(out, n)
	}
	return out, nil
}
