package config

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// codeText reads a recipe's code, which becomes a part of lot numbers.
func codeText(text string) (string, error) {
	bad := func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("-._", r)
	}
	if text == "" || utf8.RuneCountInString(text) > MaxCodeLength || strings.ContainsFunc(text, bad) {
		return "", Fault{What: fmt.Sprintf("a code is 1 to %d letters, digits, points and dashes without spaces", MaxCodeLength), Got: clip(text), Want: "code: AB"}
	}
	return text, nil
}

// initials makes a code of a name's words, "" when none starts with a letter or
// digit.
func initials(name string) string {
	var code []rune
	for _, word := range strings.Fields(name) {
		for _, r := range word {
			if unicode.IsLetter(r) || unicode.IsDigit(r) {
				code = append(code, unicode.ToUpper(r))
				break
			}
		}
	}
	return string(code[:min(len(code), MaxCodeLength)])
}
