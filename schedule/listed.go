package schedule

import (
	"strconv"
	"strings"
)

// Listed joins words as a sentence does: "a", "a and b", "a, b and c".
func Listed(words []string) string {
	if n := len(words) - 1; n > 0 {
		return strings.Join(words[:n], ", ") + " and " + words[n]
	}
	return strings.Join(words, "")
}

// Counted is a number with its noun: "1 batch", "9 batches".
func Counted(n int, noun string) string {
	switch {
	case n == 1:
		return "1 " + noun
	case strings.HasSuffix(noun, "h") || strings.HasSuffix(noun, "x") || strings.HasSuffix(noun, "s"):
		return strconv.Itoa(n) + " " + noun + "es"
	}
	return strconv.Itoa(n) + " " + noun + "s"
}
