package schedule

import "strings"

// Listed joins words as a sentence does: "a", "a and b", "a, b and c".
func Listed(words []string) string {
	if n := len(words) - 1; n > 0 {
		return strings.Join(words[:n], ", ") + " and " + words[n]
	}
	return strings.Join(words, "")
}
